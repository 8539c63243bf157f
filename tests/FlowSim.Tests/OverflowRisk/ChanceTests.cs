using FlowSim.OverflowRisk;
using FsCheck;
using FsCheck.Xunit;
using MathNet.Numerics.Distributions;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>From counts to chances and times.</summary>
public class ChanceTests
{
    /// <summary>
    /// The exact interval by its definition (Clopper and Pearson 1934, from memory): at its high end so few hits, at its low end so many, have a
    /// probability of 2.5 %. For none in n that is 1 − 0.025^(1/n).
    /// </summary>
    [Theory]
    [InlineData(0, 64)]
    [InlineData(0, 32768)]
    [InlineData(1, 1024)]
    [InlineData(40, 4096)]
    [InlineData(700, 1024)]
    [InlineData(1024, 1024)]
    public void The_pooled_interval_is_exact(int hits, int runs)
    {
        ProbabilityEstimate chance = Chance.Pooled(hits, runs);
        Assert.True(chance.Low <= chance.Value && chance.Value <= chance.High && chance.Low < chance.High);
        if (hits == 0)
            Assert.Equal(1 - Math.Pow(0.025, 1.0 / runs), chance.High, 1e-9);
        if (hits < runs)
            Assert.Equal(0.025, Binomial.CDF(chance.High, runs, hits), 1e-7);
        if (hits > 0)
            Assert.Equal(0.025, 1 - Binomial.CDF(chance.Low, runs, hits - 1), 1e-7);
    }

    [Property(MaxTest = 300)]
    public void The_most_hits_within_a_tolerance_are_the_most(PositiveInt some, DoNotSize<int> any)
    {
        double tolerance = 1e-4 + (0.49 * new Random(any.Item).NextDouble());
        int runs = 64 + (some.Get % 5000);
        long most = Chance.MostHits(runs, tolerance);
        if (most >= 0)
            Assert.True(Chance.Pooled(most, runs).High <= tolerance + 1e-9);
        Assert.True(Chance.Pooled(most + 1, runs).High > tolerance - 1e-9);
    }

    /// <summary>Ten expected events are told apart from more by at least none of them: the rule behind <see cref="Chance.FewestEvents"/>.</summary>
    [Property(MaxTest = 200)]
    public void What_counts_as_told_can_be_met(PositiveInt some)
    {
        int runs = 64 + some.Get;
        Assert.True(Chance.MostHits(runs, Chance.AsFarAsTold(1e-6, runs)) >= 3);
    }

    [Property(MaxTest = 100)]
    public void A_quantile_of_the_sketch_errs_by_less_than_a_bin(DoNotSize<int> any)
    {
        var random = new Random(any.Item);
        int count = random.Next(20, 5000), never = random.Next(0, count / 2);
        double[] times = [.. Enumerable.Range(0, count).Select(i => i < never ? double.PositiveInfinity : Math.Exp((16 * random.NextDouble()) - 3))];
        TimeSketch sketch = RiskParts.Sketch(times);
        Array.Sort(times);
        foreach (double share in new[] { 0.1, 0.5, 0.9 })
        {
            // The value that the share of the runs does not exceed, as the documentation of TimeSpread says it.
            double exact = times[(int)Math.Ceiling((share * count) - 1e-9) - 1];
            double told = sketch.Quantile(share);
            if (double.IsInfinity(exact))
                Assert.True(double.IsInfinity(told), $"seed {any.Item}");
            else
                Assert.InRange(told, exact / 1.0011, exact * 1.0011);
        }

        Assert.Equal((double)never / count, sketch.Spread().Never);
    }
}
