namespace FlowSim.Numerics.Sampling;

/// <summary>
/// The probability of a rare event as a product of not so rare ones: that of exceeding a first level, times that of a second given the first, and so
/// on up to the threshold. Points given a level come from Markov chains in standard normal space, all chains a step at a time, so that the model sees
/// batches.
/// <para><b>Equation</b>: P = p₁ p₂ … pₘ with the levels placed at the 1 − p₀ quantile of the points so far; moves v = ρ u + √(1 − ρ²) ξ kept if the
/// output stays at or above the level, the step adapted to an acceptance of 0.44.</para>
/// <para><b>Error</b>: independent replicates. P is the mean of theirs, not of their logarithms, which would be biased low; but their distribution is
/// skewed, so Student's t interval is laid on ln P. The estimate of a replicate is biased by about 1/(points per level), small beside its scatter.</para>
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
        for (int r = 0; r < replicates.Length; r++) replicates[r] = new SubsetReplicate(r, model.Dimensions, threshold, options);

        // Start, then steps of the chains: each replicate says which points it wants to know and is told their outputs.
        LevelBatch batch = new(model, output);
        long evaluations = 0;
        while (true)
        {
            foreach (SubsetReplicate replicate in replicates) batch.Ask(replicate);
            if (batch.Count == 0) break;
            evaluations += batch.Count;
            batch.Evaluate(cancellation);
        }
        return Combine(replicates, options, evaluations);
    }

    private static RareEventEstimate Combine(SubsetReplicate[] replicates, SubsetOptions options, long evaluations)
    {
        double[] values = [.. replicates.Select(r => r.Probability)];
        int levels = replicates.Max(r => r.Level);
        if (levels == 0)
        {
            int[] hits = [.. replicates.Select(r => r.Hits)];
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
