namespace FlowSim.Numerics.Sampling;

/// <summary>The runs Sobol' indices are made from: for each point the outputs at A, at B, and at A with each group from B.</summary>
internal sealed class SobolRuns
{
    private readonly double[][] _outputs;

    private SobolRuns(int replicates, int points, int groups, int outputs)
    {
        Replicates = replicates;
        Points = points;
        Groups = groups;
        Outputs = outputs;
        _outputs = new double[replicates][];
        for (int r = 0; r < replicates; r++) _outputs[r] = new double[checked(points * (groups + 2) * outputs)];
    }

    public int Replicates { get; }

    public int Points { get; }

    public int Groups { get; }

    public int Outputs { get; }

    public long Evaluations => (long)Replicates * Points * (Groups + 2);

    /// <summary>Output at A (place 0), at B (place 1) or at A with group g from B (place 2 + g).</summary>
    public double At(int replicate, int point, int place, int output) => _outputs[replicate][(point * (Groups + 2) + place) * Outputs + output];

    public static SobolRuns Run(IBatchModel model, SobolOptions options, int[][] groups, CancellationToken cancellation)
    {
        int dimensions = model.Dimensions;
        int rows = groups.Length + 2;
        SobolRuns runs = new(options.Replicates, options.PointsPerReplicate, groups.Length, model.Outputs);
        int size = Math.Min(runs.Points, Math.Max(1, BatchEvaluation.Size / rows));
        double[] pairs = new double[size * 2 * dimensions];
        double[] points = new double[size * rows * dimensions];
        for (int r = 0; r < runs.Replicates; r++)
        {
            IPointSet set = PointRoom.Create(options.Points, 2 * dimensions, options.Seed, r);
            for (int start = 0; start < runs.Points; start += size)
            {
                int count = Math.Min(size, runs.Points - start);
                set.Fill(start, pairs.AsSpan(0, count * 2 * dimensions));
                for (int i = 0; i < count; i++)
                {
                    ReadOnlySpan<double> a = pairs.AsSpan(i * 2 * dimensions, dimensions);
                    ReadOnlySpan<double> b = pairs.AsSpan(i * 2 * dimensions + dimensions, dimensions);
                    Span<double> block = points.AsSpan(i * rows * dimensions, rows * dimensions);
                    b.CopyTo(block[dimensions..]);
                    a.CopyTo(block);
                    for (int g = 0; g < groups.Length; g++)
                    {
                        Span<double> mixed = block.Slice((2 + g) * dimensions, dimensions);
                        a.CopyTo(mixed);
                        foreach (int d in groups[g]) mixed[d] = b[d];
                    }
                }
                BatchEvaluation.Run(
                    model, points.AsSpan(0, count * rows * dimensions), runs._outputs[r].AsSpan(start * rows * model.Outputs, count * rows * model.Outputs), cancellation);
            }
        }
        return runs;
    }
}
