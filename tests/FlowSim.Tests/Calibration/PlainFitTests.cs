using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>Whole calibrations whose posterior can be written down.</summary>
public class PlainFitTests
{
    private static readonly UncertainInput GateFactor = Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.1));
    private static readonly UncertainInput Cloth = Prior(StrainingInputs.ScreenFactor, new UniformDistribution(0.62, 1));

    /// <summary>Moisture and lot of a honey whose ln μ is a sum of both, gate and cloth that a viscosity says nothing of.</summary>
    private static readonly CalibrationQuestion Two = new()
    {
        Setup = Straight,
        Priors = [Lot, Moisture, GateFactor, Cloth, LevelOfTank],
        Viscosities = [Spot("ball", 35, 8, 0.1), Spot("jar", 55, 1, 0.15)],
        Sample = false,
    };

    /// <summary>Mean and covariance of the scores of lot and moisture.</summary>
    private static (Vector<double> Mean, Matrix<double> Covariance) ByHand()
    {
        Matrix<double> slopes = Matrix<double>.Build.Dense(2, 2, (i, j) => (j == 0 ? 0.3 : 0.5 * StraightHoney.Slope(Two.Viscosities[i].Temperature.Kelvins)) / Two.Viscosities[i].LogStandardDeviation);
        Matrix<double> covariance = ((slopes.Transpose() * slopes) + Matrix<double>.Build.DenseIdentity(2)).Inverse();
        Vector<double> off = Vector<double>.Build.Dense(2, i => (Math.Log(Two.Viscosities[i].Viscosity.PascalSeconds) - StraightHoney.LogAt(18, Two.Viscosities[i].Temperature.Kelvins)) / Two.Viscosities[i].LogStandardDeviation);
        return (covariance * (slopes.Transpose() * off), covariance);
    }

    [Fact]
    public void Two_viscosities_tell_lot_and_moisture()
    {
        CalibrationAnswer answer = CalibrationFit.Of(Two);
        (Vector<double> mean, Matrix<double> covariance) = ByHand();
        Assert.Equal(CalibrationStatus.Fitted, answer.Status);
        Assert.Same(Two, answer.Question);
        Assert.Equal(["honey.lot_factor", "honey.moisture", "gate.factor", "screen.factor"], answer.Inputs.Select(input => input.Input.Name));
        Assert.All(answer.Inputs, input => Assert.Null(input.Run));
        double[] sds = [Math.Sqrt(covariance[0, 0]), Math.Sqrt(covariance[1, 1]), 1, 1];
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(sds[i], answer.Inputs[i].Left, 0.04 * sds[i]);
            Assert.InRange(answer.Inputs[i].Left, 0, 1);
        }

        Assert.Equal(0.3 * mean[0], Math.Log(answer.Inputs[0].Middle), 0.3 * 0.05 * sds[0]);
        Assert.Equal(0.18 + (0.005 * mean[1]), answer.Inputs[1].Middle, 0.005 * 0.05 * sds[1]);
        Assert.Equal(0.3 * sds[0], Assert.IsType<LogNormalDistribution>(answer.Inputs[0].Posterior).LogStandardDeviation, 0.3 * 0.04 * sds[0]);
        double together = covariance[0, 1] / sds[0] / sds[1];
        Assert.Equal(together, answer.Correlations[0][1], 0.04);
        Assert.Equal(answer.Correlations[0][1], answer.Correlations[1][0]);
        Assert.All(Enumerable.Range(0, 4), i => Assert.Equal(1, answer.Correlations[i][i]));
        Assert.Null(answer.Check);
        Assert.Empty(answer.Series);
        Assert.Empty(answer.Notices);
        Assert.Equal(8192, answer.ModelRuns);
        Assert.Equal(Math.Abs(together) >= 0.8, answer.Indistinct.Count > 0);
    }

    [Fact]
    public void What_is_kept_says_what_it_rests_on()
    {
        CalibrationAnswer answer = CalibrationFit.Of(Two);
        CalibratedInputs kept = answer.Calibrated;
        Assert.Equal(answer.Inputs.Select(input => (input.Input, input.Posterior)), kept.Inputs.Select(input => (input.Input, input.Spread)));
        Assert.All(kept.Inputs.Take(3), input => Assert.Contains("2 runs and measurements", input.Source.Citation, StringComparison.Ordinal));
        Assert.All(kept.Inputs.Take(3), input => Assert.Equal(Standing.GivenByUser, input.Source.Standing));
        Assert.Same(MadeUp, kept.Inputs[3].Source); // Nothing was learnt of the cloth, so its spread and source are those from before.
        Assert.Same(Cloth.Spread, kept.Inputs[3].Spread);
        Assert.Equal([("ball", null, RunFingerprint.Of(Two.Viscosities[0])), ("jar", null, RunFingerprint.Of(Two.Viscosities[1]))], kept.Runs.Select(run => (run.Name, run.Date, run.Fingerprint)));
        foreach (InputCorrelation one in kept.Correlations)
            Assert.True(Math.Abs(one.Strength) >= 0.02);
        InputCorrelation pair = kept.Correlations.Single(one => one is { One: "honey.lot_factor", Other: "honey.moisture" });
        Assert.Equal(answer.Correlations[0][1], pair.Strength);
        Assert.Equal(Enumerable.Range(0, 4).Sum(i => Enumerable.Range(i + 1, 3 - i).Count(j => Math.Abs(answer.Correlations[i][j]) >= 0.02)), kept.Correlations.Count);
    }

    [Fact]
    public void The_prediction_is_made_before_and_after()
    {
        // Half open, so that some runs run over; what went together was learnt earlier.
        StrainingSetup setup = SmallPail.Running() with { Control = GateControl.LeaveAt(Ratio.FromPercent(48)) };
        CalibratedInputs earlier = new() { Inputs = [Lot, GateFactor], Correlations = [new("honey.lot_factor", "gate.factor", 0.5)], Runs = [] };
        CalibrationQuestion question = Two with { Setup = setup, Priors = [LevelOfTank], Earlier = earlier, Viscosities = [Spot("ball", 36, 20, 0.05)] };
        CalibrationAnswer answer = CalibrationFit.Of(question);
        UncertainInput[] priors = FitLayout.Priors(question);
        var before = new PredictionDraws(question.Setup, priors, earlier.Correlations, question, CancellationToken.None);
        UncertainInput[] now = [.. answer.Calibrated.Inputs, LevelOfTank];
        Assert.Equal(["honey.lot_factor", "gate.factor"], answer.Calibrated.Inputs.Select(input => input.Input.Name));
        var after = new PredictionDraws(answer.Calibrated.ApplyTo(question.Setup), now, answer.Calibrated.Correlations, question, CancellationToken.None);
        Assert.Equal(before.Strain(), answer.Prediction.StrainBefore);
        Assert.Equal(after.Strain(), answer.Prediction.StrainAfter);
        Assert.Equal((before.Overflows.Average(), after.Overflows.Average()), (answer.Prediction.OverflowBefore, answer.Prediction.OverflowAfter));
        Assert.True(answer.Prediction.OverflowAfter > 0);
        Assert.True(answer.Prediction.StrainAfter.P50 > answer.Prediction.StrainBefore.P50);
        Assert.Equal(MeasurementChoice.Rank(after).Select(next => (next.What, next.TimeLeft)), answer.Next.Select(next => (next.What, next.TimeLeft)));
    }

    /// <summary>A lot factor anywhere from 0.5 to 3 and a rough viscosity: mean and deviation of the score by the trapezoidal rule; Laplace's deviation would be 0.54.</summary>
    [Fact]
    public void Intervals_follow_a_bent_posterior()
    {
        FittedInput lot = CalibrationFit.Of(Two with { Priors = [Prior(StrainingInputs.LotFactor, new UniformDistribution(0.5, 3))], Viscosities = [Spot("ball", 35, 9, 0.4)] }).Inputs[0];
        double sum = 0, first = 0, second = 0;
        for (double x = -6; x <= 6; x += 0.01)
        {
            double r = Math.Log(1.5 / At(x)) / 0.4, p = Math.Exp(-0.5 * ((r * r) + (x * x)));
            (sum, first, second) = (sum + p, first + (p * x), second + (p * x * x));
        }

        double mean = first / sum, sd = Math.Sqrt((second / sum) - (mean * mean));
        Assert.InRange(sd, 0.66, 0.7);
        Assert.Equal(sd, lot.Left, 0.03);
        Assert.Equal(At(mean - (1.96 * sd)), lot.Low, 0.03);
        Assert.Equal(At(mean + (1.96 * sd)), lot.High, 0.05);

        static double At(double score) => 0.5 + (2.5 * MathNet.Numerics.Distributions.Normal.CDF(0, 1, score));
    }

    [Fact]
    public void One_measurement_is_one_and_earlier_ones_count()
    {
        CalibrationQuestion one = Two with { Viscosities = [Two.Viscosities[0]] };
        CalibrationAnswer first = CalibrationFit.Of(one);
        Assert.Contains("to 1 run or measurement of", first.Calibrated.Inputs[0].Source.Citation, StringComparison.Ordinal);
        CalibrationAnswer second = CalibrationFit.Of(Two with { Viscosities = [Two.Viscosities[1]], Earlier = first.Calibrated });
        Assert.Contains("to 2 runs and measurements of", second.Calibrated.Inputs[0].Source.Citation, StringComparison.Ordinal);
        Assert.Equal(["ball", "jar"], second.Calibrated.Runs.Select(run => run.Name));

        // One after the other they say what both say together.
        (Vector<double> mean, Matrix<double> covariance) = ByHand();
        Assert.Equal(0.3 * mean[0], Math.Log(second.Inputs[0].Middle), 0.3 * 0.1 * Math.Sqrt(covariance[0, 0]));
        Assert.Equal(0.3 * Math.Sqrt(covariance[0, 0]), Assert.IsType<LogNormalDistribution>(second.Inputs[0].Posterior).LogStandardDeviation, 0.3 * 0.08 * Math.Sqrt(covariance[0, 0]));
        Assert.Equal(covariance[0, 1] / Math.Sqrt(covariance[0, 0] * covariance[1, 1]), second.Correlations[0][1], 0.06);
    }

    [Fact]
    public void A_run_keeps_its_own_and_what_it_does_not_explain_is_said()
    {
        TimedRun run = Run(Shut, Rule(0.113, 1, -1, 2, 0.5, -0.3, 0.2, -1.4, 0.8)) with { Date = new DateOnly(2026, 6, 1) };
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion { Setup = Shut, Priors = [Lot, LevelOfTank], Runs = [run], Sample = false });
        Assert.Equal(CalibrationStatus.FittedPoorly, answer.Status); // All that differs between its readings is scatter.
        Assert.Equal([("honey.lot_factor", null), ("tank.level", "run")], answer.Inputs.Select(input => (input.Input.Name, input.Run)));
        Assert.Equal(StrainingInputs.LotFactor, Assert.Single(answer.Calibrated.Inputs).Input);
        Assert.Equal([[1.0]], answer.Correlations);
        Assert.Equal(new RunOnRecord("run", run.Date, run.Fingerprint), Assert.Single(answer.Calibrated.Runs));
        Assert.Single(answer.Series);
        Assert.Equal(["little-explained", "nothing-learnt"], answer.Notices.Select(notice => notice.Code));
        Assert.True(answer.ModelRuns > 8192 + 1024);
    }

    [Fact]
    public void Where_no_fit_is_found_nothing_new_is_kept()
    {
        StrainingSetup setup = OwnHoney.In(Shut, (_, kelvins) => kelvins > 320 ? double.NaN : 6);
        CalibrationQuestion question = Two with { Setup = setup, Priors = [Lot, Moisture], Runs = [Run(setup, Rule(0.11, 1, 2, 1, 2))], Correlations = [new("honey.lot_factor", "honey.moisture", 0.9)] };
        Assert.True(new CalibrationQuestion { Setup = setup }.Sample);
        CalibrationAnswer answer = CalibrationFit.Of(question with { Sample = true });
        Assert.Equal(CalibrationStatus.NotFound, answer.Status);
        Assert.Equal(["no-fit"], answer.Notices.Select(notice => notice.Code));
        Assert.All(answer.Inputs, input => Assert.Equal(1, input.Left, 1e-12));
        Assert.Equal(0.9, answer.Correlations[0][1], 1e-12);
        Assert.Empty(answer.Calibrated.Inputs);
        Assert.Empty(answer.Calibrated.Correlations);
        Assert.Empty(answer.Calibrated.Runs);
        Assert.Empty(answer.Series);
        Assert.Empty(answer.Indistinct);
        Assert.Null(answer.Check);

        CalibratedInputs earlier = new() { Inputs = [Lot], Correlations = [], Runs = [new RunOnRecord("then", null, "0123456789abcdef")] };
        Assert.Same(earlier, CalibrationFit.Of(question with { Earlier = earlier, Correlations = [] }).Calibrated);
    }

    [Fact]
    public void The_sampler_is_asked_where_it_should()
    {
        CalibrationAnswer answer = CalibrationFit.Of(Two with { Sample = true });
        Assert.NotNull(answer.Check);
        Assert.False(answer.Check.Used);
        Assert.InRange(answer.Check.MedianShift, 0, 0.3);
    }

    /// <summary>A drain through gate and lot: either thickens it, and only their product is known.</summary>
    [Fact]
    public void A_drain_is_explained_and_what_makes_up_for_each_other_is_said()
    {
        StrainingSetup setup = SmallPail.Running();
        double[] times = [.. Enumerable.Range(0, 16).Select(i => 10.0 * i)], values = new double[16];
        new StrainingEnsemble(StrainingInputs.LotFactor.With(setup, 1.2), []).Run(ReadOnlyMemory<double>.Empty, new StrainingSample[1], new EnsembleTrace { TimesS = times, Quantities = new[] { StrainingObservable.TankLevel }, Values = values, HoldsLast = true });
        TimedSeries series = Series(StrainingObservable.TankLevel, [.. times.Select((t, i) => (t, values[i] + (0.0005 * ((i * 7 % 5) - 2))))]);
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion { Setup = setup, Priors = [Lot, Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.3))], Runs = [Run(setup, series)], Sample = false });
        Assert.Equal(CalibrationStatus.Fitted, answer.Status);
        Assert.Equal([StrainingInputs.LotFactor, StrainingInputs.GateFactor], Assert.Single(answer.Indistinct).Inputs);
        Assert.True(answer.Correlations[0][1] < -0.9);
        Assert.Equal(1.2, answer.Inputs[0].Middle * answer.Inputs[1].Middle, 0.06);
    }
}
