using System.Globalization;
using FlowSim.Attending;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;
using static FlowSim.Tests.Attending.SpreadRun;

namespace FlowSim.Tests.Attending;

/// <summary>Advice by its definitions: counts and ranks among the 1024 runs of a forecast.</summary>
public class AdviceTests
{
    /// <summary>At 38 s some have run over already.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(38)]
    public void The_rim_is_reached_as_often_and_as_soon_as_the_runs_left_alone_do(double last)
    {
        RunForecast forecast = RunForecast.Of(Run() with { Steps = last > 0 ? [Scraped(last)] : [] });
        double[] over = [.. forecast.Left.Samples.Where(sample => sample.FirstOverflowSeconds > last && sample.EndSeconds > last).Select(sample => sample.FirstOverflowSeconds)];
        double[] when = [.. over.Where(double.IsFinite)];
        RimOutlook rim = forecast.At(S(last)).PondReachesRim;
        Assert.InRange(rim.Chance, 0.02, 0.98);
        Assert.Equal(when.Length / (double)over.Length, rim.Chance, 1e-12);
        Same(Ranked(when, 0.05), rim.Earliest!.Value);
        Same(Ranked(when, 0.5), rim.Likely!.Value);
        Same(Ranked(when, 0.95), rim.Latest!.Value);
    }

    [Fact]
    public void It_is_ready_when_the_runs_as_planned_are()
    {
        RunForecast forecast = RunForecast.Of(Run(rimMm: 37, longestS: 3600));
        double[] done = [.. forecast.Planned.Samples.Select(sample => double.IsNaN(sample.StrainSeconds) ? double.PositiveInfinity : sample.StrainSeconds)];
        RunOutlook outlook = forecast.At(Duration.Zero);
        Same(Ranked(done, 0.1), outlook.Ready.P10!.Value);
        Same(Ranked(done, 0.5), outlook.Ready.P50!.Value);
        Assert.Equal(done.Count(double.IsPositiveInfinity) / (double)Runs, outlook.Ready.Never);
        Assert.InRange(outlook.Ready.Never, 0.01, 0.4);
        NextAction shut = Action(forecast, NextActionKind.ShutWhenDone)!;
        Same(Ranked(done, 0.5), shut.At);
        Same(Ranked(done, 0.05), shut.Earliest);
        Same(done.Where(double.IsFinite).Where(seconds => seconds <= Ranked(done, 0.95)).Max(), shut.Latest);
    }

    /// <summary>Of 1024 runs ten may run over at 1 %, as many as can be told.</summary>
    [Theory]
    [InlineData(1, 10)]
    [InlineData(0.1, 10)]
    [InlineData(5, 51)]
    public void The_next_look_is_when_more_have_run_over_than_are_put_up_with(double percent, int allowed)
    {
        RunForecast forecast = RunForecast.Of(Run() with { Tolerance = Ratio.FromPercent(percent) });
        double[] danger = [.. forecast.Left.Samples.Select(sample => Math.Min(sample.FirstOverflowSeconds, sample.ReceiverFullSeconds)).Order()];
        NextAction look = Action(forecast, NextActionKind.LookAtPond)!;
        Same(danger[allowed], look.At);
        Assert.Equal(look.At, look.Earliest);
        Same(Ranked(danger.Where(double.IsFinite), 0.5), look.Latest);
        Assert.Contains($"{percent.ToString(CultureInfo.InvariantCulture)} %", look.Why, StringComparison.Ordinal);
        Same(danger[allowed] - 4, forecast.At(S(4)).LookAgainIn!.Value);
        Assert.Equal(Duration.Zero, forecast.At(S(1e5)).LookAgainIn);
    }

    [Fact]
    public void A_full_receiver_is_told_with_when_and_how_often_and_is_a_danger_too()
    {
        AttendedRun run = WithReceiver(Run(rimMm: 100, longestS: 300), heightMm: 40);
        RunForecast forecast = RunForecast.Of(run);
        double[] full = [.. forecast.Left.Samples.Select(sample => sample.ReceiverFullSeconds)];
        Assert.All(full, seconds => Assert.True(double.IsFinite(seconds)));
        NextAction change = Action(forecast, NextActionKind.ChangeReceiver)!;
        Same(Ranked(full, 0.5), change.At);
        Same(Ranked(full, 0.05), change.Earliest);
        Same(Ranked(full, 0.95), change.Latest);
        Assert.Contains("100 of 100", change.Why, StringComparison.Ordinal);
        Same(full.Order().ElementAt(10), Action(forecast, NextActionKind.LookAtPond)!.At);
    }

