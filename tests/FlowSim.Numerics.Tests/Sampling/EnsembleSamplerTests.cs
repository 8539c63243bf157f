using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Densities whose moments and quantiles are known in closed form. Tolerances are five standard errors by the sampler's own account.</summary>
public sealed class EnsembleSamplerTests
{
    private static readonly TestDensity Pair = new(2, x => -0.5 * (x[0] * x[0] + x[1] * x[1]));

    [Theory]
    [InlineData(0)]
    [InlineData(0.8)]
    [InlineData(1)]
    public void Run_on_a_correlated_normal_density_of_very_different_widths(double differences)
    {
        // x₁ = 1 + u, x₂ = 1e4 (u + 0.1 v), x₃ = w/1e4 with u, v, w standard normal: widths from 1e-4 to 1e4, correlation 0.995.
        TestDensity density = new(3, x =>
        {
            double u = x[0] - 1, v = (x[1] / 1e4 - u) / 0.1, w = 1e4 * x[2];
            return -0.5 * (u * u + v * v + w * w);
        });
        SampledPosterior posterior = EnsembleSampler.Run(density, [0, 0, 0], [1, 1e4, 1e-4], new SamplerOptions { DifferenceMoves = differences });
        Assert.True(posterior.Status == SamplerStatus.Converged, posterior.Message);
        Assert.Equal(density.Evaluations, posterior.Evaluations);
        double[] means = [1, 0, 0];
        double[,] covariance = { { 1, 1e4, 0 }, { 1e4, 1.01e8, 0 }, { 0, 0, 1e-8 } };
        double[,] sampled = posterior.Covariance();
        for (int i = 0; i < 3; i++)
        {
            double deviation = Math.Sqrt(covariance[i, i]), error = 1 / Math.Sqrt(posterior.EffectiveSampleSize[i]);
            Assert.Equal(means[i], posterior.Mean(i), 5 * deviation * error);
            // Quantiles of a normal density; error √(p(1 − p))/φ.
            Assert.Equal(means[i] - 1.6448536 * deviation, posterior.Quantile(i, 0.05), 5 * 2.12 * deviation * error);
            Assert.Equal(means[i], posterior.Quantile(i, 0.5), 5 * 1.26 * deviation * error);
            Assert.Equal(means[i] + 1.9599640 * deviation, posterior.Quantile(i, 0.975), 5 * 2.68 * deviation * error);
            for (int j = 0; j < 3; j++)
            {
                Assert.Equal(covariance[i, j], sampled[i, j], 5 * 2 * error * Math.Sqrt(covariance[i, i] * covariance[j, j]));
            }
        }
    }

    [Fact]
    public void A_banana()
    {
        // x₂ = x₁² + ½ ξ with x₁ normal: means 0 and 1, variances 1 and 2.25, uncorrelated.
        TestDensity density = new(2, x => -0.5 * (x[0] * x[0] + 4 * Math.Pow(x[1] - x[0] * x[0], 2)));
        SampledPosterior posterior = EnsembleSampler.Run(density, [0, 1], [1, 1], new SamplerOptions { TargetEffectiveSamples = 4000 });
        Assert.True(posterior.Status == SamplerStatus.Converged, posterior.Message);
        Assert.Equal(0, posterior.Mean(0), 5 / Math.Sqrt(posterior.EffectiveSampleSize[0]));
        Assert.Equal(1, posterior.Mean(1), 5 * 1.5 / Math.Sqrt(posterior.EffectiveSampleSize[1]));
        Assert.Equal(1, posterior.Covariance()[0, 0], 5 * 2 / Math.Sqrt(posterior.EffectiveSampleSize[0]));
    }

    /// <summary>Goodman and Weare's own hard case: a crescent a thousand times longer than wide. Right, or it says that it is not.</summary>
    [Fact]
    public void A_long_thin_crescent_is_right_or_flagged()
    {
        TestDensity density = new(2, x => -(100 * Math.Pow(x[1] - x[0] * x[0], 2) + Math.Pow(1 - x[0], 2)) / 20);
        SampledPosterior posterior = EnsembleSampler.Run(density, [1, 1], [1, 1], new SamplerOptions { HighestEvaluations = 200_000 });
        if (posterior.Status != SamplerStatus.Converged) return;
        Assert.Equal(1, posterior.Mean(0), 5 * Math.Sqrt(10) / Math.Sqrt(posterior.EffectiveSampleSize[0]));
    }

