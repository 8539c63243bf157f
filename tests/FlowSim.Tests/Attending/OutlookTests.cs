using System.Globalization;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Calibration;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;
using static FlowSim.Tests.Attending.SpreadRun;

namespace FlowSim.Tests.Attending;

/// <summary>What rule and scale should show, how a reading lies to that, and what is told of it.</summary>
public class OutlookTests
{
    /// <summary>Scatter of a rule, 1.5 mm as a scale of Student's t with 4 degrees of freedom, and a zero 2 mm off.</summary>
    private static readonly double s_rule = Math.Sqrt(Math.Pow(0.0015 / 0.8310, 2) + Math.Pow(0.002, 2));

    /// <summary>The same of a balance: 30 g and 100 g.</summary>
    private static readonly double s_balance = Math.Sqrt(Math.Pow(0.03 / 0.8310, 2) + Math.Pow(0.1, 2));

    private static double Exact(StrainingObservable quantity, double seconds) => SimulatedRuns.Read(Pail, quantity, [seconds])[0];

    private static ExpectedReading The(RunOutlook outlook, StrainingObservable quantity) => outlook.Expected.Single(expected => expected.Quantity == quantity);

    [Fact]
    public void Where_all_is_known_the_band_is_two_standard_deviations_of_the_scale()
    {
        RunOutlook outlook = RunForecast.Of(Plain()).At(S(40));
        Assert.Equal([StrainingObservable.PondDepth, StrainingObservable.TankLevel, StrainingObservable.ReceiverMass], outlook.Expected.Select(expected => expected.Quantity));
        foreach ((StrainingObservable quantity, double sd) in new[] { (StrainingObservable.PondDepth, s_rule), (StrainingObservable.TankLevel, s_rule), (StrainingObservable.ReceiverMass, s_balance) })
        {
            ExpectedReading expected = The(outlook, quantity);
            Assert.Equal(Exact(quantity, 40), expected.Value, 0.01 * sd);
            Assert.Equal(expected.Value - (2 * sd), expected.Low, 0.01 * sd);
            Assert.Equal(expected.Value + (2 * sd), expected.High, 0.01 * sd);
        }

        // Before the gate opens there is no pond, and no rule shows less than none.
        ExpectedReading pond = The(RunForecast.Of(Plain()).At(Duration.Zero), StrainingObservable.PondDepth);
        Assert.Equal((0, 0), (pond.Value, pond.Low));
        Assert.Equal(2 * s_rule, pond.High, 1e-6);
    }

    [Fact]
    public void Where_runs_differ_the_band_takes_what_they_differ_by_as_well()
    {
        RunForecast forecast = RunForecast.Of(Run());
        ExpectedReading mass = The(forecast.At(S(60)), StrainingObservable.ReceiverMass);
        double[] shown = [.. Enumerable.Range(0, Runs).Select(i => forecast.Planned.At(i, StrainingObservable.ReceiverMass, 60))];
        (double low, double middle, double high) = (Ranked(shown, 0.025), Ranked(shown, 0.5), Ranked(shown, 0.975));
        Assert.True(high - middle > s_balance && middle - low > s_balance && Math.Abs(high + low - (2 * middle)) > 0.1 * s_balance);
        Assert.Equal(middle, mass.Value, 1e-12);
        Assert.Equal(middle - Math.Sqrt(Math.Pow(middle - low, 2) + Math.Pow(2 * s_balance, 2)), mass.Low, 1e-9);
        Assert.Equal(middle + Math.Sqrt(Math.Pow(high - middle, 2) + Math.Pow(2 * s_balance, 2)), mass.High, 1e-9);
    }

    [Fact]
    public void A_moment_before_the_last_entry_is_refused()
    {
        RunForecast forecast = RunForecast.Of(Plain() with { Steps = [Scraped(20)] });
        Assert.Equal("now", Assert.Throws<ArgumentOutOfRangeException>(() => forecast.At(S(19.9))).ParamName);
        Assert.Equal(S(20), forecast.At(S(20)).Now);
        Assert.Empty(forecast.Deviations);
        Assert.Equal(RunVerdict.NoReading, forecast.Verdict);
        Assert.False(forecast.Fitted);
    }

