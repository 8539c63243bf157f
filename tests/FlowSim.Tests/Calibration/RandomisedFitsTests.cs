using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>Shaken fits against their equation, and their weights against quadrature of the posterior.</summary>
public class RandomisedFitsTests
{
    private static BestFit Find(CalibrationQuestion question) =>
        BestFit.Find(new CalibrationPosterior(question, CancellationToken.None), [.. question.Runs.SelectMany(run => run.Series)], 1, CancellationToken.None);

    /// <summary>A lot factor anywhere from 0.5 to 3 and a viscosity of the honey at 35 °C, which is 6 Pa·s at a factor of 1.</summary>
    private static CalibrationQuestion Bent(double viscosity, double logSd) => new()
    {
        Setup = Straight,
        Priors = [Prior(StrainingInputs.LotFactor, new UniformDistribution(0.5, 3))],
        Viscosities = [Spot("ball", 35, viscosity, logSd)],
    };

    private static double Off(double u, double viscosity, double logSd) => Math.Log(viscosity / 6 / (0.5 + (2.5 * Normal.CDF(0, 1, u)))) / logSd;

    [Theory]
    [InlineData(9, 0.4)]
    [InlineData(4, 0.2)]
    public void Each_draw_is_a_fit_to_what_was_shaken(double viscosity, double logSd)
    {
        BestFit fit = Find(Bent(viscosity, logSd));
        WeightedDraws draws = RandomisedFits.Of(fit, 5, CancellationToken.None)!;
        double best = fit.Numbers[0], slope = (Off(best + 0.02, viscosity, logSd) - Off(best - 0.02, viscosity, logSd)) / 0.04, c = 1 / ((slope * slope) + 1);
        double[] points = new double[256], logs = new double[256];
        int near = 0;
        new ScrambledSobol(1, 7, 0).Fill(0, points);
        for (int d = 0; d < 256; d++)
        {
            double x = draws.Values[d], r = Off(x, viscosity, logSd);
            double delta = Math.Sqrt(c) * Normal.InvCDF(0, 1, points[d]);
            double miss = Math.Abs(delta - (c * ((slope * (r - Off(best, viscosity, logSd))) + x - best))) / Math.Sqrt(c);
            Assert.True(miss <= 0.1, $"{miss}");
            near += miss <= 0.02 ? 1 : 0;
            double there = (Off(x + 0.05, viscosity, logSd) - r) / 0.05, along = (slope * r) + x;
            logs[d] = (0.5 * ((along * along * c) - (r * r) - (x * x))) - Math.Log(Math.Abs((slope * there) + 1));
        }

        Assert.True(near > 240, $"{near}");
        double[] weights = [.. logs.Select(log => Math.Exp(log - logs.Max()))];
        for (int d = 0; d < 256; d++)
            Assert.Equal(weights[d] / weights.Sum(), draws.Weights[d], 1e-5 / 256);
        Assert.Equal(1, draws.Weights.Sum(), 1e-9);
        Assert.Equal(1 / draws.Weights.Sum(w => w * w), draws.Effective, 1e-6);
        Assert.Equal(1, draws.Width);
    }

    /// <summary>∫ x p dx and ∫ x² p dx of p ∝ exp(−½ r² − ½ x²) by the trapezoidal rule.</summary>
    [Theory]
    [InlineData(9, 0.4)]
    [InlineData(4, 0.2)]
    [InlineData(16, 0.15)]
    public void Together_they_follow_the_posterior(double viscosity, double logSd)
    {
        WeightedDraws draws = RandomisedFits.Of(Find(Bent(viscosity, logSd)), 1, CancellationToken.None)!;
        double sum = 0, first = 0, second = 0;
        for (double x = -6; x <= 6; x += 0.002)
        {
            double r = Off(x, viscosity, logSd), p = Math.Exp(-0.5 * ((r * r) + (x * x)));
            (sum, first, second) = (sum + p, first + (p * x), second + (p * x * x));
        }

        double mean = first / sum, sd = Math.Sqrt((second / sum) - (mean * mean));
        (double[] found, Matrix<double> covariance) = draws.Moments();
        Assert.Equal(mean, found[0], 0.03 * sd);
        Assert.Equal(sd, Math.Sqrt(covariance[0, 0]), 0.03 * sd);
    }

