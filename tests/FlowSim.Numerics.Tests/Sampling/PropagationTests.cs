using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Examples of JCGM 101:2008, clause 9. The text was not at hand: data and results from memory, and where there is one, the closed form is computed here.</summary>
public sealed class PropagationTests
{
    private static Propagation Run(int dimensions, Func<double[], double> function, int points = 1 << 14)
    {
        ReplicateRuns runs = new(TestModel.Of(dimensions, function), 101);
        runs.Extend(points);
        return Propagation.Of(runs, 0);
    }

    private static void AssertHolds(double expected, ReplicateEstimate actual, double rounding = 0) =>
        Assert.Equal(expected, actual.Value, 4 * actual.StandardError + rounding + 1e-12);

    [Fact]
    public void Sum_of_four_normal_inputs_9_2_2()
    {
        Propagation y = Run(4, x => x.Sum(StandardNormal.Quantile));
        AssertHolds(0, y.Mean);
        AssertHolds(2, y.StandardDeviation);
        AssertHolds(-3.919927969, y.SymmetricLow); // 2 × 1.959963985
        AssertHolds(3.919927969, y.SymmetricHigh);
        AssertHolds(-3.919927969, y.ShortestLow, 0.02);
    }

    [Fact]
    public void Sum_of_four_rectangular_inputs_9_2_3()
    {
        // Annex E: ±2√3 [2 − (3/5)^¼] = ±3.8794.
        double end = 2 * Math.Sqrt(3) * (2 - Math.Pow(0.6, 0.25));
        Assert.Equal(3.8794, end, 5e-5);
        Distribution input = new UniformDistribution(-Math.Sqrt(3), Math.Sqrt(3));
        Propagation y = Run(4, x => x.Sum(input.Quantile));
        AssertHolds(2, y.StandardDeviation);
        AssertHolds(-end, y.SymmetricLow);
        AssertHolds(end, y.SymmetricHigh);
        Assert.InRange(y.SymmetricHigh.StandardError, 1e-6, 0.01);
        Assert.Equal(2 * end, y.ShortestHigh.Value - y.ShortestLow.Value, 0.02);
    }

    [Fact]
    public void One_of_four_inputs_ten_times_as_uncertain_9_2_4()
    {
        // ±17.0158, which solves E[(10√3 − q + S)⁺] = 0.05 × 10√3 for S the sum of the three narrow inputs: P(Y > q) = E[…]/(20√3), and S has
        // E[(d + S)⁺] = Σ (−1)^k C(3, k) ((d + 3√3 − 2√3 k)⁺)⁴/(4! (2√3)³).
        double root = Math.Sqrt(3);
        double tail = 10 * root - 17.0158;
        double expectation = 0;
        for (int k = 0; k <= 3; k++)
        {
            expectation += new[] { 1, -3, 3, -1 }[k] * Math.Pow(Math.Max(0, tail + (3 - 2 * k) * root), 4) / (24 * Math.Pow(2 * root, 3));
        }
        Assert.Equal(0.025, expectation / (20 * root), 1e-6);
        Distribution narrow = new UniformDistribution(-root, root), wide = new UniformDistribution(-10 * root, 10 * root);
        Propagation y = Run(4, x => narrow.Quantile(x[0]) + narrow.Quantile(x[1]) + narrow.Quantile(x[2]) + wide.Quantile(x[3]));
        AssertHolds(Math.Sqrt(103), y.StandardDeviation, 1e-4);
        AssertHolds(-17.0158, y.SymmetricLow);
        AssertHolds(17.0158, y.SymmetricHigh);
    }

    [Fact]
    public void Mass_calibration_9_3()
    {
        // Deviation of a conventional mass from 100 g, mg. Table 6: 1.2341, 0.0754, shortest interval 1.0834 to 1.3825, itself from some 10⁵ trials.
        Distribution reference = new NormalDistribution(100_000, 0.05), difference = new NormalDistribution(1.234, 0.02);
        Distribution air = new UniformDistribution(1.10, 1.30), weight = new UniformDistribution(7000, 9000), standard = new UniformDistribution(7950, 8050);
        Propagation y = Run(5, x =>
            (reference.Quantile(x[0]) + difference.Quantile(x[1])) * (1 + (air.Quantile(x[2]) - 1.2) * (1 / weight.Quantile(x[3]) - 1 / standard.Quantile(x[4]))) - 100_000);
        Assert.Equal(1.2341, y.Mean.Value, 3e-4);
        Assert.Equal(0.0754, y.StandardDeviation.Value, 3e-4);
        Assert.Equal(1.0834, y.ShortestLow.Value, 3e-3);
        Assert.Equal(1.3825, y.ShortestHigh.Value, 3e-3);
    }

    [Theory]
    // Non-central chi-squared with 2 degrees of freedom: shortest interval by scipy.stats.ncx2 and chi2 (SciPy 1.10.1), in 10⁻⁶; table 8 rounds them.
    [InlineData(0, 0, 149.78661367769948, 50)]
    [InlineData(0.010, 0, 366.0052897467759, 112)]
    [InlineData(0.050, 1593.5673259899455, 3548.5674711622645, 502)]
    public void Comparison_loss_9_4_2(double x1, double low, double high, double u)
    {
        Distribution one = new NormalDistribution(x1, 0.005), two = new NormalDistribution(0, 0.005);
        Propagation y = Run(2, x => 1e6 * (Math.Pow(one.Quantile(x[0]), 2) + Math.Pow(two.Quantile(x[1]), 2)));
        AssertHolds(1e6 * (x1 * x1 + 2 * 25e-6), y.Mean);
        AssertHolds(1e6 * Math.Sqrt(4 * 25e-6 * x1 * x1 + 4 * 625e-12), y.StandardDeviation);
        Assert.Equal(u, y.StandardDeviation.Value, 0.7);
        double width = high - low;
        Assert.Equal(width, y.ShortestHigh.Value - y.ShortestLow.Value, 0.01 * width);
        Assert.Equal(low, y.ShortestLow.Value, 0.03 * width);
        Assert.Equal(high, y.ShortestHigh.Value, 0.03 * width);
    }

    [Fact]
    public void Comparison_loss_with_correlated_inputs_9_4_3()
    {
        // r = 0.9, x1 = 0: u = 2σ²√(1 + r²) = 67e-6; shortest interval 0 to 185e-6.
        GaussianCopula copula = new(new[,] { { 1, 0.9 }, { 0.9, 1 } });
        Propagation y = Run(2, x =>
        {
            copula.Apply(x);
            return 1e6 * 25e-6 * (Math.Pow(StandardNormal.Quantile(x[0]), 2) + Math.Pow(StandardNormal.Quantile(x[1]), 2));
        });
        AssertHolds(50, y.Mean);
        AssertHolds(50 * Math.Sqrt(1.81), y.StandardDeviation);
        Assert.Equal(67, y.StandardDeviation.Value, 0.5);
        Assert.Equal(185, y.ShortestHigh.Value, 3.0);
        Assert.Equal(0, y.ShortestLow.Value, 1.0);
    }

    [Fact]
    public void Few_runs_give_an_interval_between_their_extremes()
    {
        ReplicateRuns runs = new(TestModel.Of(1, x => x[0]), 1, 4);
        runs.Extend(2);
        Propagation y = Propagation.Of(runs, 0);
        Assert.InRange(y.SymmetricLow.Value, 0, 0.5);
        Assert.InRange(y.SymmetricHigh.Value, 0.5, 1);
        Assert.True(y.ShortestHigh.Value - y.ShortestLow.Value <= y.SymmetricHigh.Value - y.SymmetricLow.Value);
    }
}
