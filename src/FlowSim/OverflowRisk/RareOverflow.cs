using FlowSim.Numerics.Sampling;

namespace FlowSim.OverflowRisk;

/// <summary>The chance of an overflow that counting hardly sees.</summary>
internal static class RareOverflow
{
    /// <summary>Chance below which subset simulation is the cheaper way to the same precision (engineering choice).</summary>
    public const double RareBelow = 1e-3;

    /// <summary>Hits from which counting is precise enough by itself, to some 20 %.</summary>
    private const int HitsThatTell = 100;

    /// <summary>Each level of the simulation is this much rarer than the one before.</summary>
    private const double LevelProbability = 0.1;

    /// <summary>Levels beyond the tolerance that are looked at: a chance a hundred times rarer is told as below that.</summary>
    private const int LevelsBeyond = 2;

    private const int FewestLevels = 5;

    /// <summary>Whether an overflow shows too rarely to be counted.</summary>
    /// <param name="hits">Runs that ran over.</param>
    /// <param name="runs">Runs.</param>
    public static bool IsRare(long hits, long runs) => hits < HitsThatTell && hits < RareBelow * runs;

    /// <summary>Estimates the chance by subset simulation on how near a run comes to running over.</summary>
    /// <param name="batch">What is run.</param>
    /// <param name="counted">What counting has seen.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="pointsPerLevel">Points of each level in each replicate.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="cancellation">Ends early.</param>
    /// <returns>
    /// The estimate; where not even subset simulation gets to an overflow, as when the gate is ridden, the lower of the two upper limits.
    /// </returns>
    public static ProbabilityEstimate Estimate(
        StrainingBatch batch, ProbabilityEstimate counted, double tolerance, int pointsPerLevel, ulong seed, CancellationToken cancellation)
    {
        var options = new SubsetOptions
        {
            Seed = seed,
            PointsPerLevel = pointsPerLevel,
            LevelProbability = LevelProbability,
            HighestLevels = Math.Max(FewestLevels, LevelsBeyond + (int)Math.Ceiling(Math.Log(tolerance) / Math.Log(LevelProbability))),
        };
        RareEventEstimate rare = SubsetSimulation.Estimate(batch, StrainingBatch.SeverityOutput, StrainingBatch.RunsOver, options, cancellation);
        return rare.IsBelow && (counted.Value > 0 || counted.High <= rare.High)
            ? counted
            : new ProbabilityEstimate(rare.Value, rare.Low, rare.High, rare.Evaluations, EstimateMethod.SubsetSimulation);
    }
}