    /// <summary>Level plus zero: every draw weighs the same, and they spread as Laplace's covariance says, a stray reading counting less.</summary>
    [Fact]
    public void Of_a_sum_they_are_even_and_Laplaces()
    {
        BestFit fit = Find(new CalibrationQuestion { Setup = Shut, Priors = [Lot, LevelOfTank], Runs = [Run(Shut, Rule(0.113, 1, -1, 2, 0.5, -0.3, 12, -1.4), Rule(0.112, 4, -3, 1, 2))], Viscosities = [Spot("ball", 35, 9, 0.2)] });
        WeightedDraws draws = RandomisedFits.Of(fit, 1, CancellationToken.None)!;
        Assert.Equal(256, draws.Effective, 0.01);
        (double[] mean, Matrix<double> covariance) = draws.Moments();
        for (int i = 0; i < 6; i++)
        {
            Assert.Equal(fit.Numbers[i], mean[i], 0.03 * Math.Sqrt(fit.Covariance[i, i]));
            for (int j = 0; j < 6; j++)
                Assert.Equal(fit.Covariance[i, j], covariance[i, j], 0.08 * Math.Sqrt(fit.Covariance[i, i] * fit.Covariance[j, j]));
        }
    }

    /// <summary>
    /// Scores end at 6, where the lot factor stays. The lot's lies at 5.8 with 0.16 left: one draw in ten would lie beyond and is left out; those within weigh alike, the last
    /// of them too, for the line is straight up to there. At 5.95, one in three or more would lie beyond: no draws at all.
    /// </summary>
    [Fact]
    public void What_would_lie_beyond_the_furthest_score_is_left_out()
    {
        WeightedDraws draws = RandomisedFits.Of(Find(Edge(5.97)), 1, CancellationToken.None)!;
        RequireEvenBut(draws, 5, 50);
        Assert.Contains(draws.Values, x => x is > 5.95 and < 6);
        Assert.Null(RandomisedFits.Of(Find(Edge(6.1)), 1, CancellationToken.None));

        static CalibrationQuestion Edge(double score) => new() { Setup = Straight, Priors = [Lot], Viscosities = [Spot("ball", 35, 6 * Math.Exp(0.3 * score), 0.05)] };
    }

    /// <summary>Where a kinked prior lets few draws carry all, the weights are taken to the highest of the powers 0.9, 0.8 … that leaves 60 even draws.</summary>
    [Fact]
    public void Weights_of_few_draws_are_evened_out()
    {
        const double Viscosity = 12, LogSd = 0.2;
        var prior = new EmpiricalDistribution([0.5, 1.5, 1.51, 3]);
        BestFit fit = Find(new() { Setup = Straight, Priors = [Prior(StrainingInputs.LotFactor, prior)], Viscosities = [Spot("ball", 35, Viscosity, LogSd)] });
        WeightedDraws draws = RandomisedFits.Of(fit, 1, CancellationToken.None)!;
        double slope = (Off(fit.Numbers[0] + 0.02) - Off(fit.Numbers[0] - 0.02)) / 0.04;
        double[] logs = [.. draws.Values.Select((x, d) => draws.Weights[d] == 0 ? double.NegativeInfinity : Log(x))];
        double power = 1, effective = Effective(1);
        for (; effective < 60; effective = Effective(power))
            power -= 0.1;
        Assert.InRange(power, 0.05, 0.95);
        Assert.Equal(effective, draws.Effective, 1e-4);

        double Off(double u) => Math.Log(Viscosity / 6 / prior.Quantile(Normal.CDF(0, 1, u))) / LogSd;

        double Log(double x)
        {
            double along = (slope * Off(x)) + x, there = (Off(x + 0.05) - Off(x)) / 0.05;
            return (0.5 * ((along * along / ((slope * slope) + 1)) - (Off(x) * Off(x)) - (x * x))) - Math.Log(Math.Abs((slope * there) + 1));
        }

        double Effective(double p)
        {
            double[] weights = [.. logs.Select(log => Math.Exp(p * (log - logs.Max())))];
            return weights.Sum() * weights.Sum() / weights.Sum(w => w * w);
        }
    }

