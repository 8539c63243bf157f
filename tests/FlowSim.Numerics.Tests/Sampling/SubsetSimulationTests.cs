using FlowSim.Numerics.Sampling;
using MathNet.Numerics.Distributions;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>
/// Closed forms: a plane at distance β from the origin of standard normal space holds Φ(−β) beyond it; −Σ ln uᵢ of n uniform numbers is gamma
/// distributed with shape n; Σ zᵢ² is chi-squared. Values by SciPy 1.10.1 beside each.
/// </summary>
public sealed class SubsetSimulationTests
{
    internal static TestModel Plane(int dimensions) => new(dimensions, 1, (point, outputs) =>
    {
        double sum = 0;
        foreach (double u in point) sum += StandardNormal.Quantile(u);
        outputs[0] = sum / Math.Sqrt(point.Length);
    });

    internal static TestModel Gamma3() => new(3, 1, (point, outputs) => outputs[0] = -Math.Log(point[0]) - Math.Log(point[1]) - Math.Log(point[2]));

    [Theory]
    [InlineData(3.719, 1.00006525934, 1e-4)] // scipy.stats.norm.sf(3.719)
    [InlineData(4.7534, 1.00012029509, 1e-6)] // scipy.stats.norm.sf(4.7534)
    public void Beyond_a_plane(double beta, double expected, double unit)
    {
        foreach (int dimensions in new[] { 2, 20 })
        {
            RareEventEstimate estimate = SubsetSimulation.Estimate(Plane(dimensions), 0, beta);
            Assert.Equal(0, Math.Log(estimate.Value / (expected * unit)), 3 * estimate.StandardError / estimate.Value);
            Assert.InRange(estimate.StandardError / estimate.Value, 0.02, 0.3);
            Assert.InRange(expected * unit, 0.7 * estimate.Low, 1.4 * estimate.High);
            Assert.False(estimate.IsBelow);
        }
    }

    [Fact]
    public void Beyond_curved_surfaces()
    {
        // scipy.stats.gamma.isf(1e-5, 3) and scipy.stats.chi2.isf(1e-5, 4)
        RareEventEstimate gamma = SubsetSimulation.Estimate(Gamma3(), 0, 16.5535284084145);
        Assert.Equal(0, Math.Log(gamma.Value / 1e-5), 3 * gamma.StandardError / gamma.Value);
        TestModel sphere = TestModel.Of(4, x => x.Sum(u => StandardNormal.Quantile(u) * StandardNormal.Quantile(u)));
        RareEventEstimate chi = SubsetSimulation.Estimate(sphere, 0, 28.473255424006034);
        Assert.Equal(0, Math.Log(chi.Value / 1e-5), 3 * chi.StandardError / chi.Value);
    }

    [Fact]
    public void An_event_that_is_not_rare_is_counted()
    {
        RareEventEstimate often = SubsetSimulation.Estimate(Plane(2), 0, 0);
        Assert.Equal((0, 16 * 500L), (often.Levels, often.Evaluations));
        Assert.InRange(0.5, often.Low, often.High);
        RareEventEstimate always = SubsetSimulation.Estimate(Plane(2), 0, double.NegativeInfinity);
        Assert.Equal(1, always.Value);
        Assert.True(always.Low is > 0.99 and < 1);
    }

    [Fact]
    public void A_flat_part_below_the_threshold_is_climbed()
    {
        // The output is 0 in 95 % of the cases (Φ(1.645) = 0.95002, from memory) and again flat from 3 to 3.2.
        TestModel model = new(2, 1, (point, outputs) =>
        {
            double z = (StandardNormal.Quantile(point[0]) + StandardNormal.Quantile(point[1])) / Math.Sqrt(2);
            outputs[0] = z < 1.645 ? 0 : z is > 3 and < 3.2 ? 3.2 : z;
        });
        RareEventEstimate estimate = SubsetSimulation.Estimate(model, 0, 4.2649);
        // scipy.stats.norm.sf(4.2649)
        Assert.Equal(0, Math.Log(estimate.Value / 9.9995876925e-06), 3 * estimate.StandardError / estimate.Value);
        Assert.InRange(estimate.StandardError / estimate.Value, 0.02, 0.6);
    }

