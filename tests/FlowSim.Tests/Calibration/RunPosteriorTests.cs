using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>What one run says while it goes on, where its readings are level plus zero.</summary>
public class RunPosteriorTests
{
    private static CalibrationQuestion Question(params TimedSeries[] series) => new() { Setup = Shut, Priors = [Lot, LevelOfTank], Runs = [Run(Shut, series)] };

    [Fact]
    public void Without_a_series_all_is_as_it_was_before()
    {
        RunPosterior posterior = RunPosterior.Of(Question(), CancellationToken.None);
        Assert.False(posterior.IsFound);
        Assert.Empty(posterior.Noise);
        Assert.Equal(["honey.lot_factor", "tank.level"], posterior.Inputs.Select(input => input.Input.Name));
        Assert.All(posterior.Inputs, input => Assert.Equal(1, input.Left));
        RunDrawn drawn = posterior.Draw(16, 3);
        Assert.Equal((16, 2), (drawn.Count, drawn.Width));
        double[] points = new double[32];
        new ScrambledSobol(2, 3, 0).Fill(0, points);
        for (int i = 0; i < 16; i++)
        {
            Assert.Equal(Math.Exp(0.3 * Normal.InvCDF(0, 1, points[2 * i])), drawn.Values[2 * i], 1e-9);
            Assert.Equal(0.11 + (0.005 * Normal.InvCDF(0, 1, points[(2 * i) + 1])), drawn.Values[(2 * i) + 1], 1e-9);
        }
    }

    /// <summary>Of the common scatter one would have known before; of what readings show, what they show.</summary>
    [Fact]
    public void Readings_make_level_and_zero_go_together_in_every_draw()
    {
        double[] mm = [1, -1, 2, 0.5, -0.3, 0.2, -1.4, 0.8];
        CalibrationQuestion question = Question(Rule(0.113, mm));
        RunPosterior posterior = RunPosterior.Of(question, CancellationToken.None);
        Assert.True(posterior.IsFound);
        var fitted = new CalibrationPosterior(question, CancellationToken.None);
        BestFit fit = BestFit.Find(fitted, [.. question.Runs[0].Series], 1, CancellationToken.None);
        Assert.Equal(fitted.Scales[0] / 0.8310, Assert.Single(posterior.Noise), 1e-9);

        RunDrawn drawn = posterior.Draw(1024, 1);
        Assert.Equal([StrainingInputs.LotFactor, StrainingInputs.TankLevel, null, null], drawn.Inputs);
        Assert.Equal([2], drawn.Clocks);
        Assert.Equal([0, 1], drawn.Applying(Shut));
        double[] levels = [.. Enumerable.Range(0, 1024).Select(i => drawn.Values[(4 * i) + 1])], zeros = [.. Enumerable.Range(0, 1024).Select(i => drawn.Scale(i, 0).Zero)];
        Assert.Equal(0.11 + (0.005 * fit.Numbers[1]), levels.Average(), 0.0002);
        Assert.Equal(0.002 * fit.Numbers[3], zeros.Average(), 0.0001);
        Assert.Equal(0, Enumerable.Range(0, 1024).Average(i => drawn.Scale(i, 0).ClockS), 0.4);
        double together = 0, sum = 0;
        for (int i = 0; i < 1024; i++)
        {
            together += (levels[i] - levels.Average()) * (zeros[i] - zeros.Average()) / 1024;
            sum += Math.Pow(levels[i] + zeros[i] - levels.Average() - zeros.Average(), 2) / 1024;
        }

        // Their sum is what the rule shows, known far better than either.
        Matrix<double> c = fit.Covariance;
        Assert.Equal(1e-5 * c[1, 3], together, 0.1 * Math.Abs(1e-5 * c[1, 3]));
        double sd = Math.Sqrt((25e-6 * c[1, 1]) + (4e-6 * c[3, 3]) + (2e-5 * c[1, 3]));
        Assert.Equal(sd, Math.Sqrt(sum), 0.1 * sd);
        FittedInput level = posterior.Inputs[1];
        Assert.Equal("run", level.Run);
        Assert.Equal(Math.Sqrt(c[1, 1]), level.Left, 0.05 * level.Left);
    }

    [Fact]
    public void Where_no_fit_is_found_the_scatter_is_the_common_one()
    {
        StrainingSetup setup = OwnHoney.In(Shut, (_, kelvins) => kelvins > 320 ? double.NaN : 6);
        CalibrationQuestion question = Question(Rule(0.11, 1, 2, 3, 2), Series(StrainingObservable.ReceiverMass, (0, 0), (1, 0.1), (2, 0.1), (3, 0.2)));
        question = question with { Setup = setup, Priors = [LevelOfTank], Runs = [question.Runs[0] with { Setup = setup }], Viscosities = [Spot("ball", 55, 2, 0.1)] };
        RunPosterior posterior = RunPosterior.Of(question, CancellationToken.None);
        Assert.False(posterior.IsFound);
        Assert.Equal([0.0015 / 0.8310, 0.03 / 0.8310], posterior.Noise);
        Assert.Equal(1, Assert.Single(posterior.Inputs).Left);
        Assert.Equal([1, 3], posterior.Draw(1, 1).Clocks);
    }

    [Fact]
    public void Inputs_that_do_nothing_in_another_setup_are_left_out_there()
    {
        var drawn = new RunDrawn(1, 4, [StrainingInputs.RideDepth, null, StrainingInputs.TankLevel, StrainingInputs.ScrapeRecovery], [], [1, 2, 3, 4]);
        Assert.Equal([2], drawn.Applying(Shut));
        Assert.Equal([0, 2], drawn.Applying(Shut with { Control = GateControl.RideAt(Length.FromMillimeters(20), Ratio.FromPercent(50)) }));
    }

    [Fact]
    public void A_draw_has_the_clock_and_zero_of_each_series()
    {
        var drawn = new RunDrawn(2, 5, [null, null, null, null, null], [1, 3], [0, 1, 2, 3, 4, 10, 11, 12, 13, 14]);
        Assert.Equal((1, 2), drawn.Scale(0, 0));
        Assert.Equal((13, 14), drawn.Scale(1, 1));
    }
}
