using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Parts of distributions: truncation anywhere, tails from either side, moments by quadrature, borders of the arguments.</summary>
public class DistributionPartsTests
{
    private static readonly (Distribution Whole, double Low, double High)[] Cuts =
    [
        (new TriangularDistribution(-1, 2, 4), 0, 1.5),
        (new TriangularDistribution(-1, 2, 4), 0, 3),
        (new TriangularDistribution(-1, 2, 4), 2.5, 3.5),
        (new TriangularDistribution(-1, 2, 4), 2, 4),
        (new TriangularDistribution(5, 5, 9), 5.5, 7),
        (new TriangularDistribution(5, 9, 9), 8, 8.9),
        (new TriangularDistribution(1e6, 1e6 + 3, 1e6 + 4), 1e6 + 1, 1e6 + 3.5),
        (new EmpiricalDistribution([1, 4, 9, 16, 25, 36]), 2, 20),
        (new EmpiricalDistribution([1, 4, 9, 16, 25, 36]), 17, 30),
        (new EmpiricalDistribution([36, 1, 25, 4, 16, 9]), 4, 25),
        (new EmpiricalDistribution([-3, -2, 7]), -2.5, 7),
        (new NormalDistribution(3, 2), 2, 4),
        (new NormalDistribution(3, 2), 2.9, 3.3),
        (new NormalDistribution(3, 2), -1, 9),
        (new NormalDistribution(3, 2), 11, 14),
        (new NormalDistribution(3, 2), -8, -4),
        (new LogNormalDistribution(2, 0.7), 1, 3),
        (new LogNormalDistribution(2, 0.7), 4, 9),
        (new LogNormalDistribution(2, 1.4), 0.5, 40),
        (new LogNormalDistribution(2, 0.01), 1.99, 2.02),
        (new UniformDistribution(-2, 5), -1, 3),
        (new Exponential(3), 0.5, 7),
        (new Exponential(3), 6, 20),
    ];

    /// <summary>What is left is the whole, conditioned: shares, complements, quantiles there and back, and nothing outside.</summary>
    [Fact]
    public void Truncation_conditions()
    {
        foreach ((Distribution whole, double low, double high) in Cuts)
        {
            Distribution part = whole.Within(low, high);
            double inside = whole.Cumulative(high) - whole.Below(low), tolerance = 1e-13 / inside;
            Assert.Equal((low, high), (part.Quantile(0), part.Quantile(1)));
            for (int i = 1; i < 20; i++)
            {
                double x = low + (i / 20.0 * (high - low)), share = (whole.Cumulative(x) - whole.Below(low)) / inside;
                Assert.Equal(share, part.Cumulative(x), tolerance);
                Assert.Equal(1 - share, part.Above(x), tolerance);
                Assert.Equal((whole.Below(x) - whole.Below(low)) / inside, part.Below(x), tolerance);
                Assert.Equal(1 - part.Below(x), part.AtLeast(x), tolerance);
                double p = i / 20.0, q = part.Quantile(p);
                Assert.InRange(q, low, high);
                Assert.InRange(p, part.Below(q) - 1e-9, part.Cumulative(q) + 1e-9);
                Assert.True(whole is EmpiricalDistribution || part.Cumulative(q) - part.Below(q) < 1e-9);
            }

            Assert.Equal((0, 1, 1, 0), (part.Cumulative(Math.BitDecrement(low)), part.Cumulative(high), part.Above(Math.BitDecrement(low)), part.Above(high)));
            Assert.Equal((0, 1, 1, 0), (part.Below(low), part.Below(Math.BitIncrement(high)), part.AtLeast(low), part.AtLeast(Math.BitIncrement(high))));
            Assert.Throws<ArgumentOutOfRangeException>(() => part.Quantile(-0.1));
            Assert.Throws<ArgumentOutOfRangeException>(() => part.Quantile(double.NaN));
            Assert.Throws<ArgumentOutOfRangeException>(() => part.Cumulative(double.NaN));
        }
    }

    /// <summary>Mean and standard deviation of 10 000 even quantiles; the corners of a quantile function cost some 1e-5 of the standard deviation.</summary>
    [Fact]
    public void Moments_of_what_is_drawn()
    {
        const int Count = 10_000;
        foreach ((Distribution whole, double low, double high) in Cuts)
        {
            Distribution part = whole.Within(low, high);
            double[] draws = [.. Enumerable.Range(0, Count).Select(i => part.Quantile((i + 0.5) / Count))];
            double mean = draws.Average(), sd = Math.Sqrt(draws.Average(x => (x - mean) * (x - mean)));
            Assert.Equal(mean, part.Mean, 2e-4 * sd);
            Assert.Equal(1, part.StandardDeviation / sd, 5e-4);
        }
    }

