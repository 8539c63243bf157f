using FlowSim.Calibration;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>How a series was met, where the course is level plus zero.</summary>
public class SeriesFitsTests
{
    private static readonly double[] First = [1, -1, 2, 0.5, -0.3, 0.2, -30, 0.8], Second = [4, -3, 1, 2, -1];

    private static CalibrationQuestion Question(StrainingSetup setup, double offsetS = 5) => new()
    {
        Setup = setup,
        Priors = [LevelOfTank],
        Runs =
        [
            Run(setup, Rule(0.113, First) with { ClockOffset = Duration.FromSeconds(offsetS) }, Rule(0.112, Second)),
            Run(setup, Rule(0.108, Second)) with { Name = "other" },
        ],
    };

    private static (BestFit Fit, IReadOnlyList<SeriesFit> Written, double[] Mean, Matrix<double> Covariance) Write(CalibrationQuestion question)
    {
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        BestFit fit = BestFit.Find(posterior, [.. question.Runs.SelectMany(run => run.Series)], 1, CancellationToken.None);
        double[] mean = [.. Enumerable.Range(0, posterior.Layout.Count).Select(i => 0.1 * i)];
        Matrix<double> covariance = Matrix<double>.Build.DenseDiagonal(mean.Length, mean.Length, i => Math.Pow(0.05 * (i + 1), 2));
        return (fit, SeriesFits.Write(question, fit, (mean, covariance), CancellationToken.None), mean, covariance);
    }

    /// <summary>Numbers: 0 level, 1–4 clocks and zeros of the first run, 5 level, 6–7 of the other.</summary>
    [Fact]
    public void Each_series_has_its_run_its_scatter_its_clock_and_its_zero()
    {
        CalibrationQuestion question = Question(Shut, 2);
        (BestFit fit, IReadOnlyList<SeriesFit> written, _, _) = Write(question);
        Assert.Equal(["run", "run", "other"], written.Select(one => one.Run));
        Assert.Equal(question.Runs.SelectMany(run => run.Series), written.Select(one => one.Series));
        int[] clocks = [1, 3, 6];
        double[] offsets = [2, 5, 5];
        for (int s = 0; s < 3; s++)
        {
            SeriesFit one = written[s];
            Assert.Equal(fit.Posterior.Scales[s] / 0.8310, one.Noise, 1e-12);
            Assert.Equal(offsets[s] * 0.1 * clocks[s], one.Clock.Value.Seconds, 1e-9);
            Assert.Equal(offsets[s] * 0.05 * (clocks[s] + 1), one.Clock.Sd.Seconds, 1e-9);
            Assert.Equal(0.002 * 0.1 * (clocks[s] + 1), one.Zero.Value, 1e-12);
            Assert.Equal(0.002 * 0.05 * (clocks[s] + 2), one.Zero.Sd, 1e-12);
            Assert.Equal(fit.Together[s], (one.Inflation, one.Autocorrelation));
        }
    }

    [Fact]
    public void Each_reading_stands_beside_its_fit()
    {
        (BestFit fit, IReadOnlyList<SeriesFit> written, _, _) = Write(Question(Shut));
        double[] u = fit.Numbers;
        foreach ((SeriesFit one, double level, double[] mm, double fitted) in (ReadOnlySpan<(SeriesFit, double, double[], double)>)
            [
                (written[0], 0.113, First, 0.11 + (0.005 * u[0]) + (0.002 * u[2])),
                (written[1], 0.112, Second, 0.11 + (0.005 * u[0]) + (0.002 * u[4])),
                (written[2], 0.108, Second, 0.11 + (0.005 * u[5]) + (0.002 * u[7])),
            ])
        {
            Assert.Equal(mm.Length, one.Readings.Count);
            for (int i = 0; i < mm.Length; i++)
            {
                FittedReading reading = one.Readings[i];
                Assert.Equal((10.0 * i, level + (0.001 * mm[i])), (reading.At.Seconds, reading.Read));
                Assert.Equal(fitted, reading.Fitted, 1e-9);
                Assert.Equal((reading.Read - fitted) / one.Noise, reading.Residual, 1e-6);
                Assert.Equal(mm[i] < -20, reading.IsOutlier);
            }

            // Of the readings that are no outliers, the share of their variance that the scatter leaves.
            double[] kept = [.. mm.Where(d => d > -20)];
            double mean = kept.Average(), variance = 1e-6 * kept.Sum(d => (d - mean) * (d - mean)) / (kept.Length - 1);
            Assert.Equal(Math.Min(1, 1 - (one.Noise * one.Noise / variance)), one.Explained, 1e-9);
        }

        Assert.Equal([1, 0, 0], written.Select(one => one.Outliers));
    }

