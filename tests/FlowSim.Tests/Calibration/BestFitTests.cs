using FlowSim.Calibration;
using FlowSim.Numerics.Fitting;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>The likeliest numbers of questions that can be written down, and what is claimed of them.</summary>
public class BestFitTests
{
    private static readonly double[] Fine = [1, -1, 2, 0.5, -0.3, 0.2, -1.4, 0.8];
    private static readonly double[] Coarse = [3, -6, 2, -4, 9, -5, 1, -2, 4, 60];

    /// <summary>Residuals that keep their sign for a while.</summary>
    private static readonly double[] Together = [2, 2.2, 1.9, 2.1, 1.8, -2, -2.1, -1.9, -2.2, -1.8, 2, 2.2, 1.9, 2.1, 1.8, -2, -2.1, -1.9, -2.2, -1.8];

    private static (CalibrationPosterior Posterior, BestFit Fit) Find(CalibrationQuestion question, ulong seed = 1)
    {
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        return (posterior, BestFit.Find(posterior, [.. question.Runs.SelectMany(run => run.Series)], seed, CancellationToken.None));
    }

    private static CalibrationQuestion Rules(params double[][] mm) => new()
    {
        Setup = Shut,
        Priors = [Lot, LevelOfTank],
        Runs = [Run(Shut, [.. mm.Select(off => Rule(0.113, off))])],
        Viscosities = [Spot("ball", 35, 9, 0.2)],
    };

    /// <summary>Where Σ ψ(r/s)/s of each rule balances level and zero: u of the level 5 mm of all pulls, of each zero 2 mm of its own.</summary>
    [Fact]
    public void The_pulls_of_the_readings_balance_what_was_known_before()
    {
        (CalibrationPosterior posterior, BestFit fit) = Find(Rules(Fine, Coarse));
        Assert.True(fit.IsFound);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double[] u = fit.Numbers, pulls = new double[2];
        for (int s = 0; s < 2; s++)
        {
            double[] mm = s == 0 ? Fine : Coarse;
            double zero = 0.002 * u[3 + (2 * s)], scale = posterior.Scales[s];
            double[] off = [.. mm.Select(d => 0.113 + (0.001 * d) - 0.11 - (0.005 * u[1]) - zero)];
            pulls[s] = off.Sum(r => 5 * (r / scale) / (4 + (r * r / scale / scale))) / scale;
            for (int i = 0; i < off.Length; i++)
                Assert.Equal(off[i], fit.Off[(s * Fine.Length) + i], 1e-9);
            Assert.Equal(0.002 * pulls[s], u[3 + (2 * s)], 2e-3);
            Assert.Equal(0, u[2 + (2 * s)], 1e-6);
        }

        Assert.Equal(0.005 * (pulls[0] + pulls[1]), u[1], 5e-3);
        Assert.InRange(u[1], 0.3, 0.7);

        // A spot's sum of squares: (ln ratio − 0.3 u)²/0.2² + u².
        double ratio = (0.2 * fit.Off[^1]) + (0.3 * u[0]);
        Assert.Equal(0.3 * ratio / (0.04 + 0.09), u[0], 1e-3);
    }

