using FlowSim.OverflowRisk;

namespace FlowSim.WholeJob;

/// <summary>How a job is computed. None of it changes what happens in it.</summary>
public sealed record JobOptions
{
    /// <summary>Whether to find quick and slow times too. Default true; false takes the best estimate for all three, in a tenth of the time.</summary>
    public bool Spread { get; init; } = true;

    /// <summary>How far the inputs of the straining may lie from what is said of them; null for <see cref="DefaultSpreads"/>.</summary>
    public IReadOnlyList<UncertainInput>? StrainingSpreads { get; init; }

    /// <summary>Number that the draws come from. The same seed gives the same answer.</summary>
    public ulong Seed { get; init; } = 1;
}
