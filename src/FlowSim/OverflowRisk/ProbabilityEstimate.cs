namespace FlowSim.OverflowRisk;

/// <summary>A probability as far as it could be found out.</summary>
/// <param name="Value">Best estimate, 0 to 1.</param>
/// <param name="Low">Low end of the 95 % confidence interval.</param>
/// <param name="High">High end. Above 0 even if nothing was seen to happen.</param>
/// <param name="Runs">Runs it was found from.</param>
/// <param name="Method">How.</param>
public sealed record ProbabilityEstimate(double Value, double Low, double High, long Runs, EstimateMethod Method);

/// <summary>How a probability was found.</summary>
public enum EstimateMethod
{
    /// <summary>By counting over scrambled quasi-random draws.</summary>
    Counting,

    /// <summary>By subset simulation, for what happens in fewer runs than can be counted.</summary>
    SubsetSimulation,
}