    [Fact]
    public void A_box_and_a_corner()
    {
        TestDensity box = new(2, x => x[0] is > 0 and < 1 && x[1] is > -3 and < -1 ? 0 : double.NaN);
        SampledPosterior posterior = EnsembleSampler.Run(box, [0.9, -1.1], [0.5, 0.5]);
        Assert.True(posterior.Status == SamplerStatus.Converged, posterior.Message);
        for (int i = 0; i < 2; i++)
        {
            double low = i == 0 ? 0 : -3, width = i == 0 ? 1 : 2, error = width / Math.Sqrt(posterior.EffectiveSampleSize[i]);
            Assert.Equal(low + width / 2, posterior.Mean(i), 5 * error / Math.Sqrt(12));
            Assert.Equal(low + 0.1 * width, posterior.Quantile(i, 0.1), 5 * 0.3 * error);
            Assert.Equal(low + 0.9 * width, posterior.Quantile(i, 0.9), 5 * 0.3 * error);
            Assert.InRange(posterior.Quantile(i, 0), low, low + 0.01 * width);
        }

        // Exponential: mean and standard deviation 1, median ln 2.
        SampledPosterior corner = EnsembleSampler.Run(new TestDensity(2, x => x[0] > 0 && x[1] > 0 ? -x[0] - x[1] : double.NegativeInfinity), [1, 1], [0.5, 0.5]);
        Assert.True(corner.Status == SamplerStatus.Converged, corner.Message);
        Assert.Equal(1, corner.Mean(0), 5 / Math.Sqrt(corner.EffectiveSampleSize[0]));
        Assert.Equal(Math.Log(2), corner.Quantile(0, 0.5), 5 / Math.Sqrt(corner.EffectiveSampleSize[0]));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(30)]
    public void Two_modes_are_right_or_flagged(double apart)
    {
        // 0.3 N(−a, 1) + 0.7 N(a, ½²), walkers started over both.
        TestDensity density = new(1, x => Math.Log(0.3 * Math.Exp(-0.5 * Math.Pow(x[0] + apart, 2)) + 1.4 * Math.Exp(-2 * Math.Pow(x[0] - apart, 2)) + 1e-300));
        SampledPosterior posterior = EnsembleSampler.Run(density, [0], [apart], new SamplerOptions { HighestEvaluations = 300_000 });
        if (posterior.Status != SamplerStatus.Converged)
        {
            Assert.True(apart > 3, "near modes should not be difficult");
            return;
        }
        double right = posterior.Coordinate(0).Count(x => x > 0) / (double)posterior.Count;
        Assert.Equal(0.7, right, 5 * Math.Sqrt(0.21 / posterior.EffectiveSampleSize[0]));
    }

    [Fact]
    public void Modes_that_no_walker_can_leave_are_flagged()
    {
        // Two wells of different shape 1000 widths apart in three dimensions.
        TestDensity density = new(3, x => -0.5 * (x[0] < 500 ? x.Sum(v => v * v) : 9 * x.Select((v, i) => i == 0 ? v - 1000 : v + x[0] - 1000).Sum(v => v * v)));
        double[,] start = new double[32, 3];
        Random random = new(3);
        for (int i = 0; i < 32; i++)
        {
            for (int d = 0; d < 3; d++) start[i, d] = random.NextDouble() - 0.5 + (d == 0 && i % 4 == 0 ? 1000 : 0);
        }
        SampledPosterior posterior = EnsembleSampler.Run(density, start, new SamplerOptions { HighestEvaluations = 100_000, DifferenceMoves = 0 });
        Assert.Equal(SamplerStatus.NotMixed, posterior.Status);
        Assert.InRange(posterior.SplitRHat[0], 10, double.PositiveInfinity);
    }

