using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>What the sampler asks of its walkers before it begins, and how long it goes on.</summary>
public class SamplerStartTests
{
    private static readonly SamplerOptions Short = new() { HighestSteps = 8 };

    /// <summary>Four walkers a dimension, 32 at least, unless it is said; 2 (d + 1) are the fewest.</summary>
    [Theory]
    [InlineData(1, null, 32)]
    [InlineData(8, null, 32)]
    [InlineData(9, null, 36)]
    [InlineData(2, 6, 6)]
    [InlineData(1, 4, 4)]
    public void Numbers_of_walkers(int dimensions, int? asked, int walkers)
    {
        double[] spread = new double[dimensions];
        Array.Fill(spread, 1);
        SampledPosterior posterior = EnsembleSampler.Run(Normal(dimensions), new double[dimensions], spread, Short with { Walkers = asked });
        Assert.Equal((walkers, 8), (posterior.Walkers, posterior.Steps));
    }

    [Fact]
    public void Too_few_or_odd_walkers()
    {
        ArgumentException few = Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), [0, 0], [1, 1], Short with { Walkers = 4 }));
        Assert.Contains("4 walkers are too few for 2 dimensions: at least 6 are needed", few.Message, StringComparison.Ordinal);
        Assert.Equal(10_000, new SamplerOptions { Walkers = 10_000 }.Walkers);
        foreach (int bad in (int[])[0, 2, 5, 10_002])
            Assert.Throws<ArgumentOutOfRangeException>(() => new SamplerOptions { Walkers = bad });
        Assert.Contains("at least 1 dimension", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(0), [], [], Short)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Walkers_that_are_given()
    {
        double[,] start = Scattered(12, 2, 0);
        Assert.Equal(12, EnsembleSampler.Run(Normal(2), start, Short).Walkers);
        Assert.Equal(12, EnsembleSampler.Run(Normal(2), start, Short with { Walkers = 12 }).Walkers);
        Assert.Throws<ArgumentNullException>(() => EnsembleSampler.Run(Normal(2), null!, Short));
        Assert.Equal("start", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), start, Short with { Walkers = 14 })).ParamName);
        Assert.Equal("start", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), Scattered(12, 3, 0), Short)).ParamName);
        start[3, 1] = double.NaN;
        Assert.Equal("start", Assert.Throws<ArgumentOutOfRangeException>(() => EnsembleSampler.Run(Normal(2), start, Short)).ParamName);
        for (int w = 0; w < 12; w++)
            start[w, 1] = 1e9 + w;
        Assert.Contains("0 at every walker", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), start, Short)).Message, StringComparison.Ordinal);
    }

    /// <summary>Either half in a plane, a line or on one coordinate is refused, whichever half; far from the origin and in odd units walkers that do span are not.</summary>
    [Fact]
    public void Walkers_in_a_plane()
    {
        foreach (int half in (int[])[0, 1])
        {
            double[,] oblique = Scattered(16, 2, 0), level = Scattered(16, 2, 0);
            for (int w = 8 * half; w < (8 * half) + 8; w++)
            {
                oblique[w, 1] = (2 * oblique[w, 0]) - 0.3;
                level[w, 1] = 0.5;
            }

            foreach (double[,] flat in (double[][,])[oblique, level])
            {
                ArgumentException refused = Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), flat, Short));
                Assert.Contains(half == 0 ? "The first half" : "The second half", refused.Message, StringComparison.Ordinal);
            }
        }

        // Six times a tenth has a mean that is not quite a tenth.
        double[,] equal = Scattered(12, 2, 0);
        for (int w = 0; w < 6; w++)
            equal[w, 1] = 0.1;
        Assert.Contains("The first half", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Normal(2), equal, Short)).Message, StringComparison.Ordinal);

        double[,] far = Scattered(12, 2, 1e12);
        for (int w = 0; w < 12; w++)
            far[w, 1] = 1e-20 * (far[w, 1] - 1e12);
        Assert.Equal(12, EnsembleSampler.Run(new TestDensity(2, _ => 0), far, Short).Walkers);
        double[,] one = Scattered(8, 1, 0);
        Assert.Equal(8, EnsembleSampler.Run(Normal(1), one, Short).Walkers);
    }

    /// <summary>No step is begun that would take more evaluations than allowed: walkers once at the start, and once a step.</summary>
    [Theory]
    [InlineData(32 * 11, 10)]
    [InlineData((32 * 11) - 1, 9)]
    [InlineData((32 * 11) + 31, 10)]
    public void Evaluations_that_are_allowed(int most, int steps)
    {
        TestDensity density = Normal(2);
        SampledPosterior posterior = EnsembleSampler.Run(density, [0, 0], [1, 1], new SamplerOptions { HighestEvaluations = most });
        Assert.Equal((steps, 32L * (steps + 1), 32L * (steps + 1)), (posterior.Steps, posterior.Evaluations, density.Evaluations));
    }

    /// <summary>The first look comes at twice the burn-in that was asked for; what was enough then is not gone past.</summary>
    [Theory]
    [InlineData(300, 600)]
    [InlineData(450, 900)]
    public void When_it_may_end(int burnIn, int steps)
    {
        var density = new TestDensity(1, x => -0.5 * x[0] * x[0]);
        var options = new SamplerOptions { TargetEffectiveSamples = 10, Walkers = 32, BurnIn = burnIn, DifferenceMoves = 1 };
        SampledPosterior posterior = EnsembleSampler.Run(density, [0], [1], options);
        Assert.Equal((SamplerStatus.Converged, steps), (posterior.Status, posterior.Steps));
    }

    private static TestDensity Normal(int dimensions) => new(dimensions, x => x.Any(value => Math.Abs(value) > 1e6) ? double.NegativeInfinity : -0.5 * x.Sum(value => value * value));

    private static double[,] Scattered(int walkers, int dimensions, double centre)
    {
        var random = new Random(8);
        double[,] start = new double[walkers, dimensions];
        for (int w = 0; w < walkers; w++)
        {
            for (int d = 0; d < dimensions; d++)
                start[w, d] = centre + random.NextDouble();
        }

        return start;
    }
}