    [Fact]
    public void The_gate_is_to_be_narrowed_when_the_first_ponds_come_near_the_rim()
    {
        AttendedRun run = Run(rimMm: 26);
        RunForecast forecast = RunForecast.Of(run);
        double[] near = [.. Enumerable.Range(0, Runs).Select(i => forecast.Left.FirstAbove(i, StrainingObservable.PondDepth, 0.8 * 0.026, 0))];
        NextAction narrow = Action(forecast, NextActionKind.NarrowGate)!;
        Same(Ranked(near, 0.01), narrow.At);
        Assert.Equal(narrow.At, narrow.Earliest);
        Same(Ranked(near.Where(double.IsFinite), 0.5), narrow.Latest);

        // The widest of the openings tried that leaves no more than can be told at the tolerance.
        double[] tried = [.. new[] { 0.75, 0.6, 0.5, 0.4, 0.3, 0.2 }.Select(share => Math.Round(30 * share))];
        double Chance(double percent) => forecast.Try(RunPlans.LeftAfter(run, narrow.At, Ratio.FromPercent(percent)), CancellationToken.None).Count(sample => sample.RanOver) / (double)Runs;
        int chosen = Array.IndexOf(tried, Math.Round(narrow.Opening!.Value.Percent));
        Assert.InRange(chosen, 1, 5);
        Assert.InRange(Chance(tried[chosen]), 0, 10.0 / Runs);
        Assert.InRange(Chance(tried[chosen - 1]), 10.1 / Runs, 1);
        Assert.Null(narrow.Depth);
    }

    [Fact]
    public void With_hardly_any_tolerance_the_second_pond_near_the_rim_counts()
    {
        RunForecast forecast = RunForecast.Of(Run() with { Tolerance = Ratio.FromDecimalFractions(1e-6) });
        double[] near = [.. Enumerable.Range(0, Runs).Select(i => forecast.Left.FirstAbove(i, StrainingObservable.PondDepth, 0.8 * 0.038, 0))];
        Same(near.Order().ElementAt(1), Action(forecast, NextActionKind.NarrowGate)!.At);
    }

    [Fact]
    public void Where_no_narrower_opening_is_enough_the_gate_is_to_be_shut()
    {
        // Over a rim of 12 mm a fifth of the opening is too much too.
        NextAction narrow = Action(RunForecast.Of(Run(rimMm: 12, openPercent: 100)), NextActionKind.NarrowGate)!;
        Assert.Equal(0, narrow.Opening!.Value.Percent, 1e-9);
    }

    [Fact]
    public void Where_nothing_runs_over_nobody_need_look_scrape_or_narrow()
    {
        RunForecast forecast = RunForecast.Of(Run(rimMm: 100));
        Assert.DoesNotContain(forecast.At(Duration.Zero).NextActions, action => action.Kind is NextActionKind.LookAtPond or NextActionKind.Scrape or NextActionKind.NarrowGate or NextActionKind.ChangeReceiver);
        Assert.Null(forecast.At(Duration.Zero).LookAgainIn);
        Assert.Equal(new RimOutlook(0, null, null, null), forecast.At(Duration.Zero).PondReachesRim);
    }

    [Theory]
    [InlineData(30, false)]
    [InlineData(12, true)]
    public void Readings_are_asked_for_at_a_distance(double openPercent, bool far)
    {
        RunForecast forecast = RunForecast.Of(Run(rimMm: 100, openPercent, longestS: 7200));
        NextAction read = Action(forecast, NextActionKind.TakeReading)!;
        double wanted = 0.07 * forecast.At(Duration.Zero).Ready.P50!.Value.Seconds;
        Assert.Equal(far, wanted > 20);
        Same(Math.Max(20, wanted), read.At);
        Assert.Equal((read.At, read.At), (read.Earliest, read.Latest));
    }
}
