using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>How likely is an overflow, and what keeps it unlikely enough?</summary>
public sealed record RiskQuestion
{
    /// <summary>The setup: the middle of what is known.</summary>
    public required StrainingSetup Setup { get; init; }

    /// <summary>Inputs that are not exactly known; null for <see cref="DefaultSpreads.For"/>. An empty list, everything being exact, is refused, as is an input that does nothing in the setup.</summary>
    public IReadOnlyList<UncertainInput>? Inputs { get; init; }

    /// <summary>Which of them go together. Default none: a refractometer and a thermometer err on their own.</summary>
    public IReadOnlyList<InputCorrelation> Correlations { get; init; } = [];

    /// <summary>Chance of an overflow that is put up with. 1e-6 to 50 %. Default 1 %.</summary>
    public Ratio Tolerance { get; init; } = Ratio.FromPercent(1);

    /// <summary>Bypass and spill above this mass are counted. 0 to 1000 kg. Default 0.1 kg.</summary>
    public Mass MassThatMatters { get; init; } = Mass.FromKilograms(0.1);

    /// <summary>How late somebody at the gate may notice what the pond does. 1 s to 30 days. Default 2 min (engineering choice).</summary>
    public Duration LookEvery { get; init; } = Duration.FromMinutes(2);

    /// <summary>
    /// Runs to make for the chances, rounded up to a multiple of 16; null for as many as it takes to know the chance of an overflow to a tenth of it or a
    /// quarter of the tolerance (at most 131 072). 64 to 10 000 000. Advice and drivers take no more than this, and no more than they need. The
    /// first n runs of 2 n are those of n.
    /// </summary>
    public int? Runs { get; init; }

    /// <summary>Number that the draws come from. The same seed gives the same answer.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Threads at work; null for one per processor. The answer does not depend on it.</summary>
    public int? Threads { get; init; }
}