    /// <summary>
    /// A correlation of one's own that has no answer above a moisture: at 1.79 standard deviations one draw in 27 would lie beyond and is left out; the rest, of a straight line,
    /// weigh alike. At 0.3, one in three would: no draws at all.
    /// </summary>
    [Fact]
    public void Where_there_is_no_answer_there_is_no_draw()
    {
        WeightedDraws draws = RandomisedFits.Of(Find(UpTo(18.8)), 1, CancellationToken.None)!;
        RequireEvenBut(draws, 4, 20);
        Assert.All(draws.Values.Where((_, d) => draws.Weights[d] > 0), x => Assert.True(x < 1.6, $"{x}"));
        Assert.Null(RandomisedFits.Of(Find(UpTo(18.13)), 1, CancellationToken.None));

        static CalibrationQuestion UpTo(double moisture)
        {
            StrainingSetup setup = OwnHoney.In(Shut, (percent, _) => percent < moisture ? 6 * Math.Exp(-0.2 * (percent - 18)) : double.NaN);
            return new() { Setup = setup, Priors = [Moisture], Viscosities = [Spot("ball", 35, 6, 0.2)] };
        }
    }

    /// <summary>Some draws are left out, and the rest weigh alike.</summary>
    private static void RequireEvenBut(WeightedDraws draws, int fewest, int most)
    {
        double[] within = [.. draws.Weights.Where(weight => weight > 0)];
        Assert.InRange(draws.Weights.Length - within.Length, fewest, most);
        Assert.All(within, weight => Assert.Equal(1.0 / within.Length, weight, 1e-6));
    }

    [Fact]
    public void Another_seed_gives_other_draws_of_the_same()
    {
        BestFit fit = Find(Bent(9, 0.4));
        WeightedDraws one = RandomisedFits.Of(fit, 1, CancellationToken.None)!, other = RandomisedFits.Of(fit, 2, CancellationToken.None)!;
        Assert.NotEqual(one.Values, other.Values);
        Assert.Equal(one.Moments().Mean[0], other.Moments().Mean[0], 0.02);
    }

    [Fact]
    public void It_ends_early_when_asked()
    {
        BestFit fit = Find(Bent(9, 0.4));
        Assert.Throws<OperationCanceledException>(() => RandomisedFits.Of(fit, 1, new CancellationToken(canceled: true)));
    }

    [Fact]
    public void Draws_are_chosen_as_often_as_they_weigh()
    {
        var draws = new WeightedDraws([1, 10, 2, 20, 3, 30], [0.5, 0.25, 0.25], 2, 2);
        Assert.Equal([[1, 10], [1, 10], [2, 20], [3, 30]], draws.Chosen(4));
        Assert.Equal([[1, 10], [2, 20]], draws.Chosen(2)); // Half of either: the halves round up.
        Assert.Equal([[2, 20], [2, 20], [2, 20], [2, 20]], (draws with { Weights = [0.1, 0.9, 0] }).Chosen(4));
        Assert.Equal([[1, 10], [1, 10], [2, 20], [1, 10]], (draws with { Weights = [0.5, 0.3, 0] }).Chosen(4)); // What is missing comes from the first.
        Assert.Empty(draws.Chosen(0));
    }

    [Fact]
    public void Mean_and_covariance_count_the_weights()
    {
        var draws = new WeightedDraws([1, 10, 2, 40, 3, 30], [0.5, 0.25, 0.25], 2, 4);
        (double[] mean, Matrix<double> covariance) = draws.Moments();
        Assert.Equal([1.75, 22.5], mean);
        const double Correction = 4.0 / 3;
        Assert.Equal(Correction * ((0.5 * 0.5625) + (0.25 * 0.0625) + (0.25 * 1.5625)), covariance[0, 0], 1e-12);
        Assert.Equal(Correction * ((0.5 * 156.25) + (0.25 * 306.25) + (0.25 * 56.25)), covariance[1, 1], 1e-12);
        double together = Correction * ((0.5 * -0.75 * -12.5) + (0.25 * 0.25 * 17.5) + (0.25 * 1.25 * 7.5));
        Assert.Equal(together, covariance[0, 1], 1e-12);
        Assert.Equal(together, covariance[1, 0], 1e-12);
    }
}
