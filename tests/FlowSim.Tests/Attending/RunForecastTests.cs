using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Calibration;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>Forecasts of which everything is known exactly, held to single runs; and the advice, held to runs drawn anew.</summary>
public class RunForecastTests
{
    private static StrainingResult Single(StrainingSetup setup) => StrainingRun.Simulate(setup, new StrainingOptions { RelativeTolerance = 1e-8, SeriesPoints = 4000 });

    private static NextAction? Action(RunOutlook outlook, NextActionKind kind) => outlook.NextActions.FirstOrDefault(action => action.Kind == kind);

    /// <summary>When the pond of a single run first reaches a depth, s, by its series.</summary>
    private static double Reaches(StrainingResult run, double depthM) => run.Series.TimeS[run.Series.PondDepthM.ToList().FindIndex(depth => depth >= depthM)];

    [Fact]
    public void Where_all_is_known_the_outlook_is_the_run_itself()
    {
        StrainingSetup setup = AttendedRuns.Clogging();
        StrainingResult single = Single(setup);
        RunOutlook outlook = RunForecast.Of(AttendedRuns.Of(setup)).At(Duration.FromSeconds(20));
        Assert.NotNull(single.FirstOverflow);
        Assert.Equal(1, outlook.PondReachesRim.Chance);
        Assert.Equal(single.FirstOverflow.Value.Seconds, outlook.PondReachesRim.Likely!.Value.Seconds, 0.002 * single.FirstOverflow.Value.Seconds);
        Assert.Null(single.Strain.To95); // So much goes over the rim that 95 % never passes the cloth.
        Assert.Null(outlook.Ready.P50);
        Assert.Null(Action(outlook, NextActionKind.ShutWhenDone));
        Assert.Equal(single.FirstOverflow.Value.Seconds - 20, outlook.LookAgainIn!.Value.Seconds, 0.1);
        Assert.Equal(Reaches(single, 0.8 * 0.060), Action(outlook, NextActionKind.NarrowGate)!.At.Seconds, 0.5);
        foreach (ExpectedReading expected in outlook.Expected)
        {
            double exact = SimulatedRuns.Read(setup, expected.Quantity, [20])[0];

            // Between the times of the grid a corner, as where the pond comes to the rim, is cut: by less than a third of what scales and rules scatter by.
            Assert.Equal(exact, expected.Value, QuantityFacts.Of(expected.Quantity).Scatter / 3);
            Assert.InRange(expected.Value, expected.Low, expected.High);
        }
    }

    [Fact]
    public void Where_nothing_runs_over_the_run_is_ready_when_95_per_cent_is_through()
    {
        StrainingSetup setup = RiskSetups.Pail(20);
        double done = Single(setup).Strain.To95!.Value.Seconds;
        RunOutlook outlook = RunForecast.Of(AttendedRuns.Of(setup)).At(Duration.Zero);
        Assert.Equal(done, outlook.Ready.P50!.Value.Seconds, 1e-3 * done);
        Assert.Equal(outlook.Ready.P10!.Value.Seconds, outlook.Ready.P90!.Value.Seconds, 0.1);
        Assert.Equal(done, Action(outlook, NextActionKind.ShutWhenDone)!.At.Seconds, 1e-3 * done);
        Assert.Equal(0, outlook.PondReachesRim.Chance);
        Assert.Null(outlook.LookAgainIn);
        Assert.InRange(Action(outlook, NextActionKind.TakeReading)!.At.Seconds, 20, 0.2 * done);
    }

    [Fact]
    public void A_scrape_by_depth_is_due_when_the_pond_is_there()
    {
        StrainingSetup setup = AttendedRuns.Clogging(rimMm: 100) with { Scraping = new Scraping { AtPondDepth = RiskSetups.Mm(45) } };
        StrainingResult unscraped = Single(setup with { Scraping = Scraping.Never });
        NextAction scrape = Action(RunForecast.Of(AttendedRuns.Of(setup)).At(Duration.Zero), NextActionKind.Scrape)!;
        Assert.Equal(Reaches(unscraped, 0.045), scrape.At.Seconds, 0.5);
        Assert.Equal(45, scrape.Depth!.Value.Millimeters, 9);
    }

