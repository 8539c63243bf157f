using FlowSim.Numerics.Sampling;
using FsCheck.Xunit;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>
/// Closed forms: the moments of the uniform, triangular and log-normal distributions as in any table (from memory). Truncated ones against
/// SciPy 1.10.1: <c>scipy.stats.truncnorm</c>, and <c>scipy.integrate.quad</c> of the density for the log-normal.
/// </summary>
public sealed class DistributionTests
{
    public static TheoryData<Distribution> Kinds => [.. Samples()];

    private static IEnumerable<Distribution> Samples()
    {
        yield return new NormalDistribution(17.5, 0.8);
        yield return new LogNormalDistribution(120, Math.Log(2));
        yield return new UniformDistribution(-3, 5);
        yield return new TriangularDistribution(1, 3, 7);
        yield return new TriangularDistribution(1, 1, 7);
        yield return new TriangularDistribution(1, 7, 7);
        yield return new EmpiricalDistribution([3, 1, 2, 2, 2, 9, 4]);
        yield return new NormalDistribution(0, 1).Within(-1, 2);
        yield return new NormalDistribution(0, 1).Within(6, 7);
        yield return new NormalDistribution(0, 1).Within(-7, -6);
        yield return new LogNormalDistribution(3, 0.7).Within(30, 100);
        yield return new TriangularDistribution(1, 3, 7).Within(2, 6);
        yield return new TriangularDistribution(1, 3, 7).Within(4, 6.5);
        yield return new EmpiricalDistribution([3, 1, 2, 2, 2, 9, 4]).Within(1.5, 8);
        yield return new EmpiricalDistribution([3, 1, 2, 2, 2, 9, 4]).Within(2.5, 9);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_mean_and_sd_are_those_of_what_the_quantile_draws(Distribution distribution)
    {
        // The definition, by the midpoint rule over the shares; its own error at these many points is what the tolerance covers.
        const int points = 2_000_000;
        double sum = 0, squares = 0;
        double centre = distribution.Median;
        for (int i = 0; i < points; i++)
        {
            double off = distribution.Quantile((i + 0.5) / points) - centre;
            sum += off;
            squares += off * off;
        }
        double mean = sum / points;
        double sd = Math.Sqrt(squares / points - mean * mean);
        Assert.Equal(distribution.Mean, centre + mean, 1e-5 * sd);
        Assert.Equal(distribution.StandardDeviation, sd, 1e-4 * sd);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_cumulative_undoes_the_quantile(Distribution distribution)
    {
        bool atoms = distribution is EmpiricalDistribution || distribution.ToString()!.Contains("values", StringComparison.Ordinal);
        double last = double.NegativeInfinity;
        for (int i = 0; i <= 1000; i++)
        {
            double share = i / 1000.0;
            double value = distribution.Quantile(share);
            Assert.True(value >= last && value >= distribution.Lowest && value <= distribution.Highest);
            last = value;
            if (atoms) Assert.True(distribution.Cumulative(value) >= share - 1e-12);
            else Assert.Equal(share, distribution.Cumulative(value), 1e-9);
        }
        Assert.Equal(distribution.Lowest, distribution.Quantile(0));
        Assert.Equal(distribution.Highest, distribution.Quantile(1));
        Assert.Equal(1, distribution.Cumulative(double.PositiveInfinity));
        Assert.Equal(0, distribution.Cumulative(double.NegativeInfinity));
    }

    [Theory]
    // scipy.stats.truncnorm(a, b): mean, std, ppf(0.3)
    [InlineData(-1, 2, 0.22963717909132902, 0.7209455868590458, -0.24240381788922707)]
    [InlineData(0.3, 0.35, 0.32493229760677167, 0.01443306006352224, 0.3149157560533533)]
    [InlineData(6, 7, 6.157210903378302, 0.1508256646508529, 6.0575631913034345)]
    [InlineData(8, double.PositiveInfinity, 8.12136811223618, 0.11968660511012702, 8.043801652928057)]
    [InlineData(double.NegativeInfinity, -1, -1.5251352761609822, 0.4462036144747672, -1.6686177828319293)]
    public void A_truncated_normal_agrees_with_a_reference(double low, double high, double mean, double sd, double quantile)
    {
        Distribution distribution = new NormalDistribution(10, 2).Within(10 + 2 * low, 10 + 2 * high);
        Assert.Equal(10 + 2 * mean, distribution.Mean, 1e-8);
        Assert.Equal(2 * sd, distribution.StandardDeviation, 1e-7);
        Assert.Equal(10 + 2 * quantile, distribution.Quantile(0.3), 1e-9);
    }

    [Theory]
    // scipy.integrate.quad of the density
    [InlineData(2, 0.5, 1, 5, 2.2542406787693707, 0.8977320245295962)]
    [InlineData(2, 0.01, 2, 2.001, 2.0004998542360806, 0.0002886630947093429)]
    [InlineData(3, 0.7, 30, 100, 36.6607831126558, 7.398552366605483)]
    [InlineData(1, 3, 200000, double.PositiveInfinity, 543036.5735252107, 1551933.487925765)]
    public void A_truncated_log_normal_agrees_with_a_reference(double median, double logSd, double low, double high, double mean, double sd)
    {
        Distribution distribution = new LogNormalDistribution(median, logSd).Within(low, high);
        Assert.Equal(mean, distribution.Mean, 1e-11 * mean);
        Assert.Equal(sd, distribution.StandardDeviation, 1e-8 * sd);
    }

    [Fact]
    public void Closed_forms()
    {
        Assert.Equal(8 / Math.Sqrt(12), new UniformDistribution(-3, 5).StandardDeviation, 1e-14);
        Assert.Equal(11.0 / 3, new TriangularDistribution(1, 3, 7).Mean, 1e-14);
        Assert.Equal(Math.Sqrt((1 + 9 + 49 - 3 - 7 - 21) / 18.0), new TriangularDistribution(1, 3, 7).StandardDeviation, 1e-14);
        LogNormalDistribution doubling = new(120, Math.Log(2));
        Assert.Equal(240, doubling.Quantile(0.841344746068543), 1e-9); // Φ(1), from memory
        Assert.Equal(120 * Math.Exp(0.5 * Math.Log(2) * Math.Log(2)), doubling.Mean, 1e-11);
        Assert.Equal(17.5 + 0.8 * 1.959963984540054, new NormalDistribution(17.5, 0.8).Quantile(0.975), 1e-12); // from memory
    }

    [Fact]
    public void Hyndman_and_Fan_5()
    {
        // numpy.quantile(method="hazen") is their definition 5; NumPy 1.24: quantile([3, 1, 2, 5, 9], [0.1, 0.25, 0.5, 0.8]) = 1, 1.75, 3, 7
        EmpiricalDistribution distribution = new([3, 1, 2, 5, 9]);
        Assert.Equal([1, 1.75, 3, 7], new[] { 0.1, 0.25, 0.5, 0.8 }.Select(distribution.Quantile));
        Assert.Equal(4, distribution.Mean, 1e-14);
    }

    [Property]
    public void An_empirical_distribution_keeps_the_mean_and_the_range(double[] numbers)
    {
        double[] values = [.. numbers.Where(x => Math.Abs(x) < 1e6)];
        if (values.Length < 2) return;
        EmpiricalDistribution distribution = new(values);
        double scale = values.Max(Math.Abs);
        Assert.Equal(values.Average(), distribution.Mean, 1e-12 * scale + 1e-300);
        double population = Math.Sqrt(values.Sum(x => (x - values.Average()) * (x - values.Average())) / values.Length);
        Assert.True(distribution.StandardDeviation <= population * (1 + 1e-9) + 1e-12 * scale);
        Assert.Equal(values.Min(), distribution.Quantile(0));
        Assert.Equal(values.Max(), distribution.Quantile(1));
    }

    [Property]
    public void Truncation_is_conditional_probability(double a, double b, double c, byte kind)
    {
        Distribution whole = Samples().ElementAt(kind % 15);
        double[] at = [.. new[] { a, b, c }.Select(x => double.IsFinite(x) ? whole.Quantile(1 / (1 + Math.Exp(-x % 8))) : whole.Median).Order()];
        if (!(at[0] < at[2])) return;
        Distribution inside = whole.Within(at[0], at[2]);
        double expected = (whole.Cumulative(at[1]) - whole.Below(at[0])) / (whole.Cumulative(at[2]) - whole.Below(at[0]));
        Assert.Equal(expected, inside.Cumulative(at[1]), 1e-6);
        Assert.InRange(inside.Mean, at[0], at[2]);
        Assert.InRange(inside.StandardDeviation, 0, (at[2] - at[0]) / 2 * (1 + 1e-12)); // Popoviciu's inequality
        Assert.Same(inside, inside.Within(at[0], at[2]));
        Assert.Same(whole, whole.Within(double.NegativeInfinity, double.PositiveInfinity));
        Distribution again = whole.Within(at[0], double.PositiveInfinity).Within(double.NegativeInfinity, at[2]);
        Assert.Equal(inside.Quantile(0.3), again.Quantile(0.3), 1e-12 * Math.Abs(at[2]));
    }

    [Fact]
    public void A_truncated_tail_keeps_its_precision()
    {
        // By symmetry the two tails mirror each other; beyond 8.3 sd, 1 − Φ is 0 in doubles unless taken from above.
        Distribution upper = new NormalDistribution(0, 1).Within(10, 11);
        Distribution lower = new NormalDistribution(0, 1).Within(-11, -10);
        foreach (double share in new[] { 0.01, 0.3, 0.5, 0.9 }) Assert.Equal(-lower.Quantile(1 - share), upper.Quantile(share), 1e-12);
    }

    [Fact]
    public void A_family_without_closed_forms_is_integrated()
    {
        // Exponential beyond 1 is exponential again: mean 2, sd 1 (memoryless); up to 1: mean 1 − 1/(e − 1).
        Distribution tail = new Exponential().Within(1, double.PositiveInfinity);
        Assert.Equal(2, tail.Mean, 1e-7);
        Assert.Equal(1, tail.StandardDeviation, 1e-6);
        Assert.Equal(1 - 1 / (Math.E - 1), new Exponential().Within(0, 1).Mean, 1e-9);
    }

    [Fact]
    public void Hostile_arguments_are_refused_by_name()
    {
        Refused("standardDeviation", () => new NormalDistribution(0, 0));
        Refused("standardDeviation", () => new NormalDistribution(0, double.NaN));
        Refused("mean", () => new NormalDistribution(double.PositiveInfinity, 1));
        Refused("median", () => new LogNormalDistribution(0, 1));
        Refused("logStandardDeviation", () => new LogNormalDistribution(1, -1));
        Refused("logStandardDeviation", () => new LogNormalDistribution(1, 40));
        Refused("median", () => new LogNormalDistribution(1e300, 9));
        Refused("high", () => new UniformDistribution(2, 2));
        Refused("high", () => new UniformDistribution(-1.5e308, 1.5e308));
        Refused("mode", () => new TriangularDistribution(0, 2, 1));
        Refused("mode", () => new TriangularDistribution(0, double.NaN, 1));
        Refused("values", () => new EmpiricalDistribution([1]));
        Refused("values", () => new EmpiricalDistribution([1, double.NaN]));
        Refused("probability", () => new UniformDistribution(0, 1).Quantile(double.NaN));
        Refused("probability", () => new NormalDistribution(0, 1).Quantile(1.0000001));
        Refused("value", () => new NormalDistribution(0, 1).Cumulative(double.NaN));
        Refused("low", () => new UniformDistribution(0, 1).Within(1, 2));
        Refused("low", () => new NormalDistribution(0, 1).Within(50, 60));
        Refused("low", () => new EmpiricalDistribution([1, 2, 9]).Within(10, 11));
        Refused("low", () => new UniformDistribution(0, 1).Within(double.NaN, 2));
        Refused("high", () => new UniformDistribution(0, 1).Within(0.5, 0.5));
    }

    [Fact]
    public void Repeated_values_may_stand_alone_inside_the_bounds()
    {
        Distribution twos = new EmpiricalDistribution([1, 2, 2, 2, 3]).Within(2, 2.0000001);
        Assert.Equal(2, twos.Median, 1e-6);
        Distribution all = new EmpiricalDistribution([2, 2]);
        Assert.Equal((2, 0), (all.Mean, all.StandardDeviation));
    }

    private static void Refused(string name, Func<object> act) =>
        Assert.Equal(name, Assert.ThrowsAny<ArgumentOutOfRangeException>(act).ParamName);

    private sealed class Exponential : Distribution
    {
        public override double Mean => 1;
        public override double StandardDeviation => 1;
        public override double Lowest => 0;
        public override double Highest => double.PositiveInfinity;
        public override double Quantile(double probability) => -Math.Log(1 - probability);
        public override double Cumulative(double value) => 1 - Math.Exp(-value);
    }
}
