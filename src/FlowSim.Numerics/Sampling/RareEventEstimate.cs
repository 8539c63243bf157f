namespace FlowSim.Numerics.Sampling;

/// <summary>A small probability from subset simulation.</summary>
/// <param name="Value">The probability: mean of the replicates; 0 if <paramref name="IsBelow"/>.</param>
/// <param name="StandardError">Standard error of the mean.</param>
/// <param name="Low">Low end of the interval.</param>
/// <param name="High">High end of the interval; if <paramref name="IsBelow"/>, what the probability lies below.</param>
/// <param name="Confidence">Confidence of the interval.</param>
/// <param name="IsBelow">True when no replicate reached the threshold: only a bound is known.</param>
/// <param name="Levels">The most levels a replicate needed; 0 when plain counting was enough.</param>
/// <param name="Evaluations">Runs of the model.</param>
/// <param name="Replicates">What each replicate gave.</param>
public sealed record RareEventEstimate(
    double Value, double StandardError, double Low, double High, double Confidence, bool IsBelow, int Levels, long Evaluations, IReadOnlyList<double> Replicates)
    : IEstimate;