    /// <summary>Far in the tail a share is as precise as in the middle: nothing is taken from 1.</summary>
    [Fact]
    public void Tails_from_above()
    {
        foreach ((Distribution whole, double low, double high) in Cuts)
        {
            foreach (double p in (double[])[0.5, 0.2, 1e-3, 1e-9])
            {
                double x = whole.QuantileFromAbove(p);
                Assert.Equal(whole.Quantile(1 - p), x, 1e-6 * (Math.Abs(x) + 1));
                if (whole is not EmpiricalDistribution and not Exponential)
                    Assert.Equal(1, whole.Above(x) / p, 1e-6);
            }
        }

        // e^−z²/2/(z √2π) (1 − 1/z² + 3/z⁴) at z = 20 (Abramowitz and Stegun 26.2.12, from memory).
        Assert.Equal(1, new NormalDistribution(3, 2).Above(43) / (Math.Exp(-200) / (20 * Math.Sqrt(2 * Math.PI)) * (1 - (1.0 / 400) + (3.0 / 160_000))), 1e-6);
        Assert.Equal(1, StandardNormal.Between(20, 21) / StandardNormal.Above(20), 1e-8);
        Assert.Equal(1, StandardNormal.Between(-21, -20) / StandardNormal.Above(20), 1e-8);
        Assert.Equal(0.6826894921370859, StandardNormal.Between(-1, 1), 1e-14);
    }

    /// <summary>(a² + b² + c² − ab − ac − bc)/18 and (a + b + c)/3 for any place of the mode; quantiles meet both ends and the mode.</summary>
    [Theory]
    [InlineData(0, 1, 5)]
    [InlineData(0, 4, 5)]
    [InlineData(-2, 0.5, 3)]
    [InlineData(2, 2, 7)]
    [InlineData(2, 7, 7)]
    public void A_triangle(double a, double c, double b)
    {
        var triangle = new TriangularDistribution(a, c, b);
        Assert.Equal((a + b + c) / 3, triangle.Mean, 1e-14);
        Assert.Equal(Math.Sqrt(((a * a) + (b * b) + (c * c) - (a * b) - (a * c) - (b * c)) / 18), triangle.StandardDeviation, 1e-14);
        double atMode = (c - a) / (b - a);
        Assert.Equal((a, b, c), (triangle.Quantile(0), triangle.Quantile(1), triangle.Quantile(atMode)));
        Assert.Equal(c, triangle.QuantileFromAbove(1 - atMode), 1e-14);
        Assert.Equal((0, 1), (triangle.Cumulative(a), triangle.Cumulative(b)));
        Assert.Equal(atMode, triangle.Cumulative(c), 1e-15);
        Assert.Equal((1, 0), (triangle.Above(a), triangle.Above(b)));
        Assert.Equal(1 - atMode, triangle.Above(c), 1e-15);
        for (int i = 0; i <= 20; i++)
        {
            double x = a + (i / 20.0 * (b - a));
            double share = x <= c && c > a ? (x - a) * (x - a) / ((b - a) * (c - a)) : 1 - ((b - x) * (b - x) / ((b - a) * (b - c)));
            Assert.Equal(share, triangle.Cumulative(x), 1e-14);
            Assert.Equal(1 - share, triangle.Above(x), 1e-14);
            Assert.Equal(x, triangle.Quantile(share), 1e-12);
            Assert.Equal(x, triangle.QuantileFromAbove(1 - share), 1e-7);
        }
    }

    /// <summary>Definition 5 of Hyndman and Fan by hand, with repeated values, a jump where they are, and flat ends.</summary>
    [Fact]
    public void Values_with_repeats()
    {
        var values = new EmpiricalDistribution([4, 1, 2, 2, 2]);
        Assert.Equal([1, 1, 1.5, 2, 2, 2, 3, 4, 4], ((double[])[0, 0.1, 0.2, 0.3, 0.5, 0.7, 0.8, 0.9, 1]).Select(p => Math.Round(values.Quantile(p), 12)));
        Assert.Equal(0.3, values.Below(2), 1e-15);
        Assert.Equal(0.7, values.Cumulative(2), 1e-15);
        Assert.Equal(0.7, values.AtLeast(2), 1e-15);
        Assert.Equal((0, 0, 1, 1), (values.Below(1), values.Cumulative(0.999), values.Cumulative(4), values.Below(4.001)));
        Assert.Equal(0.1, values.Cumulative(1), 1e-15);
        Assert.Equal(0.9, values.Below(4), 1e-15);
        Assert.Equal(0.2, values.Cumulative(1.5), 1e-15);
        Assert.Equal(2.2, values.Mean, 1e-14);
    }

