namespace FlowSim.Numerics.Sampling;

/// <summary>
/// What the runs say about one output: mean, standard deviation and coverage intervals. A coverage interval holds a share of the output's
/// probability (how much the output varies); the errors beside say how well the ends are known (how many runs there were).
/// <para><b>Source</b>: JCGM 101:2008, Evaluation of measurement data – Supplement 1 to the GUM, 7.5–7.7; from memory.</para>
/// <para><b>Checked by</b>: PropagationTests.cs.</para>
/// </summary>
public sealed record Propagation
{
    private Propagation()
    {
    }

    /// <summary>Mean of the output.</summary>
    public required ReplicateEstimate Mean { get; init; }

    /// <summary>Standard deviation of the output.</summary>
    public required ReplicateEstimate StandardDeviation { get; init; }

    /// <summary>Share of the probability the intervals hold.</summary>
    public required double Coverage { get; init; }

    /// <summary>Low end of the interval with as much probability below as above.</summary>
    public required ReplicateEstimate SymmetricLow { get; init; }

    /// <summary>High end of that interval.</summary>
    public required ReplicateEstimate SymmetricHigh { get; init; }

    /// <summary>Low end of the shortest interval.</summary>
    public required ReplicateEstimate ShortestLow { get; init; }

    /// <summary>High end of that interval.</summary>
    public required ReplicateEstimate ShortestHigh { get; init; }

    /// <summary>Evaluates an output of runs. The values are those of all runs together, their errors from the spread of the replicates.</summary>
    /// <param name="runs">Runs, with at least 2 points per replicate.</param>
    /// <param name="output">Output, from 0.</param>
    /// <param name="coverage">Share of the probability, between 0 and 1.</param>
    /// <param name="confidence">Confidence of the errors, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    /// <exception cref="InvalidOperationException">Too few runs, or an infinite output.</exception>
    public static Propagation Of(ReplicateRuns runs, int output, double coverage = 0.95, double confidence = 0.95)
    {
        ArgumentNullException.ThrowIfNull(runs);
        Arguments.InsideUnit(coverage);
        Arguments.InsideUnit(confidence);
        runs.CheckRun(output);
        if (runs.PointsPerReplicate < 2) throw new InvalidOperationException("An interval needs at least 2 points per replicate.");

        double[] all = new double[checked(runs.PointsPerReplicate * runs.Replicates)];
        Summary[] each = new Summary[runs.Replicates];
        for (int r = 0; r < runs.Replicates; r++)
        {
            double[] values = runs.Values(r, output);
            if (!Array.TrueForAll(values, double.IsFinite)) throw new InvalidOperationException($"Output {output} is infinite in a run of replicate {r}.");
            values.CopyTo(all, r * runs.PointsPerReplicate);
            each[r] = new Summary(values, coverage);
        }
        Summary whole = new(all, coverage);
        return new Propagation
        {
            Coverage = coverage,
            Mean = Estimate(s => s.Mean),
            StandardDeviation = Estimate(s => s.StandardDeviation),
            SymmetricLow = Estimate(s => s.SymmetricLow),
            SymmetricHigh = Estimate(s => s.SymmetricHigh),
            ShortestLow = Estimate(s => s.ShortestLow),
            ShortestHigh = Estimate(s => s.ShortestHigh),
        };

        // Quantiles of all runs together are less biased than the mean of the replicates' quantiles.
        ReplicateEstimate Estimate(Func<Summary, double> part)
        {
            ReplicateEstimate spread = ReplicateEstimate.FromReplicates([.. each.Select(part)], confidence);
            double value = part(whole);
            double half = 0.5 * (spread.High - spread.Low);
            return spread with { Value = value, Low = value - half, High = value + half };
        }
    }

    private readonly struct Summary
    {
        public Summary(double[] values, double coverage)
        {
            int count = values.Length;
            double sum = 0;
            foreach (double value in values) sum += value;
            Mean = sum / count;
            double squares = 0;
            foreach (double value in values) squares += (value - Mean) * (value - Mean);
            StandardDeviation = Math.Sqrt(squares / (count - 1));

            double[] sorted = [.. values];
            Array.Sort(sorted);
            // JCGM 101:2008, 7.7: q = pM values apart, r = (M − q)/2 for the symmetric interval.
            int inside = Math.Clamp((int)Math.Floor(coverage * count + 0.5), 1, count - 1);
            int symmetric = Math.Max(0, (count - inside + 1) / 2 - 1);
            SymmetricLow = sorted[symmetric];
            SymmetricHigh = sorted[symmetric + inside];
            int shortest = 0;
            for (int i = 1; i + inside < count; i++)
            {
                if (sorted[i + inside] - sorted[i] < sorted[shortest + inside] - sorted[shortest]) shortest = i;
            }
            ShortestLow = sorted[shortest];
            ShortestHigh = sorted[shortest + inside];
        }

        public double Mean { get; }
        public double StandardDeviation { get; }
        public double SymmetricLow { get; }
        public double SymmetricHigh { get; }
        public double ShortestLow { get; }
        public double ShortestHigh { get; }
    }
}
