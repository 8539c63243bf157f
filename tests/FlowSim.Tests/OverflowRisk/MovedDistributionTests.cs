using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Spreads carried to another middle, against the same spreads written down there.</summary>
public class MovedDistributionTests
{
    public static TheoryData<string, Distribution, double, Distribution> Carried => new()
    {
        { "normal", new NormalDistribution(3, 0.5), -2, new NormalDistribution(-2, 0.5) },
        { "uniform", new UniformDistribution(2, 4), 10, new UniformDistribution(9, 11) },
        { "log-normal", new LogNormalDistribution(3, 0.4), 12, new LogNormalDistribution(12, 0.4) },
    };

    [Theory]
    [MemberData(nameof(Carried), DisableDiscoveryEnumeration = true)]
    public void A_spread_is_carried_whole(string name, Distribution from, double middle, Distribution there)
    {
        Distribution moved = MovedDistribution.To(from, middle);
        Assert.Equal(middle, moved.Median, 1e-12);
        Assert.Equal(there.Mean, moved.Mean, 1e-12);
        Assert.Equal(there.StandardDeviation, moved.StandardDeviation, 1e-12);
        Assert.Equal(there.Lowest, moved.Lowest, 1e-12);
        Assert.Equal(there.Highest, moved.Highest, 1e-12);
        foreach (double share in new[] { 0.01, 0.3, 0.5, 0.8, 0.99 })
        {
            double value = there.Quantile(share);
            Assert.Equal(value, moved.Quantile(share), 1e-12);
            Assert.Equal(share, moved.Cumulative(value), 1e-12);
        }

        Assert.Contains(name, moved.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_lies_there_already_is_itself()
    {
        var spread = new NormalDistribution(3, 0.5);
        Assert.Same(spread, MovedDistribution.To(spread, 3));
    }

    /// <summary>A factor has no place about nothing: about 0 or below, the log-normal shape goes by a distance.</summary>
    [Fact]
    public void About_nothing_a_factor_is_carried_by_a_distance()
    {
        var spread = new LogNormalDistribution(3, 0.4);
        var moved = Assert.IsType<MovedDistribution>(MovedDistribution.To(spread, 0));
        Assert.Equal(spread.Quantile(0.9) - 3, moved.Quantile(0.9), 1e-12);
        Assert.Equal((-3.0, spread.StandardDeviation), (moved.Lowest, moved.StandardDeviation));
        Assert.False(moved.IsLogNormal);
        Assert.False(moved.IsNormal);
    }

    [Fact]
    public void Its_family_is_known_where_it_is_kept()
    {
        MovedDistribution Of(Distribution spread) => Assert.IsType<MovedDistribution>(MovedDistribution.To(spread, 7));

        Assert.True(Of(new LogNormalDistribution(3, 0.4)).IsLogNormal);
        Assert.False(Of(new LogNormalDistribution(3, 0.4)).IsNormal);
        Assert.True(Of(new NormalDistribution(3, 0.4)).IsNormal);
        Assert.False(Of(new NormalDistribution(3, 0.4)).IsLogNormal);
        Assert.False(Of(new UniformDistribution(3, 4)).IsNormal);
        Assert.False(Of(new UniformDistribution(3, 4)).IsLogNormal);
    }
}
