using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>
/// Closed forms (from memory): the function of T. Ishigami and T. Homma (1990) with a = 7, b = 0.1, and I. M. Sobol's G function with
/// Vᵢ = 1/(3 (1 + aᵢ)²), V = Π(1 + Vᵢ) − 1, Sᵢ = Vᵢ/V, Tᵢ = Vᵢ Π_{j≠i}(1 + Vⱼ)/V.
/// </summary>
public sealed class SobolIndicesTests
{
    internal static readonly double[] GCoefficients = [0, 1, 4.5, 9, 99, 99];

    internal static double Ishigami(ReadOnlySpan<double> point)
    {
        double x1 = Math.PI * (2 * point[0] - 1), x2 = Math.PI * (2 * point[1] - 1), x3 = Math.PI * (2 * point[2] - 1);
        return Math.Sin(x1) + 7 * Math.Sin(x2) * Math.Sin(x2) + 0.1 * Math.Pow(x3, 4) * Math.Sin(x1);
    }

    internal static double G(ReadOnlySpan<double> point)
    {
        double product = 1;
        for (int i = 0; i < GCoefficients.Length; i++) product *= (Math.Abs(4 * point[i] - 2) + GCoefficients[i]) / (1 + GCoefficients[i]);
        return product;
    }

    [Theory]
    [InlineData(PointKind.ScrambledSobol, 1)]
    [InlineData(PointKind.ScrambledSobol, 2)]
    [InlineData(PointKind.Random, 3)]
    public void Ishigami_function(PointKind kind, ulong seed)
    {
        TestModel model = new(3, 1, (point, outputs) => outputs[0] = Ishigami(point));
        SobolIndices indices = SobolIndices.Estimate(model, 0, new SobolOptions { PointsPerReplicate = 1024, Points = kind, Seed = seed });
        AssertWithin3StandardErrors([0.313905, 0.442411, 0], indices.FirstOrder);
        AssertWithin3StandardErrors([0.557589, 0.442411, 0.243684], indices.Total);
        // Variance a²/8 + bπ⁴/5 + b²π⁸/18 + ½.
        double variance = 49.0 / 8 + 0.1 * Math.Pow(Math.PI, 4) / 5 + 0.01 * Math.Pow(Math.PI, 8) / 18 + 0.5;
        Assert.Equal(variance, indices.Variance, 0.03 * variance);
        Assert.Equal(16 * 1024 * 5, indices.Evaluations);
        Assert.Equal(indices.Evaluations, model.Evaluations);
    }

    [Fact]
    public void G_function()
    {
        TestModel model = new(6, 1, (point, outputs) => outputs[0] = G(point));
        SobolIndices indices = SobolIndices.Estimate(model, 0, new SobolOptions { PointsPerReplicate = 512 });
        double[] v = [.. GCoefficients.Select(a => 1 / (3 * (1 + a) * (1 + a)))];
        double all = v.Aggregate(1.0, (product, x) => product * (1 + x));
        AssertWithin3StandardErrors([.. v.Select(x => x / (all - 1))], indices.FirstOrder);
        AssertWithin3StandardErrors([.. v.Select(x => x * all / (1 + x) / (all - 1))], indices.Total);
    }

    [Fact]
    public void Groups_share_out_the_variance_between_them()
    {
        // Of a product of three independent factors with group {0, 2}: as the G function of two factors, one of them V = (1 + V₀)(1 + V₂) − 1.
        TestModel model = new(3, 1, (point, outputs) => outputs[0] = (1 + point[0]) * (1 + 2 * point[1]) * (1 + 3 * point[2]));
        SobolIndices indices = SobolIndices.Estimate(model, 0, new SobolOptions { PointsPerReplicate = 512 }, [[0, 2], [1]]);
        double[] v = [1 / 12.0 / 2.25, 4 / 12.0 / 4, 9 / 12.0 / 6.25];
        double group = (1 + v[0]) * (1 + v[2]) - 1;
        double all = (1 + group) * (1 + v[1]) - 1;
        AssertWithin3StandardErrors([group / all, v[1] / all], indices.FirstOrder);
        AssertWithin3StandardErrors([group * (1 + v[1]) / all, v[1] * (1 + group) / all], indices.Total);
        Assert.Equal(16 * 512 * 4, model.Evaluations);
    }

