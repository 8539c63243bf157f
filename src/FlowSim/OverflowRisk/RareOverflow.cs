using FlowSim.Numerics.Sampling;

namespace FlowSim.OverflowRisk;

/// <summary>The chance of an overflow that counting hardly sees.</summary>
internal static class RareOverflow
{
    /// <summary>Chance below which subset simulation is the cheaper way to the same precision (engineering choice).</summary>
    public const double RareBelow = 1e-3;

    /// <summary>Hits from which counting is precise enough by itself, to some 20 %.</summary>
    private const int HitsThatTell = 100;

    /// <summary>Whether an overflow shows too rarely to be counted.</summary>
    /// <param name="hits">Runs that ran over.</param>
    /// <param name="runs">Runs.</param>
    public static bool IsRare(long hits, long runs) => hits < HitsThatTell && hits < RareBelow * runs;

    /// <summary>Estimates the chance by subset simulation on how near a run comes to running over.</summary>
    /// <param name="batch">What is run.</param>
    /// <param name="counted">What counting has seen.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="cancellation">Ends early.</param>
    /// <returns>
    /// The estimate; where not even subset simulation gets to an overflow, as when the gate is ridden, the lower of the two upper limits.
    /// </returns>
    public static ProbabilityEstimate Estimate(StrainingBatch batch, ProbabilityEstimate counted, ulong seed, CancellationToken cancellation)
    {
        RareEventEstimate rare = SubsetSimulation.Estimate(
            batch, StrainingBatch.SeverityOutput, StrainingBatch.RunsOver, new SubsetOptions { Seed = seed }, cancellation);
        return rare.IsBelow && (counted.Value > 0 || counted.High <= rare.High)
            ? counted
            : new ProbabilityEstimate(rare.Value, rare.Low, rare.High, rare.Evaluations, EstimateMethod.SubsetSimulation);
    }
}
