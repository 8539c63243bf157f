using FlowSim.Attending;
using FlowSim.OverflowRisk;
using static FlowSim.Tests.Attending.SmallRun;

namespace FlowSim.Tests.Attending;

/// <summary>Quantiles of 1 to 101: each hundredth is a value of its own.</summary>
public class QuantilesTests
{
    private static readonly double[] s_hundred = [.. Enumerable.Range(1, 101).Select(i => (double)i)];

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.05, 6)]
    [InlineData(0.5, 51)]
    [InlineData(0.9, 91)]
    [InlineData(1, 101)]
    public void A_share_of_the_values_lies_below_its_quantile(double share, double value) => Assert.Equal(value, Quantiles.Of(s_hundred, share));

    [Fact]
    public void Between_two_values_the_nearer_one_counts()
    {
        Assert.Equal(1, Quantiles.Of([1, 2, 3], 0.24));
        Assert.Equal(2, Quantiles.Of([1, 2, 3], 0.26));
        Assert.Equal(7, Quantiles.Of([7], 0.9));
    }

    [Fact]
    public void Times_are_those_of_the_runs_in_which_it_happens()
    {
        double[] mixed = [.. s_hundred.Reverse(), .. Enumerable.Repeat(double.PositiveInfinity, 101), double.NaN, double.NaN];
        Assert.Equal((6, 51, 96, 101 / 204.0), Quantiles.Times(mixed)!.Value);
        Assert.Equal((6, 51, 96, 1), Quantiles.Times(s_hundred)!.Value);
        Assert.Null(Quantiles.Times([double.PositiveInfinity]));
        Assert.Null(Quantiles.Times([]));
    }

    [Fact]
    public void A_spread_counts_those_that_never_get_there_last()
    {
        Assert.Equal(new TimeSpread(S(11), S(51), S(91), 0), Quantiles.Spread(s_hundred.Reverse()));
        TimeSpread some = Quantiles.Spread([.. Enumerable.Range(1, 30).Select(i => (double)i), .. Enumerable.Repeat(double.NaN, 10), .. Enumerable.Repeat(double.PositiveInfinity, 1)]);
        Assert.Equal((S(5), S(21), 11 / 41.0), (some.P10, some.P50, some.Never));
        Assert.Null(some.P90);
        Assert.Equal(new TimeSpread(null, null, null, 1), Quantiles.Spread([double.NaN, double.NaN]));
    }
}
