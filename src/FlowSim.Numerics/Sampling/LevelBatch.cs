namespace FlowSim.Numerics.Sampling;

/// <summary>Gathers the points that replicates ask for, evaluates them together and hands the outputs back.</summary>
internal sealed class LevelBatch(IBatchModel model, int output)
{
    private readonly List<(SubsetReplicate Replicate, int First, int Count)> _asked = [];
    private double[] _points = [];
    private double[] _outputs = [];

    /// <summary>Points gathered.</summary>
    public int Count { get; private set; }

    /// <summary>Takes the points a replicate wants to know, if any.</summary>
    public void Ask(SubsetReplicate replicate)
    {
        int wanted = replicate.Propose();
        if (wanted == 0) return;
        int dimensions = model.Dimensions;
        if (_points.Length < (Count + wanted) * dimensions) Array.Resize(ref _points, 2 * (Count + wanted) * dimensions);
        Span<double> room = _points.AsSpan(Count * dimensions, wanted * dimensions);
        ReadOnlySpan<double> normal = replicate.Proposals;
        for (int i = 0; i < room.Length; i++) room[i] = StandardNormal.InsideUnit(normal[i]);
        _asked.Add((replicate, Count, wanted));
        Count += wanted;
    }

    /// <summary>Evaluates what was gathered and empties the batch.</summary>
    public void Evaluate(CancellationToken cancellation)
    {
        int dimensions = model.Dimensions, outputs = model.Outputs;
        if (_outputs.Length < Count * outputs) _outputs = new double[_points.Length / dimensions * outputs];
        for (int start = 0; start < Count; start += BatchEvaluation.Size)
        {
            int count = Math.Min(BatchEvaluation.Size, Count - start);
            BatchEvaluation.Run(
                model, _points.AsSpan(start * dimensions, count * dimensions), _outputs.AsSpan(start * outputs, count * outputs), cancellation);
        }
        foreach ((SubsetReplicate replicate, int first, int count) in _asked)
        {
            double[] values = new double[count];
            for (int i = 0; i < count; i++) values[i] = _outputs[(first + i) * outputs + output];
            replicate.Learn(values);
        }
        _asked.Clear();
        Count = 0;
    }
}