    /// <summary>
    /// Weights 1/(κ s²) and what goes with them: κ of Huber, that the scale is unsure, n/(n − p) with p the trace of the hat matrix, the autocorrelation time. Numbers: lot, level,
    /// then clock and zero of each rule; the slopes are 5 mm, 2 mm and, of the spot, 1.5.
    /// </summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_covariance_is_Laplaces_with_what_readings_count(bool together)
    {
        double[][] mm = together ? [Fine, Together] : [Fine, Coarse];
        (CalibrationPosterior posterior, BestFit fit) = Find(Rules(mm));
        double[] spent = new double[2], counted = new double[2];
        Matrix<double> covariance = Matrix<double>.Build.DenseIdentity(6);
        for (int turn = 0; turn < 60; turn++)
        {
            Matrix<double> all = Matrix<double>.Build.DenseIdentity(6);
            all[0, 0] += 1.5 * 1.5;
            var parts = new Matrix<double>[2];
            for (int s = 0; s < 2; s++)
            {
                (int start, int n) = posterior.Places[s];
                double[] off = fit.Off[start..(start + n)];
                double scale = posterior.Scales[s], inflation = StudentNoise.Inflation(off, scale, out double neighbours);
                Assert.Equal((inflation, neighbours), fit.Together[s]);
                counted[s] = StudentNoise.Sandwich(off, scale) * StudentNoise.Unsure(n - spent[s]) * n / (n - spent[s]) * inflation;
                double weight = n / (scale * scale * counted[s]);
                parts[s] = Matrix<double>.Build.Dense(6, 6);
                double[] slopes = [0, 0.005, 0, s == 0 ? 0.002 : 0, 0, s == 1 ? 0.002 : 0];
                for (int i = 0; i < 6; i++)
                {
                    for (int j = 0; j < 6; j++)
                        parts[s][i, j] = weight * slopes[i] * slopes[j];
                }

                all += parts[s];
            }

            covariance = all.Inverse();
            for (int s = 0; s < 2; s++)
                spent[s] = (covariance * parts[s]).Trace();
        }

        Assert.InRange(spent[0], 0.3, 1);
        for (int s = 0; s < 2; s++)
        {
            (int start, int n) = posterior.Places[s];
            Assert.Equal(counted[s], fit.Counted[s], 0.01 * counted[s]);
            double scale = StudentNoise.Scale(fit.Off[start..(start + n)], 0.0015, fit.Floors[s], spent[s]);
            Assert.Equal(scale, posterior.Scales[s], 0.01 * scale);
        }

        Assert.Equal(together, fit.Together[1].Inflation > 1.5);
        for (int i = 0; i < 6; i++)
        {
            for (int j = 0; j < 6; j++)
                Assert.Equal(covariance[i, j], fit.Covariance[i, j], 0.01 * Math.Sqrt(covariance[i, i] * covariance[j, j]));
        }
    }

    /// <summary>Two readings have at most nine tenths of themselves spent on level and zero.</summary>
    [Fact]
    public void Few_readings_still_have_a_scale()
    {
        CalibrationQuestion question = Rules([0, 4]) with { Viscosities = [] };
        question = question with { Runs = [question.Runs[0] with { Series = [question.Runs[0].Series[0] with { ZeroOffset = 5 }] }] };
        (CalibrationPosterior posterior, BestFit fit) = Find(question);
        Assert.True(fit.IsFound);
        double kappa = StudentNoise.Sandwich(fit.Off, posterior.Scales[0]);
        Assert.Equal(kappa * 2 * 2, fit.Counted[0], 0.02 * kappa * 4); // Unsure: 4/(4 − 2); 2/max(1, 0.2).
    }

    /// <summary>Least scale: that of rounding, 1/√12 of the step that is said or found, but at least 1/10 000 of the range.</summary>
    [Fact]
    public void The_floor_is_what_rounding_does()
    {
        CalibrationQuestion question = Rules([0, 1, 2, 1, 0], [0, 1, 2.5, 4, 3], [0, 10, 10, 10, 10], [0, 1.5, 5, 5, 5 + 1e-9], [0, 1, 2, 3, 3], [0, 1, 2, 3, 4]);
        TimedSeries[] series = [.. question.Runs[0].Series];
        series[5] = series[5] with { Resolution = 0.0004 };
        question = question with { Runs = [question.Runs[0] with { Series = series }], Viscosities = [] };
        double[] floors = [.. Find(question).Fit.Floors];
        double root = Math.Sqrt(12);
        Assert.Equal(0.001 / root, floors[0], 1e-12);
        Assert.Equal(1e-4 * 0.004, floors[1], 1e-12); // Readings that never repeat.
        Assert.Equal(0.01 / root, floors[2], 1e-12);
        Assert.Equal(1e-4 * 0.005, floors[3], 1e-12); // Four of five differ, if only by rounding of units.
        Assert.Equal(1e-4 * 0.003, floors[4], 1e-12); // Four of five differ: no steps yet.
        Assert.Equal(0.0004 / root, floors[5], 1e-12);
    }

