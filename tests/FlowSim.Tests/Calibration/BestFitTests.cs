using FlowSim.Calibration;
using FlowSim.Numerics.Fitting;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
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
        double root = Math.Sqrt(12);
        (double[] Mm, double Floor)[] rules =
        [
            ([0, 0.1, 0.2, 0.1, 0], 0.0001 / root),
            ([0, 0.1, 0.25, 0.4, 0.3], 1e-4 * 0.0004), // Readings that never repeat.
            ([0, 1, 1, 1, 1], 0.001 / root),
            ([0, 0.15, 0.5, 0.5, 0.5 + 1e-9], 1e-4 * 0.0005), // Four of five differ, if only by rounding of units.
            ([-0.2, 0.1, 0.4, 0.3, 0.3], 1e-4 * 0.0006), // Four of five differ: no steps yet.
            ([0, 0, 0, 0.2, 0.2, 0.2 + 1e-12, 0.5, 0.5, 0.5, 0.5], 0.0002 / root), // Three in steps, but for rounding.
        ];
        IReadOnlyList<double> floors = Find(Rules([.. rules.Select(rule => rule.Mm)]) with { Priors = [LevelOfTank], Viscosities = [] }).Fit.Floors;
        for (int i = 0; i < rules.Length; i++)
            Assert.Equal(rules[i].Floor, floors[i], 1e-12);
    }

    [Fact]
    public void A_step_that_is_said_is_taken()
    {
        CalibrationQuestion question = Rules([0, 0.1, 0.2, 0.1, 0]) with { Priors = [LevelOfTank], Viscosities = [] };
        question = question with { Runs = [question.Runs[0] with { Series = [question.Runs[0].Series[0] with { Resolution = 0.0004 }] }] };
        Assert.Equal(0.0004 / Math.Sqrt(12), Find(question).Fit.Floors[0], 1e-12);
    }

    /// <summary>
    /// ln μ over what was measured is (x + 1.4)(1.6 − x) e^(−0.6 x), x the score of the moisture: met at −1.4 and at 1.6. From 0 the way goes down to 1.6, but −1.4 is the likelier;
    /// which of the two the likeliest draws, the first and third start, lie at is chance. The hump between them is at −0.48.
    /// </summary>
    [Fact]
    public void Of_two_minima_the_likelier_one_is_taken()
    {
        StrainingSetup setup = OwnHoney.In(Shut, (moisture, _) => 6 * Math.Exp(Over((moisture - 18) / 0.6)));
        var question = new CalibrationQuestion { Setup = setup, Priors = [Prior(StrainingInputs.Moisture, new NormalDistribution(0.18, 0.006))], Viscosities = [Spot("ball", 35, 6, 0.05)] };
        var sides = new List<string>();
        for (ulong seed = 1; seed <= 12; seed++)
        {
            bool[] left = [.. FitStarts.For(new CalibrationPosterior(question, CancellationToken.None), [], seed).Take(3).Select(start => start[0] < -0.48)];
            sides.Add(string.Concat(left.Select(one => one ? '<' : '>')));
            (_, BestFit fit) = Find(question, seed);
            Assert.True(fit.IsFound);
            Assert.Equal(left.Contains(true) ? -1.4 : 1.6, fit.Numbers[0], 0.05);
        }

        // The last one tried may be the worse one, and the better one may be found twice.
        Assert.Contains("<>>", sides);
        Assert.Contains("<><", sides);

        static double Over(double x) => (x + 1.4) * (1.6 - x) * Math.Exp(-0.6 * x);
    }

    public static TheoryData<double[]> Suspect => [Together[..10], [.. Fine.Select(mm => 20 * mm)], [0.5, -1, 1, 40, 0.3, 45, -0.4, 0.9, -0.8, 0.2]];

    /// <summary>Three starts where the readings are met as they should be; ten where they go together, scatter beyond what is common or are stray.</summary>
    [Theory]
    [MemberData(nameof(Suspect))]
    public void More_is_tried_where_the_readings_lie_off(double[] mm)
    {
        long calm = Runs(Fine), off = Runs(mm);
        Assert.True(off > 2 * calm, $"{off} {calm}");

        static long Runs(double[] mm) => Find(Rules(mm) with { Priors = [LevelOfTank], Viscosities = [] }).Posterior.ModelRuns - 1024;
    }

    [Fact]
    public void One_stray_reading_of_ten_is_common_and_one_rule_of_two_is_enough()
    {
        long calm = Runs([.. Fine, 0.4, -0.6]);
        Assert.True(Runs([.. Fine, 0.4, 25]) < 2 * calm);
        Assert.True(Runs(Fine, Together[..10]) > 3 * calm);

        static long Runs(params double[][] mm) => Find(Rules(mm) with { Priors = [LevelOfTank], Viscosities = [] }).Posterior.ModelRuns - 1024;
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

    /// <summary>A honey of somebody's own whose viscosity is no number but at the setup's moisture: no start can be evaluated, and no fit is claimed.</summary>
    [Fact]
    public void A_viscosity_that_is_no_number_is_no_fit()
    {
        StrainingSetup own = OwnHoney.In(SmallPail.Running(), (moisture, _) => Math.Abs(moisture - 18) < 1e-9 ? 6 : double.NaN);
        (_, BestFit fit) = Find(new CalibrationQuestion
        {
            Setup = own,
            Priors = [Prior(StrainingInputs.Moisture, new NormalDistribution(0.181, 0.0001))],
            Runs = [Run(own, Rule(0.11, 0, -1, 1, 0))],
        });
        Assert.False(fit.IsFound);
        Assert.Equal(LeastSquaresStatus.CannotEvaluate, fit.Status);
    }
}
