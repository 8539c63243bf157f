namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Model runs in independent replicates, kept so that many questions can be asked of the same runs and so that more runs add to those there are:
/// point i of replicate r is the same however many follow.
/// </summary>
public sealed class ReplicateRuns
{
    private readonly IBatchModel _model;
    private readonly IPointSet[] _points;
    private readonly double[][] _outputs;

    /// <summary>No runs yet.</summary>
    /// <param name="model">Model.</param>
    /// <param name="seed">Seed; any number.</param>
    /// <param name="replicates">Independent replicates, 2 to 1000. With fewer than about 8 the intervals grow wide.</param>
    /// <param name="kind">Kind of points.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval, or the model has more dimensions than there are points for.</exception>
    public ReplicateRuns(IBatchModel model, ulong seed, int replicates = 16, PointKind kind = PointKind.ScrambledSobol)
    {
        BatchEvaluation.Check(model);
        Arguments.From(2, replicates, 1000);
        _model = model;
        _points = new IPointSet[replicates];
        _outputs = new double[replicates][];
        for (int r = 0; r < replicates; r++)
        {
            _points[r] = PointRoom.Create(kind, model.Dimensions, seed, r);
            _outputs[r] = [];
        }
    }

    /// <summary>Replicates.</summary>
    public int Replicates => _points.Length;

    /// <summary>Outputs of the model.</summary>
    public int Outputs => _model.Outputs;

    /// <summary>Points run in each replicate so far.</summary>
    public int PointsPerReplicate { get; private set; }

    /// <summary>Points run in all.</summary>
    public long Points => (long)PointsPerReplicate * Replicates;

    /// <summary>Runs the model until each replicate has this many points; does nothing if they have. Powers of two suit Sobol' points best.</summary>
    /// <param name="pointsPerReplicate">Points, at least 1.</param>
    /// <param name="cancellation">Asks to stop; the runs there were stay.</param>
    /// <exception cref="ArgumentOutOfRangeException">More points than memory can hold as one array.</exception>
    /// <exception cref="InvalidOperationException">The model gave NaN.</exception>
    public void Extend(int pointsPerReplicate, CancellationToken cancellation = default)
    {
        Arguments.From(1, pointsPerReplicate, Array.MaxLength / Outputs);
        int before = PointsPerReplicate;
        if (pointsPerReplicate <= before) return;
        int dimensions = _model.Dimensions;
        // One replicate after the other, in order: a batch may span two.
        long total = (long)(pointsPerReplicate - before) * Replicates;
        int size = (int)Math.Min(BatchEvaluation.Size, total);
        double[] points = new double[size * dimensions];
        double[] outputs = new double[size * Outputs];
        double[][] grown = [.. _outputs.Select(old => new double[pointsPerReplicate * Outputs])];
        for (int r = 0; r < Replicates; r++) _outputs[r].AsSpan(0, before * Outputs).CopyTo(grown[r]);
        for (long start = 0; start < total; start += size)
        {
            int count = (int)Math.Min(size, total - start);
            foreach ((int replicate, int first, int at, int run) in Pieces(start, count, before, pointsPerReplicate))
            {
                _points[replicate].Fill(first, points.AsSpan(at * dimensions, run * dimensions));
            }
            BatchEvaluation.Run(_model, points.AsSpan(0, count * dimensions), outputs.AsSpan(0, count * Outputs), cancellation);
            foreach ((int replicate, int first, int at, int run) in Pieces(start, count, before, pointsPerReplicate))
            {
                outputs.AsSpan(at * Outputs, run * Outputs).CopyTo(grown[replicate].AsSpan(first * Outputs));
            }
        }
        grown.CopyTo(_outputs, 0);
        PointsPerReplicate = pointsPerReplicate;
    }