    [Fact]
    public void Differences_of_rounding_are_no_steps()
    {
        CalibrationQuestion question = Rules([0, 0, 0, 2, 2, 2 + 1e-12, 5, 5, 5, 5]) with { Viscosities = [] };
        Assert.Equal(0.002 / Math.Sqrt(12), Find(question).Fit.Floors[0], 1e-12);
    }

    /// <summary>ln μ as a square of the moisture has two moistures for one viscosity; of the two the nearer to what was known is the likelier.</summary>
    [Fact]
    public void Of_two_minima_the_likelier_one_is_taken()
    {
        StrainingSetup setup = OwnHoney.In(Shut, (moisture, _) => 6 * Math.Exp((moisture - 18) * (moisture - 18)));
        for (int seed = 1; seed <= 12; seed++)
        {
            foreach (double middle in (double[])[0.1797, 0.1803])
            {
                var question = new CalibrationQuestion { Setup = setup, Priors = [Prior(StrainingInputs.Moisture, new NormalDistribution(middle, 0.006))], Viscosities = [Spot("ball", 35, 6 * Math.E, 0.05)] };
                (CalibrationPosterior posterior, BestFit fit) = Find(question, (ulong)seed);
                Assert.True(fit.IsFound);
                Assert.Equal(middle > 0.18 ? 19 : 17, 100 * posterior.Layout.Numbers[0].Scale.ValueAt(fit.Numbers[0]), 0.05);
            }
        }
    }

    /// <summary>Three starts where the readings are met as they should be; ten where they go together or scatter beyond what is common.</summary>
    [Fact]
    public void More_is_tried_where_the_readings_lie_off()
    {
        long calm = Runs(Fine), together = Runs(Together), wild = Runs([.. Fine.Select(mm => 20 * mm)]), stray = Runs([0.5, -1, 1, 40, 0.3, 45, -0.4, 0.9, -0.8, 0.2]);
        Assert.True(together > 2 * calm, $"{together} {calm}");
        Assert.True(wild > 2 * calm, $"{wild} {calm}");
        Assert.True(stray > 2 * calm, $"{stray} {calm}");

        static long Runs(double[] mm) => Find(Rules(mm) with { Viscosities = [] }).Posterior.ModelRuns - 1024;
    }

    [Fact]
    public void Slopes_are_kept_until_they_are_asked_elsewhere()
    {
        (CalibrationPosterior posterior, BestFit fit) = Find(Rules(Fine));
        double[] here = fit.SlopesAt(fit.Numbers);
        long runs = posterior.ModelRuns;
        Assert.Same(here, fit.SlopesAt([.. fit.Numbers]));
        Assert.Equal(runs, posterior.ModelRuns);
        Assert.NotSame(here, fit.SlopesAt(new double[4]));
        Assert.Equal(runs + 8, posterior.ModelRuns);
        Assert.Equal(-0.005, here[1], 1e-6);
    }

    [Fact]
    public void Where_nothing_can_be_computed_nothing_is_found()
    {
        StrainingSetup setup = OwnHoney.In(Shut, (_, kelvins) => kelvins > 320 ? double.NaN : 6);
        (_, BestFit fit) = Find(new CalibrationQuestion { Setup = setup, Priors = [LevelOfTank], Runs = [Run(setup, Rule(0.11, Fine))], Viscosities = [Spot("ball", 55, 2, 0.1)] });
        Assert.False(fit.IsFound);
        Assert.Equal(LeastSquaresStatus.CannotEvaluate, fit.Status);
    }
}