    [Fact]
    public void Log_normal_moments_and_ends()
    {
        var distribution = new LogNormalDistribution(2, 0.5);
        Assert.Equal(2 * Math.Exp(0.125), distribution.Mean, 1e-14);
        Assert.Equal(2 * Math.Exp(0.125) * Math.Sqrt(Math.Exp(0.25) - 1), distribution.StandardDeviation, 1e-14);
        foreach (double x in (double[])[0, -1, double.NegativeInfinity])
            Assert.Equal((0, 1), (distribution.Cumulative(x), distribution.Above(x)));
        Assert.Equal((1, 0), (distribution.Cumulative(double.PositiveInfinity), distribution.Above(double.PositiveInfinity)));
        Assert.Equal(0.5, distribution.Within(0, 2).Cumulative(distribution.Quantile(0.25)), 1e-14);
        Assert.Equal(10, new LogNormalDistribution(1, 10).LogStandardDeviation);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LogNormalDistribution(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LogNormalDistribution(1, Math.BitIncrement(10)));
    }

    /// <summary>A family without moments of its own, open above: an exponential beyond any place is the same again.</summary>
    [Fact]
    public void A_family_that_is_open_above()
    {
        var whole = new Exponential(3);
        Distribution tail = whole.Within(4, double.PositiveInfinity);
        Assert.Equal(7, tail.Mean, 1e-6);
        Assert.Equal(3, tail.StandardDeviation, 1e-4);
        Distribution early = whole.Within(-5, 3);

        // E and E² of an exponential cut at its mean, by parts.
        double mean = 3 * (1 - (1 / (Math.E - 1))), square = 9 * (2 - (3 / (Math.E - 1)));
        Assert.Equal(mean, early.Mean, 1e-8);
        Assert.Equal(Math.Sqrt(square - (mean * mean)), early.StandardDeviation, 1e-7);
        Assert.Equal(0, early.Lowest);
    }

    [Fact]
    public void Borders_of_arguments()
    {
        Assert.Equal(3.5, new UniformDistribution(3, 4).Mean);
        Assert.Equal(-1, new UniformDistribution(-4, 2).Mean);
        Refused("high", () => new TriangularDistribution(1, 1, 1));
        Refused("high", () => new TriangularDistribution(-1.5e308, 0, 1.5e308));
        Assert.Equal(1.6e308, new TriangularDistribution(1.5e308, 1.6e308, 1.7e308).Mode);
        Assert.Throws<ArgumentNullException>(() => new EmpiricalDistribution(null!));
        Refused("values", () => new EmpiricalDistribution([1, double.PositiveInfinity, 2]));
        Refused("values", () => new EmpiricalDistribution([double.NaN, 1, 2]));
        Refused("values", () => new EmpiricalDistribution([-1.5e308, 1.5e308]));
        Assert.Equal(1.6e308, new EmpiricalDistribution([1.5e308, 1.7e308]).Median, 1e295);
        Refused("value", () => new EmpiricalDistribution([1, 2]).Cumulative(double.NaN));
        Refused("value", () => new TriangularDistribution(0, 1, 2).Cumulative(double.NaN));
        foreach (Distribution whole in (Distribution[])[new EmpiricalDistribution([1, 2, 9]), new TriangularDistribution(1, 2, 9), new Exponential(1), new UniformDistribution(1, 9)])
        {
            Refused("low", () => whole.Within(-3, -2));
            Refused("low", () => whole.Within(-3, double.BitDecrement(whole.Lowest)));
        }

        Refused("low", () => new EmpiricalDistribution([1, 2, 9]).Within(9.5, 11));
        Assert.Equal(9, new EmpiricalDistribution([1, 2, 9]).Within(9, 11).Mean);
        Assert.Equal(1, new EmpiricalDistribution([1, 2, 9]).Within(0, 1).Mean);
        foreach (double bad in (double[])[0, 1, -0.1, double.NaN])
            Refused("confidence", () => ReplicateEstimate.FromReplicates([1, 2], bad));
        static void Refused(string name, Func<object> act) => Assert.Equal(name, Assert.ThrowsAny<ArgumentOutOfRangeException>(act).ParamName);
    }

    private sealed class Exponential(double scale) : Distribution
    {
        public override double Mean => scale;

        public override double StandardDeviation => scale;

        public override double Lowest => 0;

        public override double Highest => double.PositiveInfinity;

        public override double Quantile(double probability) => -scale * Math.Log(1 - probability);

        public override double Cumulative(double value) => value <= 0 ? 0 : 1 - Math.Exp(-value / scale);
    }
}