    /// <summary>Doubles the points per replicate until an estimate is good enough or may cost no more.</summary>
    /// <param name="estimate">The estimate from these runs, such as <c>runs => runs.Mean(0)</c>.</param>
    /// <param name="goal">What is good enough.</param>
    /// <param name="first">Points per replicate to begin with, at least 1.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <returns>Whether the goal was reached.</returns>
    public bool ExtendUntil(Func<ReplicateRuns, IEstimate> estimate, PrecisionGoal goal, int first = 64, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        ArgumentNullException.ThrowIfNull(goal);
        Arguments.From(1, first);
        Extend(Math.Max(PointsPerReplicate, Math.Min(first, goal.HighestPointsPerReplicate)), cancellation);
        while (!goal.IsMetBy(estimate(this)))
        {
            if (PointsPerReplicate >= goal.HighestPointsPerReplicate) return false;
            Extend((int)Math.Min(2L * PointsPerReplicate, goal.HighestPointsPerReplicate), cancellation);
        }
        return true;
    }

    /// <summary>One output of one run.</summary>
    /// <param name="replicate">Replicate, from 0.</param>
    /// <param name="point">Point, from 0.</param>
    /// <param name="output">Output, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such run or output.</exception>
    public double this[int replicate, int point, int output] =>
        _outputs[Arguments.From(0, replicate, Replicates - 1)][Arguments.From(0, point, PointsPerReplicate - 1) * Outputs + Arguments.From(0, output, Outputs - 1)];

    /// <summary>Coordinates of the point of a run.</summary>
    /// <param name="replicate">Replicate, from 0.</param>
    /// <param name="point">Point, from 0; it need not have been run.</param>
    /// <param name="coordinates">Room for one point.</param>
    public void Coordinates(int replicate, int point, Span<double> coordinates) =>
        _points[Arguments.From(0, replicate, Replicates - 1)].Fill(point, coordinates[.._model.Dimensions]);

    /// <summary>Mean of an output.</summary>
    /// <param name="output">Output, from 0.</param>
    /// <param name="confidence">Confidence of the interval, between 0 and 1.</param>
    /// <exception cref="InvalidOperationException">Nothing was run yet, or the output was infinite in a run.</exception>
    public ReplicateEstimate Mean(int output, double confidence = 0.95)
    {
        CheckRun(output);
        double[] means = new double[Replicates];
        for (int r = 0; r < Replicates; r++)
        {
            double sum = 0;
            for (int i = output; i < _outputs[r].Length; i += Outputs) sum += _outputs[r][i];
            means[r] = sum / PointsPerReplicate;
            if (!double.IsFinite(means[r])) throw new InvalidOperationException($"Output {output} has no finite mean in replicate {r}.");
        }
        return ReplicateEstimate.FromReplicates(means, confidence);
    }

    /// <summary>Probability of an output of at least a threshold.</summary>
    /// <param name="output">Output, from 0.</param>
    /// <param name="threshold">Threshold, not NaN.</param>
    /// <param name="confidence">Confidence of the interval, between 0 and 1.</param>
    /// <exception cref="InvalidOperationException">Nothing was run yet.</exception>
    public ProportionEstimate ProbabilityAtLeast(int output, double threshold, double confidence = 0.95)
    {
        CheckRun(output);
        Arguments.NotNaN(threshold);
        int[] hits = new int[Replicates];
        for (int r = 0; r < Replicates; r++)
        {
            for (int i = output; i < _outputs[r].Length; i += Outputs) hits[r] += _outputs[r][i] >= threshold ? 1 : 0;
        }
        return ProportionEstimate.FromReplicates(hits, PointsPerReplicate, confidence);
    }

    /// <summary>Copies of an output of all runs of a replicate, in the order of the points.</summary>
    internal double[] Values(int replicate, int output)
    {
        double[] values = new double[PointsPerReplicate];
        for (int i = 0; i < values.Length; i++) values[i] = _outputs[replicate][i * Outputs + output];
        return values;
    }

    internal void CheckRun(int output)
    {
        Arguments.From(0, output, Outputs - 1);
        if (PointsPerReplicate == 0) throw new InvalidOperationException("Nothing was run yet: call Extend first.");
    }

    /// <summary>Which runs of which replicates a piece of the new work holds.</summary>
    private static IEnumerable<(int Replicate, int First, int At, int Run)> Pieces(long start, int count, int before, int after)
    {
        int each = after - before;
        for (int at = 0; at < count;)
        {
            int replicate = (int)((start + at) / each);
            int offset = (int)((start + at) % each);
            int run = Math.Min(count - at, each - offset);
            yield return (replicate, before + offset, at, run);
            at += run;
        }
    }
}