    /// <summary>The account is honest: over 200 seeds the mean scatters as that many independent draws would, and the fixed length shows no bias.</summary>
    [Theory]
    [InlineData(2, 0.0)]
    [InlineData(2, 0.8)]
    [InlineData(5, 0.8)]
    public void EffectiveSampleSize_is_the_scatter_of_the_mean_over_seeds(int dimensions, double differences)
    {
        const int seeds = 200;
        double scatter = 0, effective = 0, centre = 0, square = 0;
        for (int seed = 1; seed <= seeds; seed++)
        {
            SampledPosterior posterior = EnsembleSampler.Run(
                new TestDensity(dimensions, x => -0.5 * x.Sum(v => v * v)), new double[dimensions], [.. Enumerable.Repeat(1.0, dimensions)],
                new SamplerOptions { Seed = (ulong)seed, DifferenceMoves = differences, HighestSteps = 600, TargetEffectiveSamples = double.PositiveInfinity });
            double mean = posterior.Mean(0);
            centre += mean / seeds;
            scatter += mean * mean / seeds;
            effective += posterior.EffectiveSampleSize[0] / seeds;
            square += posterior.Covariance()[0, 0] / seeds;
        }
        // The variance over 200 seeds is known to 10 %, its ratio shall be 1 within three of those.
        Assert.InRange(scatter * effective, 0.7, 1.3);
        Assert.Equal(0, centre, 4 * Math.Sqrt(scatter / seeds));
        Assert.Equal(1, square, 0.03);
    }

    [Fact]
    public void The_same_seed_gives_the_same_draws_on_any_number_of_threads()
    {
        static double Density(double[] x) => -0.5 * (x[0] * x[0] + Math.Pow(x[1] - Math.Sin(x[0]), 2));
        SamplerOptions options = new() { TargetEffectiveSamples = 300, Seed = 7 };
        SampledPosterior one = EnsembleSampler.Run(new TestDensity(2, Density), [0, 0], [1, 1], options);
        SampledPosterior many = EnsembleSampler.Run(new TestDensity(2, Density, threads: 4), [0, 0], [1, 1], options);
        SampledPosterior other = EnsembleSampler.Run(new TestDensity(2, Density), [0, 0], [1, 1], options with { Seed = 8 });
        Assert.Equal(one.Count, many.Count);
        for (int d = 0; d < 2; d++) Assert.Equal(one.Coordinate(d), many.Coordinate(d));
        Assert.NotEqual(one.Coordinate(0)[^1], other.Coordinate(0)[^1]);
    }

    [Fact]
    public void A_walker_on_a_needle_is_stuck_and_said_to_be()
    {
        TestDensity needle = new(2, x => -0.5 * (x[0] * x[0] + x[1] * x[1]) + (x[0] == 3 ? 1000 : 0));
        double[,] start = new double[32, 2];
        Random random = new(5);
        for (int i = 0; i < 32; i++) (start[i, 0], start[i, 1]) = (random.NextDouble() - 0.5, random.NextDouble() - 0.5);
        start[11, 0] = 3;
        SampledPosterior posterior = EnsembleSampler.Run(needle, start, new SamplerOptions { HighestSteps = 2000 });
        Assert.Equal(SamplerStatus.StuckWalkers, posterior.Status);
        Assert.Contains("1 of 32", posterior.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_few_steps_are_no_result_and_limits_are_kept()
    {
        SampledPosterior posterior = EnsembleSampler.Run(Pair, [0, 0], [1, 1], new SamplerOptions { HighestEvaluations = 1000 });
        Assert.NotEqual(SamplerStatus.Converged, posterior.Status);
        Assert.InRange(posterior.Evaluations, 900, 1000);
        SampledPosterior steps = EnsembleSampler.Run(Pair, [0, 0], [1, 1], new SamplerOptions { HighestSteps = 300, BurnIn = 100, Walkers = 20, TargetEffectiveSamples = 1e9 });
        Assert.Equal(SamplerStatus.TooFewEffective, steps.Status);
        Assert.Equal(300, steps.Steps);
        Assert.Equal(100, steps.BurnIn);
        Assert.Equal(20 * 200, steps.Count);
    }

    [Fact]
    public void Draws_can_be_read_one_by_one_by_coordinate_and_spaced()
    {
        SampledPosterior posterior = EnsembleSampler.Run(Pair, [0, 0], [1, 1], new SamplerOptions { TargetEffectiveSamples = 100 });
        for (int i = 0; i < posterior.Count; i += 97)
        {
            Assert.Equal(posterior.Coordinate(1)[i], posterior.Draw(i)[1]);
            Assert.Equal(-0.5 * (posterior.Draw(i)[0] * posterior.Draw(i)[0] + posterior.Draw(i)[1] * posterior.Draw(i)[1]), posterior.LogDensity(i), 1e-12);
        }
        double[] spaced = posterior.Spaced(10);
        Assert.Equal(20, spaced.Length);
        Assert.Equal(posterior.Draw(posterior.Count / 20).ToArray(), spaced[..2]);
        double[] all = posterior.Spaced(posterior.Count);
        Assert.Equal(posterior.Draw(posterior.Count - 1).ToArray(), all[^2..]);
        Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Draw(posterior.Count).Length);
        Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Coordinate(2));
        Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Spaced(posterior.Count + 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Quantile(0, 1.5));
    }

