using FlowSim.Attending;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;
using static FlowSim.Tests.Attending.SpreadRun;

namespace FlowSim.Tests.Attending;

/// <summary>Advice while a run goes on: only runs that have not run over count; and what is planned, scraped and ridden.</summary>
public class AdviceLaterTests
{
    private static string[] Kinds(RunForecast forecast) => [.. forecast.At(forecast.Run.LastEntry).NextActions.Select(action => action.Kind.ToString())];

    /// <summary>At 38 s some runs of this pail have run over and others will.</summary>
    [Fact]
    public void After_an_entry_what_has_run_over_by_then_is_no_matter_any_more()
    {
        RunForecast forecast = RunForecast.Of(Run() with { Steps = [Gate(38, 30)] });
        StrainingSample[] samples = forecast.Left.Samples;
        int[] open = [.. Enumerable.Range(0, Runs).Where(i => samples[i].FirstOverflowSeconds > 38)];
        double[] ahead = [.. open.Select(i => samples[i].FirstOverflowSeconds).Where(double.IsFinite).Order()];
        Assert.InRange(open.Length, 300, 1000);
        Assert.InRange(ahead.Length, 20, 600);
        NextAction look = Action(forecast, NextActionKind.LookAtPond)!, narrow = Action(forecast, NextActionKind.NarrowGate)!;
        Same(ahead[Math.Max(10, (int)(0.01 * open.Length))], look.At);
        Same(Ranked(ahead, 0.5), look.Latest);

        // Near the rim at once: the runs that are still in it.
        double[] near = [.. open.Select(i => forecast.Left.FirstAbove(i, StrainingObservable.PondDepth, 0.8 * 0.038, 38))];
        Same(Ranked(near, 0.01), narrow.At);
        Assert.Contains($"{(100.0 * ahead.Length / open.Length).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture)} of 100", narrow.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_receiver_that_was_full_before_is_told_of_the_runs_where_it_still_comes()
    {
        RunForecast forecast = RunForecast.Of(WithReceiver(Run(rimMm: 100, longestS: 300), heightMm: 40) with { Steps = [Gate(60, 30)] });
        double[] full = [.. forecast.Left.Samples.Select(sample => sample.ReceiverFullSeconds).Where(seconds => seconds > 60)];
        Assert.InRange(full.Length, 100, 900);
        Same(Ranked(full, 0.5), Action(forecast, NextActionKind.ChangeReceiver)!.At);
    }

    /// <summary>Much debris over a low rim: half way up the pond a scrape saves most of the runs that would run over.</summary>
    [Fact]
    public void A_scrape_is_advised_half_way_to_the_rim_where_it_halves_the_chance()
    {
        AttendedRun run = Run(rimMm: 32, openPercent: 20, load: 0.02, longestS: 200);
        RunForecast forecast = RunForecast.Of(run);
        NextAction scrape = Action(forecast, NextActionKind.Scrape)!;
        double[] half = [.. Enumerable.Range(0, Runs).Select(i => forecast.Left.FirstAbove(i, StrainingObservable.PondDepth, 0.016, 0)).Where(double.IsFinite)];
        Same(Ranked(half, 0.5), scrape.At);
        Same(Ranked(half, 0.05), scrape.Earliest);
        Same(Ranked(half, 0.95), scrape.Latest);
        double Over(StrainingSetup setup) => forecast.Try(setup, CancellationToken.None).Count(sample => sample.RanOver) / (double)Runs;
        Assert.True(Over(RunPlans.LeftAfter(run, scrape.At, opening: null)) <= 0.5 * Over(run.Setup));
    }

    [Fact]
    public void Of_a_pond_that_the_gate_alone_fills_a_scrape_takes_little_away() => Assert.DoesNotContain("Scrape", Kinds(RunForecast.Of(Run())));

    [Theory]
    [InlineData(0.036, true)]
    [InlineData(0.041, false)]
    public void A_scrape_by_depth_is_told_if_half_of_the_runs_come_to_it(double depth, bool told)
    {
        AttendedRun run = Run(rimMm: 100);
        RunForecast forecast = RunForecast.Of(run with { Setup = run.Setup with { Scraping = new Scraping { AtPondDepth = Length.FromMeters(depth) } } });
        RunCourses left = forecast.Left;
        Assert.Equal(told, left.Samples.Count(sample => 0.100 * sample.PeakPondShare >= depth) > Runs / 2);
        NextAction? scrape = Action(forecast, NextActionKind.Scrape);
        Assert.Equal(told, scrape is not null);
        if (scrape is null)
            return;
        double[] when = [.. Enumerable.Range(0, Runs).Select(i => left.FirstAbove(i, StrainingObservable.PondDepth, depth, 0)).Where(double.IsFinite)];
        Assert.Equal(Ranked(when, 0.5), scrape.At.Seconds, 0.02);
        Assert.Equal(Ranked(when, 0.05), scrape.Earliest.Seconds, 0.02);
        Assert.Equal(Ranked(when, 0.95), scrape.Latest.Seconds, 0.02);
        Assert.Equal(depth, scrape.Depth!.Value.Meters, 1e-12);
    }

    [Theory]
    [InlineData("Scrape 60, SetGate 60 20", 0, 0)]
    [InlineData("Scrape 80, SetGate 90 25", 60, 0)]
    [InlineData("", 60, 95)]
    public void What_is_planned_comes_next_the_scrape_before_the_gate(string next, double first, double second)
    {
        StrainingSetup setup = Pail with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.FromPercent(10)), new OpeningStep(S(60), Ratio.FromPercent(20)), new OpeningStep(S(90), Ratio.FromPercent(25))),
            Scraping = new Scraping { Times = [S(60), S(80)] },
            Longest = S(120),
        };
        RunForecast forecast = RunForecast.Of(Plain() with { Setup = setup, Steps = [.. new[] { first, second }.Where(s => s > 0).Select(Scraped)] });
        NextAction[] planned = [.. forecast.At(forecast.Run.LastEntry).NextActions.Where(action => action.Kind is NextActionKind.Scrape or NextActionKind.SetGate)];
        Assert.Equal(next, string.Join(", ", planned.Select(action => $"{action.Kind} {action.At.Seconds:0} {action.Opening?.Percent:0}").Select(text => text.Trim())));
        Assert.All(planned, action => Assert.Equal((action.At, action.At), (action.Earliest, action.Latest)));
    }

    [Fact]
    public void Left_alone_is_without_what_is_planned()
    {
        AttendedRun run = Run(rimMm: 32, openPercent: 20, load: 0.02, longestS: 200);
        RunForecast planned = RunForecast.Of(run with { Setup = run.Setup with { Scraping = new Scraping { Times = [S(20)] } } });
        double unscraped = planned.Try(run.Setup, CancellationToken.None).Count(sample => sample.RanOver) / (double)Runs;
        Assert.Equal(unscraped, planned.At(Duration.Zero).PondReachesRim.Chance, 1e-12);
        Assert.True(planned.Planned.Samples.Count(sample => sample.RanOver) < 0.5 * unscraped * Runs);
    }

    [Fact]
    public void A_ridden_pond_rises_from_the_depth_it_is_held_at()
    {
        AttendedRun run = Run(rimMm: 38) with { Steps = [Scraped(36)] };
        run = run with { Setup = run.Setup with { Control = GateControl.RideAt(Length.FromMillimeters(20), Ratio.FromPercent(30)) } };
        RunForecast forecast = RunForecast.Of(run);
        double[] danger = [.. Enumerable.Range(0, Runs).Select(i =>
        {
            double over = forecast.Left.Samples[i].FirstOverflowSeconds, held = forecast.Left.FirstAbove(i, StrainingObservable.PondDepth, 0.020, 0);
            return double.IsFinite(over) && held <= 36 ? 36 + Math.Max(0, over - held) : over;
        }).Order()];
        NextAction ride = Action(forecast, NextActionKind.RidePond)!;
        Same(danger[10], ride.At);
        Same(Ranked(danger.Where(double.IsFinite), 0.5), ride.Latest);
        Assert.Equal(20, ride.Depth!.Value.Millimeters, 1e-9);
        Assert.DoesNotContain(Kinds(forecast), kind => kind is "LookAtPond" or "NarrowGate");
    }

    [Fact]
    public void With_the_gate_shut_nothing_is_left_to_do()
    {
        RunForecast forecast = RunForecast.Of(Run() with { Steps = [Gate(5, 0)] });
        Assert.Empty(Kinds(forecast));
        Assert.Null(forecast.At(S(5)).LookAgainIn);
    }
}