    [Fact]
    public void Planned_scrapes_and_openings_come_in_turn()
    {
        StrainingSetup setup = RiskSetups.Pail(20) with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.FromPercent(15)), new OpeningStep(Duration.FromSeconds(200), Ratio.FromPercent(20))),
            Scraping = new Scraping { Times = [Duration.FromSeconds(100), Duration.FromSeconds(300)] },
        };
        AttendedRun run = AttendedRuns.Of(setup);
        RunOutlook begin = RunForecast.Of(run).At(Duration.Zero);
        Assert.Equal(100, Action(begin, NextActionKind.Scrape)!.At.Seconds, 9);
        Assert.Equal(200, Action(begin, NextActionKind.SetGate)!.At.Seconds, 9);
        Assert.Equal(20, Action(begin, NextActionKind.SetGate)!.Opening!.Value.Percent, 9);
        Assert.Equal(Single(setup).Strain.To95!.Value.Seconds, begin.Ready.P50!.Value.Seconds, 1);

        // A scrape that came late is the first one all the same.
        RunOutlook later = RunForecast.Of(run with { Steps = [NotedStep.Scrape(Duration.FromSeconds(120))] }).At(Duration.FromSeconds(250));
        Assert.Equal(300, Action(later, NextActionKind.Scrape)!.At.Seconds, 9);
        StrainingSetup done = setup with { Scraping = new Scraping { Times = [Duration.FromSeconds(120), Duration.FromSeconds(300)] } };
        Assert.Equal(Single(done).Strain.To95!.Value.Seconds, later.Ready.P50!.Value.Seconds, 1);
    }

    [Fact]
    public void What_is_noted_takes_the_place_of_the_plan()
    {
        StrainingSetup setup = AttendedRuns.Clogging(rimMm: 100);
        AttendedRun run = AttendedRuns.Of(setup) with { Steps = [NotedStep.Scrape(Duration.FromSeconds(60)), new NotedStep(Duration.FromSeconds(90), Ratio.FromPercent(15))] };
        StrainingSetup real = setup with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.FromPercent(25)), new OpeningStep(Duration.FromSeconds(90), Ratio.FromPercent(15))),
            Scraping = new Scraping { Times = [Duration.FromSeconds(60)] },
        };
        RunOutlook outlook = RunForecast.Of(run).At(Duration.FromSeconds(150));
        foreach (ExpectedReading expected in outlook.Expected)
        {
            double exact = SimulatedRuns.Read(real, expected.Quantity, [150])[0];
            Assert.Equal(exact, expected.Value, 1e-3 * Math.Max(0.1, exact));
        }

        Assert.Equal(StrainingRun.Simulate(NotedSteps.ApplyTo(setup, run.Steps)).Elapsed.Seconds, StrainingRun.Simulate(real).Elapsed.Seconds, 1e-9);
    }

    [Fact]
    public void A_shut_gate_leaves_nothing_to_do()
    {
        RunOutlook outlook = RunForecast.Of(AttendedRuns.Of(AttendedRuns.Clogging()) with { Steps = [new NotedStep(Duration.FromSeconds(5), Ratio.Zero)] }).At(Duration.FromSeconds(30));
        Assert.Empty(outlook.NextActions);
        Assert.Null(outlook.LookAgainIn);
        Assert.Null(outlook.Ready.P50);
    }

    [Fact]
    public void A_receiver_that_fills_is_told_and_limits_the_absence()
    {
        StrainingSetup setup = RiskSetups.Pail(20) with { Receiver = new FlowSim.Vessels.Receiver { Shape = FlowSim.Vessels.UprightCylinder.OfCapacity(Volume.FromLiters(10), RiskSetups.Mm(250)), Spacer = RiskSetups.Mm(30) } };
        double full = Single(setup).ReceiverFullAt!.Value.Seconds;
        RunOutlook outlook = RunForecast.Of(AttendedRuns.Of(setup)).At(Duration.Zero);
        Assert.Equal(full, Action(outlook, NextActionKind.ChangeReceiver)!.At.Seconds, 0.002 * full);
        Assert.Equal(full, outlook.LookAgainIn!.Value.Seconds, 0.002 * full);
    }

    [Fact]
    public void A_ridden_pond_may_be_left_as_long_as_it_rises_from_its_depth_to_the_rim()
    {
        StrainingSetup setup = AttendedRuns.Clogging(rimMm: 100) with { Control = GateControl.RideAt(RiskSetups.Mm(50), Ratio.FromPercent(60)) };
        StrainingResult open = Single(setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(60)) });
        double rises = open.FirstOverflow!.Value.Seconds - Reaches(open, 0.050);
        RunOutlook outlook = RunForecast.Of(AttendedRuns.Of(setup) with { Steps = [NotedStep.Scrape(Duration.FromSeconds(60))] }).At(Duration.FromSeconds(60));
        NextAction ride = Action(outlook, NextActionKind.RidePond)!;
        Assert.Equal(50, ride.Depth!.Value.Millimeters, 9);
        Assert.Equal(rises, ride.At.Seconds - 60, 0.5 + (0.05 * rises));
    }

    /// <summary>The absence, against runs whose inputs come from another source of chance than the forecast's.</summary>
    [Fact]
    public void Until_the_next_look_as_many_runs_run_over_as_are_put_up_with()
    {
        StrainingSetup setup = RiskSetups.Pail(30);
        RunOutlook outlook = RunForecast.Of(new AttendedRun { Setup = setup, Tolerance = Ratio.FromPercent(5) }).At(Duration.Zero);
        double until = outlook.LookAgainIn!.Value.Seconds;
        var random = new MathNet.Numerics.Random.MersenneTwister(3);
        IReadOnlyList<UncertainInput> priors = CalibrationPriors.For(setup);
        const int runs = 4000;
        double[] values = new double[runs * priors.Count];
        for (int i = 0; i < runs; i++)
        {
            for (int j = 0; j < priors.Count; j++)
            {
                (double low, double high) = priors[j].Input.RangeIn(setup);
                values[(i * priors.Count) + j] = CalibrationPriors.Straight(priors[j]).Spread.Within(low, high).Quantile(random.NextDouble());
            }
        }

        var samples = new StrainingSample[runs];
        new StrainingEnsemble(setup, [.. priors.Select(prior => prior.Input)]).Run(values, samples);
        double over = samples.Count(sample => sample.FirstOverflowSeconds <= until) / (double)runs;
        Assert.InRange(over, 0.03, 0.065); // 5 % less four standard deviations of 1024 runs, and a little more than none above.
        Assert.Equal(samples.Count(sample => sample.RanOver) / (double)runs, outlook.PondReachesRim.Chance, 0.06);

        // The gate set as advised at the time advised: the chance is within the tolerance.
        NextAction narrow = outlook.NextActions.First(action => action.Kind == NextActionKind.NarrowGate);
        StrainingSetup narrowed = setup with { Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.FromPercent(30)), new OpeningStep(narrow.At, narrow.Opening!.Value)) };
        new StrainingEnsemble(narrowed, [.. priors.Select(prior => prior.Input)]).Run(values, samples);
        Assert.InRange(samples.Count(sample => sample.RanOver) / (double)runs, 0, 0.08);
    }
}
