using FlowSim.Numerics.Sampling;
using MathNet.Numerics;

namespace FlowSim.OverflowRisk;

/// <summary>From counts to chances.</summary>
internal static class Chance
{
    /// <summary>Probability on either side of a 95 % interval.</summary>
    private const double Tail = 0.025;

    /// <summary>Fewest events that a chance is told from: the finest chance that n runs can tell is this over n (engineering choice).</summary>
    public const double FewestEvents = 10;

    /// <summary>The finest chance that a number of runs can tell, or the tolerance if that is coarser.</summary>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="runs">Runs.</param>
    public static double AsFarAsTold(double tolerance, long runs) => Math.Max(tolerance, Math.Min(0.5, FewestEvents / runs));

    /// <summary>A chance from all runs pooled, with the exact binomial interval: for quasi-random draws on the wide side.</summary>
    /// <param name="hits">Runs in which it happened.</param>
    /// <param name="runs">Runs.</param>
    public static ProbabilityEstimate Pooled(long hits, long runs) => Told(ProportionEstimate.FromCounts(hits, runs));

    /// <summary>A chance from independent replicates.</summary>
    /// <param name="hits">Runs in which it happened, by replicate.</param>
    /// <param name="runsEach">Runs in each replicate.</param>
    public static ProbabilityEstimate Counted(ReadOnlySpan<int> hits, int runsEach) => Told(ProportionEstimate.FromReplicates(hits, runsEach));

    /// <summary>Most hits with which the high end of <see cref="Pooled"/> is within a tolerance; −1 when not even none is enough.</summary>
    /// <param name="runs">Runs.</param>
    /// <param name="tolerance">Tolerance, above 0, below 1.</param>
    public static long MostHits(long runs, double tolerance)
    {
        (long enough, long tooMany) = (-1, runs);
        while (tooMany - enough > 1)
        {
            long middle = (enough + tooMany) / 2;
            if (IsWithin(middle, runs, tolerance))
                enough = middle;
            else
                tooMany = middle;
        }

        return enough;
    }

    /// <summary>Whether the high end of <see cref="Pooled"/> is within a tolerance.</summary>
    /// <param name="hits">Runs in which it happened, fewer than all.</param>
    /// <param name="runs">Runs.</param>
    /// <param name="tolerance">Tolerance, above 0, below 1.</param>
    public static bool IsWithin(long hits, long runs, double tolerance) =>
        hits < runs && SpecialFunctions.BetaRegularized(hits + 1, runs - hits, tolerance) >= 1 - Tail;

    private static ProbabilityEstimate Told(ProportionEstimate estimate) =>
        new(estimate.Value, estimate.Low, estimate.High, estimate.Points, EstimateMethod.Counting);
}
