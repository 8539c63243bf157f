using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace FlowSim.Tests;

public class LogNormalMomentsTests
{
    /// <summary>∫ dⁿ p(d) dd with MathNet's log-normal density by quadrature in ln d, independent of the closed form.</summary>
    [Theory]
    [InlineData(-1, 500e-6, 0.6, 400e-6, 1e-1)]
    [InlineData(0, 500e-6, 0.6, 1e-6, 400e-6)]
    [InlineData(1, 500e-6, 0.6, 200e-6, 600e-6)]
    [InlineData(2, 100e-6, 0.3, 1e-6, 150e-6)]
    [InlineData(2, 1, 1.2, 0.5, 40)]
    [InlineData(3, 2e-3, 0.05, 1.9e-3, 2.2e-3)]
    public void Partial_moment_against_quadrature(int order, double median, double spread, double low, double high)
    {
        LogNormal sizes = new(Math.Log(median), spread);
        double bottom = Math.Max(Math.Log(low), Math.Log(median) - (14 * spread)), top = Math.Min(Math.Log(high), Math.Log(median) + (14 * spread));
        double expected = 0;
        for (int i = 0; i < 8; i++)
        {
            double from = bottom + (i * (top - bottom) / 8), to = bottom + ((i + 1) * (top - bottom) / 8);
            expected += Integrate.GaussLegendre(x => Math.Exp((order + 1) * x) * sizes.Density(Math.Exp(x)), from, to, 64);
        }

        Assert.Equal(expected, LogNormalMoments.Partial(order, median, spread, low, high), 1e-10 * expected);
    }

    /// <summary>The whole moment of order n is D50ⁿ e^(n²s²/2): mean e^(s²/2), mean square e^(2s²).</summary>
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1.1972173631218102)]
    [InlineData(2, 2.054433210643888)]
    public void Whole_moments(int order, double inUnitsOfTheMedian) =>
        Assert.Equal(inUnitsOfTheMedian, LogNormalMoments.Partial(order, 1, 0.6, 0, double.PositiveInfinity), 1e-14);

    [Fact]
    public void Nothing_lies_between_sizes_in_the_wrong_order() => Assert.Equal(0, LogNormalMoments.Partial(1, 1, 0.6, 2, 1));
}