    /// <summary>Half width 1.96 √(scatter² + gᵀ C g), g = 5 mm of the level and 2 mm of the zero.</summary>
    [Fact]
    public void The_band_is_what_a_new_reading_may_be()
    {
        (BestFit fit, IReadOnlyList<SeriesFit> written, _, _) = Write(Question(Shut));
        foreach ((int s, int level, int zero) in (ReadOnlySpan<(int, int, int)>)[(0, 0, 2), (1, 0, 4), (2, 5, 7)])
        {
            Vector<double> slopes = Vector<double>.Build.Dense(8, i => i == level ? 0.005 : i == zero ? 0.002 : 0);
            double reach = 1.959963984540054 * Math.Sqrt((written[s].Noise * written[s].Noise) + (slopes * (fit.Covariance * slopes)));
            double value = 0.11 + (0.005 * fit.Numbers[level]) + (0.002 * fit.Numbers[zero]);
            Assert.Equal(121, written[s].Course.Count);
            foreach (PredictedReading at in written[s].Course)
            {
                Assert.Equal(value, at.Value, 1e-9);
                Assert.Equal(value - reach, at.Low, 1e-6);
                Assert.Equal(value + reach, at.High, 1e-6);
            }
        }
    }

    /// <summary>A gate that is opened after a day: until then the run goes on and nothing happens.</summary>
    private static StrainingSetup Waiting(double longestS) => Shut with
    {
        Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.Zero), new OpeningStep(Duration.FromDays(1), Ratio.FromPercent(30))),
        Longest = Duration.FromSeconds(longestS),
    };

    /// <summary>To the end of the run, which is watched to a hundredth beyond the last reading and its clock at least: 1.01 (70 + 4·5) s; three times the last reading at most.</summary>
    [Theory]
    [InlineData(60, 90.9)]
    [InlineData(150, 150)]
    [InlineData(1000, 210)]
    public void The_course_goes_to_the_end_of_the_run(double longestS, double endS)
    {
        IReadOnlyList<SeriesFit> written = Write(Question(Waiting(longestS))).Written;
        Assert.Equal(0, written[0].Course[0].At.Seconds);
        Assert.Equal(endS / 120, written[0].Course[1].At.Seconds, 1e-6);
        Assert.Equal(endS, written[1].Course[^1].At.Seconds, 1e-6);
    }

    [Fact]
    public void A_run_that_has_ended_before_is_shown_to_the_last_reading() =>
        Assert.Equal(70, Write(Question(Shut)).Written[0].Course[^1].At.Seconds, 1e-9); // Nothing flows through a shut gate, so it ends at once.

    [Fact]
    public void Readings_at_the_opening_alone_have_a_course_of_a_moment()
    {
        var question = new CalibrationQuestion { Setup = Waiting(1), Priors = [LevelOfTank], Runs = [Run(Waiting(1), Series(StrainingObservable.TankLevel, (0, 0.11), (0, 0.112), (0, 0.112), (0, 0.11)) with { ClockOffset = Duration.Zero })] };
        SeriesFit one = Assert.Single(Write(question).Written);
        Assert.Equal(0.003, one.Course[^1].At.Seconds, 1e-9);
    }

    /// <summary>Where all but one reading are outliers there is nothing to explain.</summary>
    [Fact]
    public void Readings_that_hardly_differ_are_explained_by_nothing()
    {
        var question = new CalibrationQuestion { Setup = Shut, Priors = [LevelOfTank], Runs = [Run(Shut, Rule(0.11, 0, 0, 0, 0, 0, 0, 0, 0, 40) with { Resolution = 0.001 })] };
        SeriesFit one = Assert.Single(Write(question).Written);
        Assert.Equal(1, one.Outliers);
        Assert.Equal(0, one.Explained);
    }
}
