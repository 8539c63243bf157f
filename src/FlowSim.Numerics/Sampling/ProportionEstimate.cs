using MathNet.Numerics.Distributions;

namespace FlowSim.Numerics.Sampling;

/// <summary>A probability counted in independent replicates.</summary>
/// <param name="Value">Hits over points.</param>
/// <param name="StandardError">Standard error, from the spread of the replicates or, with few hits or misses, of independent draws.</param>
/// <param name="Low">Low end of the interval, within 0 to 1.</param>
/// <param name="High">High end of the interval, within 0 to 1.</param>
/// <param name="Confidence">Confidence of the interval.</param>
/// <param name="Hits">Points that were hits.</param>
/// <param name="Points">Points in all.</param>
/// <param name="IsFromCounts">True when the interval is Clopper and Pearson's of the counts, because hits or misses were too few for the spread of
/// the replicates to tell.</param>
public sealed record ProportionEstimate(
    double Value, double StandardError, double Low, double High, double Confidence, long Hits, long Points, bool IsFromCounts) : IEstimate
{
    /// <summary>Below this many hits or misses the replicates are not asked. Some of them would have none.</summary>
    public const int FewestForReplicates = 10;

    /// <summary>
    /// The estimate from the hits in each replicate. With at least <see cref="FewestForReplicates"/> hits and misses: Student's t interval of the
    /// replicates, laid on the log odds (so that it is skewed as a small probability is and stays within 0 to 1). Else Clopper and Pearson's of the
    /// pooled counts, which is on the wide side. No interval is without width: where all replicates agree, the next could still differ by one hit.
    /// </summary>
    /// <param name="hits">Hits in each replicate, at least two replicates.</param>
    /// <param name="pointsPerReplicate">Points of each replicate, at least 1.</param>
    /// <param name="confidence">Confidence wanted, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public static ProportionEstimate FromReplicates(ReadOnlySpan<int> hits, int pointsPerReplicate, double confidence = 0.95)
    {
        Arguments.From(1, pointsPerReplicate);
        Arguments.From(2, hits.Length, name: nameof(hits));
        long all = 0;
        foreach (int count in hits) all += Arguments.From(0, count, pointsPerReplicate, nameof(hits));
        long points = (long)pointsPerReplicate * hits.Length;
        if (Math.Min(all, points - all) < FewestForReplicates) return FromCounts(all, points, confidence);

        Arguments.InsideUnit(confidence);
        double[] shares = new double[hits.Length];
        for (int i = 0; i < hits.Length; i++) shares[i] = (double)hits[i] / pointsPerReplicate;
        ReplicateEstimate spread = ReplicateEstimate.FromReplicates(shares, confidence);
        double p = (double)all / points;
        // Were a further replicate to differ by one hit with probability q, R agreeing ones would be seen with (1 − q)^R ≥ 1 − confidence
        // only if q < −ln(1 − confidence)/R; the mean is then off by q hits of one replicate.
        double leastHalf = -Math.Log(1 - confidence) / points;
        double half = Math.Max(ReplicateEstimate.StudentFactor(hits.Length, confidence) * spread.StandardError, leastHalf);
        double logOdds = Math.Log(p / (1 - p));
        double halfLogOdds = half / (p * (1 - p));
        return new(p, Math.Max(spread.StandardError, leastHalf / 3), Odds(logOdds - halfLogOdds), Odds(logOdds + halfLogOdds), confidence, all, points, false);

        static double Odds(double logOdds) => 1 / (1 + Math.Exp(-logOdds));
    }

    /// <summary>Clopper and Pearson's interval (1934) of independent draws: beta quantiles.</summary>
    /// <param name="hits">Hits, 0 to <paramref name="points"/>.</param>
    /// <param name="points">Draws, at least 1.</param>
    /// <param name="confidence">Confidence wanted, between 0 and 1; each tail gets half of what is missing to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public static ProportionEstimate FromCounts(long hits, long points, double confidence = 0.95)
    {
        Arguments.InsideUnit(confidence);
        Arguments.From(1, points, long.MaxValue);
        Arguments.From(0, hits, points);
        double tail = 0.5 * (1 - confidence);
        double p = (double)hits / points;
        double low = hits == 0 ? 0 : hits == points ? Math.Pow(tail, 1.0 / points) : Beta.InvCDF(hits, points - hits + 1, tail);
        double high = hits == points ? 1 : hits == 0 ? 1 - Math.Pow(tail, 1.0 / points) : Beta.InvCDF(hits + 1, points - hits, 1 - tail);
        // With no hit at all the binomial standard error would be 0; that of one hit is the resolution there is.
        double counted = Math.Clamp(hits, Math.Min(1, 0.5 * points), Math.Max(points - 1, 0.5 * points)) / points;
        return new(p, Math.Sqrt(counted * (1 - counted) / points), low, high, confidence, hits, points, true);
    }
}