    [Fact]
    public void What_cannot_happen_is_below_a_bound()
    {
        RareEventEstimate bounded = SubsetSimulation.Estimate(TestModel.Of(2, x => Math.Min(x[0], 0.99)), 0, 0.995);
        Assert.True(bounded.IsBelow);
        Assert.Equal((0, 0), (bounded.Value, bounded.Low));
        // The flat top holds 1 % and its 16 × some chains saw nothing.
        Assert.InRange(bounded.High, 1e-6, 1e-3);

        RareEventEstimate flat = SubsetSimulation.Estimate(TestModel.Of(2, x => 3), 0, 4);
        // No hit in 8000 points: Clopper and Pearson, 1 − 0.025^(1/8000).
        Assert.Equal(1 - Math.Pow(0.025, 1.0 / 8000), flat.High, 1e-12);
        Assert.True(flat.IsBelow);

        RareEventEstimate endless = SubsetSimulation.Estimate(Plane(2), 0, double.PositiveInfinity, new SubsetOptions { HighestLevels = 5 });
        Assert.True(endless.IsBelow);
        Assert.InRange(endless.High, 1e-9, 1e-5);
    }

    [Fact]
    public void Infinite_outputs_are_ordered_like_any()
    {
        TestModel model = TestModel.Of(1, x => x[0] < 1e-3 ? double.PositiveInfinity : x[0] > 0.9 ? double.NegativeInfinity : -x[0]);
        RareEventEstimate estimate = SubsetSimulation.Estimate(model, 0, 0);
        Assert.Equal(0, Math.Log(estimate.Value / 1e-3), 3 * estimate.StandardError / estimate.Value);
    }

    [Fact]
    public void A_seed_gives_the_same_bits_whatever_the_threads()
    {
        RareEventEstimate once = SubsetSimulation.Estimate(Plane(5), 0, 4, new SubsetOptions { Seed = 42 });
        TestModel parallel = new(5, 1, (point, outputs) => outputs[0] = point.ToArray().Sum(StandardNormal.Quantile) / Math.Sqrt(5), parallel: true);
        TestModel single = new(5, 1, (point, outputs) => outputs[0] = point.ToArray().Sum(StandardNormal.Quantile) / Math.Sqrt(5));
        SubsetOptions options = new() { Seed = 42 };
        Assert.Equal(once.Replicates, SubsetSimulation.Estimate(Plane(5), 0, 4, options).Replicates);
        Assert.Equal(SubsetSimulation.Estimate(single, 0, 4, options).Replicates, SubsetSimulation.Estimate(parallel, 0, 4, options).Replicates);
        Assert.NotEqual(once.Value, SubsetSimulation.Estimate(Plane(5), 0, 4, options with { Seed = 43 }).Value);
    }

    [Fact]
    public void Hostile_arguments()
    {
        TestModel model = Plane(2);
        Assert.Throws<ArgumentOutOfRangeException>(() => SubsetSimulation.Estimate(model, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SubsetSimulation.Estimate(model, 0, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SubsetOptions { LevelProbability = 0.9 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new SubsetOptions { PointsPerLevel = 10 });
        Assert.Throws<InvalidOperationException>(() => SubsetSimulation.Estimate(TestModel.Of(1, x => double.NaN), 0, 1));
        Assert.Throws<ArgumentException>(() => SubsetSimulation.Estimate(new TestModel(0, 1, (_, _) => { }), 0, 1));
        Assert.Throws<OperationCanceledException>(() => SubsetSimulation.Estimate(model, 0, 9, cancellation: new CancellationToken(true)));
    }
}