    [Fact]
    public void Bad_input_is_named()
    {
        Assert.Contains("centre has 1 values", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Pair, [0], [1, 1])).Message, StringComparison.Ordinal);
        Assert.Contains("spread has 1 values", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Pair, [0, 0], [1])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => EnsembleSampler.Run(Pair, [0, double.NaN], [1, 1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => EnsembleSampler.Run(Pair, [0, 0], [1, 0]));
        Assert.Contains("too few for 2 dimensions", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Pair, [0, 0], [1, 1], new() { Walkers = 4 })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new SamplerOptions { Walkers = 7 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new SamplerOptions { TargetEffectiveSamples = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new SamplerOptions { DifferenceMoves = 1.1 });
        double[,] plane = new double[8, 2];
        for (int i = 0; i < 8; i++) plane[i, 0] = plane[i, 1] = i;
        Assert.Contains("lies in a plane", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(Pair, plane)).Message, StringComparison.Ordinal);
        double[,] outside = new double[8, 1];
        for (int i = 0; i < 8; i++) outside[i, 0] = -i;
        TestDensity positive = new(1, x => x[0] > 0 ? -x[0] : double.NegativeInfinity);
        Assert.Contains("0 at every walker", Assert.Throws<ArgumentException>(() => EnsembleSampler.Run(positive, outside)).Message, StringComparison.Ordinal);
        Assert.Contains("found no place",
            Assert.Throws<InvalidOperationException>(() => EnsembleSampler.Run(new TestDensity(1, _ => double.NaN), [0], [1])).Message, StringComparison.Ordinal);
        Assert.Contains("infinite at the point",
            Assert.Throws<InvalidOperationException>(() => EnsembleSampler.Run(new TestDensity(1, _ => double.PositiveInfinity), [0], [1])).Message, StringComparison.Ordinal);
    }

    /// <summary>
    /// Two machines whose densities and starts differ in the last bits (here by a scramble of some 1e-14): on a grid they draw the same, without one they part. The draws lie on the grid and have
    /// the moments of the density, x₁ normal, x₂ normal about x₁²/4.
    /// </summary>
    [Fact]
    public void On_a_grid_last_bits_change_nothing()
    {
        const double Grid = 1.0 / (1 << 20);
        SampledPosterior one = Walk(Grid, 0), other = Walk(Grid, 1e-14);
        Assert.Equal(one.Count, other.Count);
        for (int i = 0; i < one.Count; i++) Assert.Equal(one.Draw(i).ToArray(), other.Draw(i).ToArray());
        for (int i = 0; i < one.Count; i += 97) Assert.All(one.Draw(i).ToArray(), x => Assert.Equal(x, Math.Round(x / Grid) * Grid));
        SampledPosterior free = Walk(0, 0), parted = Walk(0, 1e-14);
        Assert.True(free.Count != parted.Count || Math.Abs(free.Draw(free.Count - 1)[0] - parted.Draw(free.Count - 1)[0]) > 1e-3);

        double[] means = [0, 0.25], deviations = [1, Math.Sqrt(1 + 2.0 / 16)];
        for (int d = 0; d < 2; d++)
        {
            Assert.Equal(means[d], one.Mean(d), 5 * deviations[d] / Math.Sqrt(one.EffectiveSampleSize[d]));
            Assert.Equal(deviations[d], Math.Sqrt(one.Covariance()[d, d]), 5 * deviations[d] / Math.Sqrt(one.EffectiveSampleSize[d]));
        }

        static SampledPosterior Walk(double grid, double bits)
        {
            TestDensity density = new(2, x => (-0.5 * (x[0] * x[0] + (x[1] - 0.25 * x[0] * x[0]) * (x[1] - 0.25 * x[0] * x[0]))) * (1 + bits * Math.Sin(1e6 * x[0])));
            double[,] start = new double[32, 2];
            for (int i = 0; i < 32; i++) (start[i, 0], start[i, 1]) = (Math.Sin(i + 1) * (1 + bits * Math.Cos(i)), Math.Cos(3 * i) * (1 + bits * Math.Sin(i)));
            return EnsembleSampler.Run(density, start, new SamplerOptions { Grid = grid, TargetEffectiveSamples = 4000 });
        }
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_grid_that_is_none_is_refused(double grid) => Assert.Equal("Grid", Assert.Throws<ArgumentOutOfRangeException>(() => new SamplerOptions { Grid = grid }).ParamName);

    /// <summary>Of 40 walkers 25 begin where the density, e^(−x−y) of what is positive, is 0: each is drawn to where it is not before anything is counted.</summary>
    [Fact]
    public void Walkers_on_impossible_places_are_drawn_in()
    {
        double[,] start = new double[40, 2];
        for (int i = 0; i < 40; i++) (start[i, 0], start[i, 1]) = (i < 25 ? -1 - i : 0.1 * i, i % 7 - (i < 25 ? 3 : -0.5));
        TestDensity quadrant = new(2, x => x[0] > 0 && x[1] > 0 ? -x[0] - x[1] : double.NegativeInfinity);
        SampledPosterior first = EnsembleSampler.Run(quadrant, start, new SamplerOptions { HighestSteps = 8, BurnIn = 0 });
        for (int i = 0; i < first.Count; i++) Assert.All(first.Draw(i).ToArray(), x => Assert.True(x > 0, $"{x}"));
        SampledPosterior posterior = EnsembleSampler.Run(quadrant, start, new SamplerOptions { TargetEffectiveSamples = 4000 });
        for (int d = 0; d < 2; d++)
        {
            Assert.Equal(Math.Log(2), posterior.Quantile(d, 0.5), 0.06);
            Assert.Equal(Math.Log(20), posterior.Quantile(d, 0.95), 0.3);
        }
    }

    /// <summary>Where rounding leaves no place between, the walker stands where the other does.</summary>
    [Fact]
    public void A_single_possible_place_ends_the_search_for_others()
    {
        double[,] start = new double[8, 1];
        for (int i = 0; i < 8; i++) start[i, 0] = 0.1 * (i + 1);
        SampledPosterior posterior = EnsembleSampler.Run(new TestDensity(1, x => x[0] == 0.1 ? 0 : double.NegativeInfinity), start, new SamplerOptions { HighestSteps = 8, BurnIn = 0 });
        for (int i = 0; i < posterior.Count; i++) Assert.Equal(0.1, posterior.Draw(i)[0]);
    }

    [Fact]
    public void It_can_be_cancelled()
    {
        using CancellationTokenSource source = new();
        TestDensity density = new(1, x =>
        {
            source.Cancel();
            return -x[0] * x[0];
        });
        Assert.Throws<OperationCanceledException>(() => EnsembleSampler.Run(density, [0], [1], cancellation: source.Token));
    }
}
