using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

public class CalibrationFitTests
{
    private static readonly StrainingObservable[] LevelAndWeight = [StrainingObservable.TankLevel, StrainingObservable.ReceiverMass];

    private static CalibrationAnswer Fit(SimulatedRuns simulated, params TimedRun[] runs) =>
        CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup, Runs = runs, Sample = false });

    private static FittedInput Of(CalibrationAnswer answer, StrainingInput input) => answer.Inputs.Single(fitted => fitted.Input == input && fitted.Run is null);

    [Fact]
    public void What_the_readings_cannot_show_is_said_to_be_unknown()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(25), 21);
        CalibrationAnswer answer = Fit(simulated, simulated.Run("level", [StrainingObservable.TankLevel]));
        foreach (StrainingInput hidden in (StrainingInput[])[StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad, StrainingInputs.DebrisSize, StrainingInputs.ReceiverHeatLoss])
        {
            Assert.False(Of(answer, hidden).Identified, hidden.Name);
            Assert.True(Of(answer, hidden).Left > 0.9, $"{hidden.Name} {Of(answer, hidden).Left}: a level in the tank says nothing of it");
        }

        CalibrationAnswer weighed = Fit(simulated, simulated.Run("weight", LevelAndWeight));
        Assert.True(Of(weighed, StrainingInputs.ScreenFactor).Identified);
    }

    /// <summary>Gate and honey both slow a drain: only their product shows, until the honey is measured by itself.</summary>
    [Fact]
    public void A_measured_viscosity_tells_honey_and_gate_apart()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(100), 8);
        StrainingSetup real = simulated.Truth.Aggregate(simulated.Setup, (s, input) => input.Key.With(s, input.Value));
        double viscosity = FlowSim.Properties.HoneyProperties.Of(real.Honey).Viscosity.ViscosityPaS(real.Honey.Moisture.Percent, 308.15) * real.Honey.LotFactor;
        TimedRun run = simulated.Run("run", LevelAndWeight);
        var question = new CalibrationQuestion { Setup = simulated.Setup, Runs = [run], Sample = false };
        CalibrationAnswer alone = CalibrationFit.Of(question);
        CalibrationAnswer told = CalibrationFit.Of(question with { Viscosities = [new ViscositySpot("ball", Temperature.FromKelvins(308.15), DynamicViscosity.FromPascalSeconds(viscosity), 0.02)] });
        Assert.True(Of(told, StrainingInputs.LotFactor).Left < 0.75 * Of(alone, StrainingInputs.LotFactor).Left);
        Assert.InRange(Math.Log(Of(told, StrainingInputs.LotFactor).Middle / simulated.Truth[StrainingInputs.LotFactor]), -0.25, 0.25);
        Assert.Equal(2, told.Calibrated.Runs.Count);
    }

    /// <summary>Without any run, the posterior of the viscosity is a sum of squares that can be written down.</summary>
    [Fact]
    public void A_viscosity_alone_gives_the_product_of_two_normal_densities()
    {
        StrainingSetup setup = RiskSetups.Pail(25);
        FlowSim.Properties.HoneyProperties honey = FlowSim.Properties.HoneyProperties.Of(setup.Honey);
        double expected = honey.Viscosity.ViscosityPaS(17.8, 308.15);
        UncertainInput[] lotAlone = [.. CalibrationPriors.For(setup).Where(prior => prior.Input == StrainingInputs.LotFactor)];
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion
        {
            Setup = setup,
            Priors = lotAlone,
            Viscosities = [new ViscositySpot("ball", setup.HoneyTemperature, DynamicViscosity.FromPascalSeconds(1.5 * expected), 0.2)],
            Sample = false,
        });
        double weight = 1 / (0.3 * 0.3) + 1 / (0.2 * 0.2);
        FittedInput lot = Of(answer, StrainingInputs.LotFactor);
        Assert.Equal(Math.Log(1.5) / (0.2 * 0.2) / weight, Math.Log(lot.Middle), 0.01);
        Assert.Equal(Math.Sqrt(1 / weight) / 0.3, lot.Left, 0.04);
    }

    [Fact]
    public void A_calibration_carried_on_comes_to_what_both_runs_say_together()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(25), 31);
        TimedRun one = simulated.Run("one", LevelAndWeight, outliers: 0), other = simulated.Run("other", LevelAndWeight, outliers: 0);
        CalibrationAnswer together = Fit(simulated, one, other);
        CalibrationAnswer first = Fit(simulated, one);
        CalibrationAnswer second = CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup, Runs = [other], Earlier = first.Calibrated, Sample = false });
        foreach (StrainingInput input in (StrainingInput[])[StrainingInputs.LotFactor, StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad, StrainingInputs.GateFactor])
        {
            FittedInput joint = Of(together, input), carried = Of(second, input);
            double sd = Math.Log(joint.High / joint.Low) / 3.92;
            Assert.InRange(Math.Log(carried.Middle / joint.Middle) / sd, -0.6, 0.6);
            Assert.InRange(Math.Log(carried.High / carried.Low) / 3.92 / sd, 0.75, 1.33);
            Assert.True(joint.Left < Of(first, input).Left + 0.05, input.Name);
        }

        Assert.Equal(["one", "other"], second.Calibrated.Runs.Select(run => run.Name));
        Assert.Contains("earlier", Assert.Throws<ArgumentException>(() => CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup, Runs = [one], Earlier = first.Calibrated })).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Threads_change_no_bit()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(25), 4);
        var question = new CalibrationQuestion { Setup = simulated.Setup, Runs = [simulated.Run("run", LevelAndWeight)] };
        CalibrationAnswer one = CalibrationFit.Of(question with { Threads = 1 }), many = CalibrationFit.Of(question with { Threads = 5 });
        Assert.Equal(one.Inputs.Select(input => (input.Low, input.Middle, input.High)), many.Inputs.Select(input => (input.Low, input.Middle, input.High)));
        Assert.Equal(one.Check, many.Check);
        Assert.Equal(one.Prediction, many.Prediction);
    }

    /// <summary>The chance after the calibration is the one that the question about an overflow gives for what is kept.</summary>
    [Fact]
    public void What_is_kept_says_the_same_to_a_question_about_an_overflow()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(27), 12);
        CalibrationAnswer answer = Fit(simulated, simulated.Run("run", LevelAndWeight));
        StrainingSetup setup = answer.Calibrated.ApplyTo(simulated.Setup);
        RiskAnswer risk = RiskAnalysis.Of(new RiskQuestion { Setup = setup, Inputs = answer.Calibrated.SpreadsFor(setup), Correlations = answer.Calibrated.Correlations, Runs = 4096 });
        double chance = answer.Prediction.OverflowAfter, sd = Math.Sqrt(Math.Max(chance * (1 - chance), 1e-4) / 4096);
        Assert.InRange(risk.Overflow.Value, chance - (5 * sd), chance + (5 * sd));
        Assert.Equal(answer.Prediction.StrainAfter.P50!.Value.Seconds, risk.Strain.P50!.Value.Seconds, 0.02 * risk.Strain.P50.Value.Seconds);
    }

    /// <summary>What a measurement is said to narrow is what it does narrow, on average over what it may show.</summary>
    [Fact]
    public void Advice_comes_true_on_average()
    {
        StrainingSetup setup = RiskSetups.Pail(25);
        CalibrationAnswer blank = CalibrationFit.Of(new CalibrationQuestion
        {
            Setup = setup,
            Viscosities = [new ViscositySpot("a guess", setup.HoneyTemperature, DynamicViscosity.FromPascalSeconds(3), 1.9)],
            Sample = false,
        });
        NextMeasurement ball = blank.Next.Single(next => next.What.Contains("viscosity", StringComparison.Ordinal));
        var ratios = new List<double>();
        UncertainInput[] priors = [.. blank.Calibrated.SpreadsFor(setup)];
        var before = new PredictionDraws(setup, priors, blank.Calibrated.Correlations, blank.Question, default);
        double whole = Deviation(before.LogTimes);
        for (int i = 0; i < 12; i++)
        {
            // A ball of 6 % timed on a honey drawn from what is known.
            double moisture = before.Value(i, StrainingInputs.Moisture), lot = before.Value(i, StrainingInputs.LotFactor);
            double viscosity = FlowSim.Properties.HoneyProperties.OfNumbers(setup.Honey, 100 * moisture, lot).ViscosityPaS(setup.HoneyTemperature.Kelvins);
            CalibrationAnswer told = CalibrationFit.Of(new CalibrationQuestion { Setup = setup, Priors = priors, Correlations = [], Viscosities = [new ViscositySpot("ball", setup.HoneyTemperature, DynamicViscosity.FromPascalSeconds(viscosity), 0.06)], Sample = false });
            var after = new PredictionDraws(told.Calibrated.ApplyTo(setup), [.. priors.Select(prior => told.Calibrated.Inputs.FirstOrDefault(kept => kept.Input == prior.Input) ?? prior)], told.Calibrated.Correlations, blank.Question, default);
            ratios.Add(Deviation(after.LogTimes) / whole);
        }

        Assert.Equal(Math.Sqrt(ratios.Average(r => r * r)), ball.TimeLeft, 0.08);

        static double Deviation(double[] values)
        {
            double mean = values.Average();
            return Math.Sqrt(values.Average(v => (v - mean) * (v - mean)));
        }
    }

    [Fact]
    public void The_sampler_agrees_where_the_posterior_is_plain()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(25), 9);
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup, Runs = [simulated.Run("run", LevelAndWeight)] });
        Assert.NotNull(answer.Check);
        Assert.True(answer.Check.EffectiveSampleSize > 60, answer.Check.ToString());
        Assert.InRange(answer.Check.MedianShift, 0, 0.5);
        Assert.InRange(answer.Check.WidthRatio, 0.7, 1.45);
    }

    [Fact]
    public void A_run_of_another_honey_or_kit_is_refused()
    {
        var simulated = new SimulatedRuns(RiskSetups.Pail(25), 2);
        TimedRun run = simulated.Run("run", LevelAndWeight);
        StrainingSetup other = StrainingInputs.Moisture.With(simulated.Setup, 0.19);
        ArgumentException refused = Assert.Throws<ArgumentException>(() => CalibrationFit.Of(new CalibrationQuestion { Setup = other, Runs = [run] }));
        Assert.Contains("honey.moisture", refused.Message, StringComparison.Ordinal);
        Assert.Contains("twice", Assert.Throws<ArgumentException>(() => CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup, Runs = [run, run with { Name = "copy" }] })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => CalibrationFit.Of(new CalibrationQuestion { Setup = simulated.Setup }));
    }

    [Theory]
    [InlineData("three readings")]
    [InlineData("constant")]
    [InlineData("backwards")]
    [InlineData("too high")]
    [InlineData("not a number")]
    [InlineData("negative")]
    [InlineData("far too late")]
    public void Readings_that_cannot_be_are_refused(string what)
    {
        StrainingSetup setup = RiskSetups.Pail(25);
        (double T, double V)[] good = [(0, 0.29), (60, 0.2), (120, 0.13), (180, 0.08), (240, 0.05)];
        (double T, double V)[] bad = what switch
        {
            "three readings" => good[..3],
            "constant" => [.. good.Select(r => (r.T, 0.2))],
            "backwards" => [good[0], good[2], good[1], good[3]],
            "too high" => [(0, 290), .. good[1..]],
            "not a number" => [(0, double.NaN), .. good[1..]],
            "negative" => [(0, -0.29), .. good[1..]],
            _ => [.. good[..4], (1e8, 0.01)],
        };
        TimedRun run = new() { Name = "run", Setup = setup, Series = [new TimedSeries { Quantity = StrainingObservable.TankLevel, Readings = [.. bad.Select(r => new TimedReading(Duration.FromSeconds(r.T), r.V))] }] };
        Assert.ThrowsAny<ArgumentException>(() => CalibrationFit.Of(new CalibrationQuestion { Setup = setup, Runs = [run] }));
    }

    [Fact]
    public void The_wrong_setup_is_noticed()
    {
        // Read as if the bore were half as wide.
        var simulated = new SimulatedRuns(RiskSetups.Pail(60), 3);
        TimedRun run = simulated.Run("run", LevelAndWeight);
        StrainingSetup narrow = StrainingInputs.Bore.With(simulated.Setup, 0.5 * StrainingInputs.Bore.ValueIn(simulated.Setup));
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion { Setup = narrow, Runs = [run with { Setup = narrow }], Sample = false });
        Assert.True(answer.Status != CalibrationStatus.Fitted || answer.Notices.Any(notice => notice.Code is "far-from-expected" or "residuals-go-together"), answer.Status.ToString());
    }
}
