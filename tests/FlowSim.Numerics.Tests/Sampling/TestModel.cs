using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>A model that is a function of one point.</summary>
internal sealed class TestModel(int dimensions, int outputs, TestModel.Function function, bool parallel = false) : IBatchModel
{
    public delegate void Function(ReadOnlySpan<double> point, Span<double> outputs);

    public int Dimensions { get; } = dimensions;

    public int Outputs { get; } = outputs;

    public long Evaluations { get; private set; }

    public static TestModel Of(int dimensions, Func<double[], double> function) =>
        new(dimensions, 1, (point, outputs) => outputs[0] = function(point.ToArray()));

    public void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
    {
        int count = points.Length / Dimensions;
        Assert.Equal(points.Length, count * Dimensions);
        Assert.Equal(outputs.Length, count * Outputs);
        Evaluations += count;
        if (!parallel)
        {
            for (int i = 0; i < count; i++) function(points.Slice(i * Dimensions, Dimensions), outputs.Slice(i * Outputs, Outputs));
            return;
        }
        double[] from = points.ToArray();
        double[] to = new double[outputs.Length];
        Parallel.For(0, count, i => function(from.AsSpan(i * Dimensions, Dimensions), to.AsSpan(i * Outputs, Outputs)));
        to.CopyTo(outputs);
    }
}
