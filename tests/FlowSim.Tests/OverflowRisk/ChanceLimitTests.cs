using FlowSim.OverflowRisk;
using MathNet.Numerics.Distributions;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The joints of the rules that make chances of counts.</summary>
public class ChanceLimitTests
{
    /// <summary>Ten events in n runs, a half at most, or the tolerance if that is coarser.</summary>
    [Theory]
    [InlineData(0.01, 1000, 0.01)]
    [InlineData(0.01, 999, 10.0 / 999)]
    [InlineData(0.01, 1001, 0.01)]
    [InlineData(0.01, 64, 10.0 / 64)]
    [InlineData(0.01, 20, 0.5)]
    [InlineData(0.01, 15, 0.5)]
    [InlineData(0.5, 15, 0.5)]
    [InlineData(0.3, 64, 0.3)]
    public void The_finest_chance_is_ten_in_as_many_runs(double tolerance, long runs, double told) =>
        Assert.Equal(told, Chance.AsFarAsTold(tolerance, runs), 1e-15);

    /// <summary>None in n is enough from n = ln 0.025 / ln(1 − p) on: 72 runs for 5 %.</summary>
    [Fact]
    public void In_too_few_runs_not_even_none_is_enough()
    {
        Assert.Equal(-1, Chance.MostHits(71, 0.05));
        Assert.Equal(0, Chance.MostHits(72, 0.05));
        Assert.False(Chance.IsWithin(0, 71, 0.05));
        Assert.True(Chance.IsWithin(0, 72, 0.05));
    }

    /// <summary>Every number of hits tried: k is within the tolerance where at most k of n have a probability of 2.5 % at most, were the chance the tolerance.</summary>
    [Theory]
    [InlineData(1, 0.5)]
    [InlineData(8, 0.4)]
    [InlineData(64, 0.16)]
    [InlineData(150, 0.5)]
    public void The_most_hits_are_found_by_trying_all(int runs, double tolerance)
    {
        long expected = Enumerable.Range(0, runs).LastOrDefault(k => Binomial.CDF(tolerance, runs, k) <= 0.025, -1);
        Assert.Equal(expected, Chance.MostHits(runs, tolerance));
        for (int k = 0; k < runs; k++)
            Assert.Equal(k <= expected, Chance.IsWithin(k, runs, tolerance));
        Assert.False(Chance.IsWithin(runs, runs, tolerance));
    }

    [Fact]
    public void Replicates_that_agree_have_a_narrower_interval_than_counts_alone()
    {
        ProbabilityEstimate even = Chance.Counted([.. Enumerable.Repeat(8, 16)], 16), pooled = Chance.Pooled(128, 256);
        Assert.Equal((0.5, 256L, EstimateMethod.Counting), (even.Value, even.Runs, even.Method));
        Assert.Equal((0.5, 256L, EstimateMethod.Counting), (pooled.Value, pooled.Runs, pooled.Method));
        Assert.True(even.High - even.Low < pooled.High - pooled.Low);
    }

    /// <summary>Rare is: fewer than 100 hits, and fewer than one run in a thousand.</summary>
    [Theory]
    [InlineData(0, 1, true)]
    [InlineData(1, 1000, false)]
    [InlineData(1, 1001, true)]
    [InlineData(8, 8192, true)]
    [InlineData(9, 8192, false)]
    [InlineData(99, 131072, true)]
    [InlineData(100, 131072, false)]
    [InlineData(99, 99000, false)]
    public void What_is_rare_is_told_by_hits_and_by_share(long hits, long runs, bool rare) => Assert.Equal(rare, RareOverflow.IsRare(hits, runs));
}
