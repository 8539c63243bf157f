namespace FlowSim.Numerics.Sampling;

/// <summary>
/// The probability of a rare event as a product of not so rare ones: that of exceeding a first level, times that of a second given the first, and so
/// on up to the threshold. Points given a level come from Markov chains in standard normal space, all chains a step at a time, so that the model sees
/// batches.
/// <para><b>Equation</b>: P = p₁ p₂ … pₘ with the levels placed at the 1 − p₀ quantile of the points so far; moves v = ρ u + √(1 − ρ²) ξ kept if the
/// output stays at or above the level, the step adapted to an acceptance of 0.44.</para>
/// <para><b>Error</b>: replicates whose points are independent. P is the mean of theirs, not of their logarithms, which would be biased low; but their
/// distribution is skewed, so Student's t interval is laid on ln P. All replicates share the levels: a replicate that sets its own to a share p₀ of its
/// own points makes them too easy for itself, and P comes out too high, which no spread shows.</para>
/// <para><b>Source</b>: S.-K. Au and J. L. Beck, Probabilistic Engineering Mechanics 16 (2001) 263–277; moves and their adaptation I. Papaioannou, W. Betz,
/// K. Zwirglmaier and D. Straub, Probabilistic Engineering Mechanics 41 (2015) 89–103 (adaptive conditional sampling); from memory.</para>
/// <para><b>Checked by</b>: SubsetSimulationTests.cs.</para>
/// </summary>
public static class SubsetSimulation
{
    /// <summary>Probability of an output of at least a threshold.</summary>
    /// <param name="model">Model.</param>
    /// <param name="output">Output, from 0; the larger, the nearer to the event. Flat parts cost precision; infinities are allowed.</param>
    /// <param name="threshold">Threshold, not NaN.</param>
    /// <param name="options">How many runs; the defaults if not given.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such output, or the threshold is NaN.</exception>
    /// <exception cref="InvalidOperationException">The model gave NaN.</exception>
    public static RareEventEstimate Estimate(
        IBatchModel model, int output, double threshold, SubsetOptions? options = null, CancellationToken cancellation = default)
    {
        BatchEvaluation.Check(model);
        Arguments.From(0, output, model.Outputs - 1);
        Arguments.NotNaN(threshold);
        options ??= new SubsetOptions();
        SubsetReplicate[] replicates = new SubsetReplicate[options.Replicates];
        for (int r = 0; r < replicates.Length; r++) replicates[r] = new SubsetReplicate(r, model.Dimensions, options);

        LevelBatch batch = new(model, output);
        long evaluations = Complete(replicates, batch, cancellation);
        for (int number = 0; number < options.HighestLevels; number++)
        {
            double? level = FindLevel(replicates, options.LevelProbability);
            if (level is null || level >= threshold) break;
            foreach (SubsetReplicate replicate in replicates) replicate.Begin(level.Value);
            evaluations += Complete(replicates, batch, cancellation);
        }
        return Combine(replicates, threshold, options, evaluations);
    }

    /// <summary>Takes the chains of all replicates to the end of the level, a step of all at a time.</summary>
    /// <returns>Runs of the model.</returns>
    private static long Complete(SubsetReplicate[] replicates, LevelBatch batch, CancellationToken cancellation)
    {
        long evaluations = 0;
        while (true)
        {
            foreach (SubsetReplicate replicate in replicates) batch.Ask(replicate);
            if (batch.Count == 0) return evaluations;
            evaluations += batch.Count;
            batch.Evaluate(cancellation);
        }
    }

    /// <summary>
    /// The level that a share p₀ of the points of all replicates lies at or above. Where that level is a flat part that holds all the points, the next
    /// value above it; none if there is none.
    /// </summary>
    private static double? FindLevel(SubsetReplicate[] replicates, double probability)
    {
        double[] sorted = new double[replicates.Sum(r => r.Values.Length)];
        int at = 0;
        foreach (SubsetReplicate replicate in replicates)
        {
            replicate.Values.CopyTo(sorted.AsSpan(at));
            at += replicate.Values.Length;
        }
        Array.Sort(sorted);
        double level = sorted[^(int)Math.Ceiling(probability * sorted.Length)];
        if (level > sorted[0]) return level;
        int above = Array.FindIndex(sorted, value => value > level);
        return above < 0 ? null : sorted[above];
    }

    private static RareEventEstimate Combine(SubsetReplicate[] replicates, double threshold, SubsetOptions options, long evaluations)
    {
        int[] hits = new int[replicates.Length];
        double[] values = new double[replicates.Length];
        for (int r = 0; r < replicates.Length; r++)
        {
            foreach (double value in replicates[r].Values) hits[r] += value >= threshold ? 1 : 0;
            values[r] = replicates[r].Reached * hits[r] / options.PointsPerLevel;
        }
        int levels = replicates[0].Level;
        if (levels == 0)
        {
            ProportionEstimate counted = ProportionEstimate.FromReplicates(hits, options.PointsPerLevel, options.Confidence);
            if (counted.Hits > 0)
            {
                return new(counted.Value, counted.StandardError, counted.Low, counted.High, options.Confidence, false, 0, evaluations, values);
            }
        }
        ReplicateEstimate mean = ReplicateEstimate.FromReplicates(values, options.Confidence);
        if (mean.Value == 0)
        {
            // No hit among the points of the last levels. Points of one chain depend on each other: each chain counts as one draw.
            double bound = replicates.Average(r => r.Reached) * ProportionEstimate.FromCounts(0, replicates.Sum(r => (long)r.Chains), options.Confidence).High;
            return new(0, bound, 0, bound, options.Confidence, true, levels, evaluations, values);
        }
        double half = 0.5 * (mean.High - mean.Low) / mean.Value;
        return new(mean.Value, mean.StandardError, mean.Value * Math.Exp(-half), Math.Min(1, mean.Value * Math.Exp(half)), options.Confidence, false, levels, evaluations, values);
    }
}