    [Fact]
    public void That_most_have_run_over_by_now_is_told()
    {
        RunForecast most = RunForecast.Of(Run() with { Steps = [Gate(100, 30)] }), some = RunForecast.Of(Run() with { Steps = [Gate(37, 30)] });
        double over = most.Left.Samples.Count(sample => sample.FirstOverflowSeconds <= 100) / (double)Runs;
        Assert.InRange(over, 0.51, 0.9);
        Notice told = most.At(S(100)).Notices.Single();
        Assert.Equal("over-by-now", told.Code);
        Assert.Contains($"{(100 * over).ToString("0", CultureInfo.InvariantCulture)} of 100", told.Seen, StringComparison.Ordinal);
        Assert.InRange(some.Left.Samples.Count(sample => sample.FirstOverflowSeconds <= 37) / (double)Runs, 0.05, 0.49);
        Assert.Empty(some.At(S(37)).Notices);
        Assert.Empty(RunForecast.Of(Run()).At(Duration.Zero).Notices);
    }

    /// <summary>Three first readings at 30 s: a rule whose clock is the run's, a balance with a clock 8 s off, and one below the tank whose zero may be 0.3 kg off and that shows far too much.</summary>
    [Fact]
    public void First_readings_are_judged_by_scatter_zero_and_clock_and_move_what_is_expected()
    {
        (double level, double mass, double left) = (Exact(StrainingObservable.TankLevel, 30), Exact(StrainingObservable.ReceiverMass, 30), Exact(StrainingObservable.TankMass, 30));
        AttendedRun run = Plain() with
        {
            Series =
            [
                Level((30, level + 0.004)) with { ClockOffset = Duration.Zero },
                Mass((30, mass + 0.15)) with { ClockOffset = S(8) },
                Series(StrainingObservable.TankMass, (30, left + 2)) with { ZeroOffset = 0.3 },
            ],
        };

        // A forecast of another run made before is of no use.
        RunForecast forecast = RunForecast.Of(run, RunForecast.Of(Run()));
        double ByClock(StrainingObservable quantity, double clock) => 0.5 * (Exact(quantity, 30 + clock) - Exact(quantity, 30 - clock));
        double massSd = Math.Sqrt((s_balance * s_balance) + Math.Pow(ByClock(StrainingObservable.ReceiverMass, 8), 2));
        double leftSd = Math.Sqrt((s_balance * s_balance) + Math.Pow(ByClock(StrainingObservable.TankMass, 5), 2) + (0.2 * 0.2));
        Assert.Equal([level, mass, left], forecast.Deviations.Select(deviation => deviation.Expected), (one, other) => Math.Abs(one - other) < 1e-3 * one);
        double[] sds = [.. forecast.Deviations.Select(deviation => deviation.StandardDeviations)];
        Assert.Equal(0.004 / s_rule, sds[0], 0.01);
        Assert.Equal(0.15 / massSd, sds[1], 0.01 * sds[1]);
        Assert.Equal(2 / leftSd, sds[2], 0.02 * sds[2]);
        Assert.Equal(RunVerdict.CheckTheReading, forecast.Verdict);
        Assert.True(forecast.Fitted);

        RunOutlook outlook = forecast.At(S(30));
        Notice check = outlook.Notices.Single(notice => notice.Code == "check-reading");
        Assert.Contains(sds[2].ToString("0", CultureInfo.InvariantCulture) + " standard", check.Seen, StringComparison.Ordinal);

        // The rule's zero is now thought to be off to the side of its reading, and the balance's clock to be behind.
        Assert.InRange(The(outlook, StrainingObservable.TankLevel).Value, level + 0.0005, level + 0.004);
        Assert.InRange(The(outlook, StrainingObservable.ReceiverMass).Value, mass + 0.02, mass + 0.15);
        Assert.Contains(outlook.NextActions, action => action.Kind == NextActionKind.TakeReading && action.At >= S(50));
    }
}
