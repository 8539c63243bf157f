namespace FlowSim.FieldMeasurements;

/// <summary>What one source of error has in a result.</summary>
/// <param name="Name">What is not exactly known, in a few words.</param>
/// <param name="Share">Its share of the variance, 0 to 1; the shares of a result add up to 1.</param>
/// <param name="StandardDeviation">What it alone would put on the result: on the natural logarithm of a viscosity, on a moisture as a share of mass.</param>
public sealed record ErrorShare(string Name, double Share, double StandardDeviation);