    [Fact]
    public void All_outputs_come_from_the_same_runs_and_constant_ones_are_marked()
    {
        TestModel model = new(3, 3, (point, outputs) =>
        {
            outputs[0] = Ishigami(point);
            outputs[1] = 7;
            outputs[2] = 1e9 + point[1];
        });
        SobolOptions options = new() { PointsPerReplicate = 64 };
        IReadOnlyList<SobolIndices> all = SobolIndices.EstimateAll(model, options);
        Assert.Equal(16 * 64 * 5, model.Evaluations);
        Assert.Equal([SobolStatus.Estimated, SobolStatus.ConstantOutput, SobolStatus.Estimated], all.Select(x => x.Status));
        Assert.Equal(SobolIndices.Estimate(model, 0, options).FirstOrder, all[0].FirstOrder);
        Assert.Empty(all[1].FirstOrder);
        Assert.Equal((7, 0), (all[1].Mean, all[1].Variance));
        // A large mean does not blur the indices: the whole variance is the second input's.
        AssertWithin3StandardErrors([0, 1, 0], all[2].FirstOrder);
        Assert.Equal(1, all[2].FirstOrder[1].Value, 0.01);
        Assert.Equal(0, all[2].Total[0].Value);
        string message = Assert.Throws<InvalidOperationException>(() => SobolIndices.Estimate(model, 1, options)).Message;
        Assert.Contains("no variance", message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_output_that_varies_in_one_replicate_only_has_no_indices()
    {
        RandomPoints points = new(4, 1);
        double[] first = new double[4];
        points.Fill(0, first);
        TestModel model = new(2, 1, (point, outputs) => outputs[0] = point[0] == first[0] ? 1 : 0);
        SobolOptions options = new() { PointsPerReplicate = 16, Points = PointKind.Random };
        Assert.Equal(SobolStatus.VariesTooRarely, SobolIndices.EstimateAll(model, options)[0].Status);
        Assert.Throws<InvalidOperationException>(() => SobolIndices.Estimate(model, 0, options));
    }

    [Fact]
    public void Threads_in_the_model_change_nothing()
    {
        SobolOptions options = new() { PointsPerReplicate = 128 };
        SobolIndices one = SobolIndices.Estimate(new TestModel(3, 1, (point, outputs) => outputs[0] = Ishigami(point)), 0, options);
        SobolIndices many = SobolIndices.Estimate(new TestModel(3, 1, (point, outputs) => outputs[0] = Ishigami(point), parallel: true), 0, options);
        Assert.Equal(one.FirstOrder, many.FirstOrder);
        Assert.Equal(one.Total, many.Total);
    }

    [Fact]
    public void Hostile_arguments()
    {
        TestModel model = TestModel.Of(2, x => x[0]);
        Assert.Throws<ArgumentOutOfRangeException>(() => SobolIndices.Estimate(model, 1));
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(model, 0, groups: []));
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(model, 0, groups: [[]]));
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(model, 0, groups: [[0, 0]]));
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(model, 0, groups: [[2]]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolOptions { Replicates = 3 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolOptions { Confidence = 1 });
        Assert.Throws<InvalidOperationException>(() => SobolIndices.Estimate(TestModel.Of(1, x => double.NaN), 0));
        Assert.Throws<InvalidOperationException>(() => SobolIndices.Estimate(TestModel.Of(1, x => x[0] > 0.5 ? double.PositiveInfinity : 0), 0));
        Assert.Throws<OperationCanceledException>(() => SobolIndices.Estimate(model, 0, cancellation: new CancellationToken(true)));
    }

    private static void AssertWithin3StandardErrors(double[] expected, IReadOnlyList<ReplicateEstimate> actual)
    {
        Assert.Equal(expected.Length, actual.Count);
        for (int i = 0; i < expected.Length; i++)
        {
            // An error of rounding only has no standard error to speak of.
            Assert.Equal(expected[i], actual[i].Value, 3 * actual[i].StandardError + 1e-6);
        }
    }
}
