using FlowSim.Numerics.Sampling;

namespace FlowSim.OverflowRisk;

/// <summary>The chance of an overflow that counting hardly sees.</summary>
internal static class RareOverflow
{
    /// <summary>Chance below which subset simulation is the cheaper way to the same precision (engineering choice).</summary>
    private const double RareBelow = 1e-3;

    /// <summary>Hits from which counting is precise enough by itself, to some 20 %.</summary>
    private const int HitsThatTell = 100;

    /// <summary>Whether an overflow shows too rarely to be counted.</summary>
    /// <param name="hits">Runs that ran over.</param>
    /// <param name="runs">Runs.</param>
    public static bool IsRare(long hits, long runs) => hits < HitsThatTell && hits < RareBelow * runs;

    public static ProbabilityEstimate Estimate(StrainingBatch batch, ProbabilityEstimate counted, ulong seed, CancellationToken cancellation) => counted;
}
