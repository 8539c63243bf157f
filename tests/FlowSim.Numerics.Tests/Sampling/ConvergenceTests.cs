using FlowSim.Numerics.Sampling;
using MathNet.Numerics;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>How fast the error of a mean falls: N^−½ for independent points; for Owen's scrambling and smooth functions near N^−3/2 (Owen 1997; from memory).</summary>
public sealed class ConvergenceTests
{
    [Theory]
    [InlineData(PointKind.Random, -0.6, -0.4)]
    [InlineData(PointKind.ScrambledSobol, -1.8, -1.2)]
    public void Of_a_smooth_function(PointKind kind, double steepest, double shallowest) =>
        Assert.InRange(Slope(kind, 3, x => Math.Exp(x[0] - x[1] * x[2]), 10), steepest, shallowest);

    [Fact]
    public void Of_a_probability()
    {
        // A slanted edge in four dimensions: no faster theory than "better than N^-½" is claimed.
        Assert.InRange(Slope(PointKind.ScrambledSobol, 4, x => x.Sum() > 2.3 ? 1 : 0, 12), -1, -0.56);
        Assert.InRange(Slope(PointKind.Random, 4, x => x.Sum() > 2.3 ? 1 : 0, 12), -0.6, -0.4);
    }

    /// <summary>Slope of ln(standard deviation over 100 replicates) over ln N for N = 16 … 2^last.</summary>
    private static double Slope(PointKind kind, int dimensions, Func<double[], double> function, int last)
    {
        ReplicateRuns runs = new(TestModel.Of(dimensions, function), 31, 100, kind);
        List<double> x = [], y = [];
        for (int log = 4; log <= last; log++)
        {
            runs.Extend(1 << log);
            x.Add(log * Math.Log(2));
            y.Add(Math.Log(runs.Mean(0).StandardError));
        }
        return Fit.Line([.. x], [.. y]).B;
    }
}
