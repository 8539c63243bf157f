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
        RunForecast forecast = RunForecast.Of(Short());
        RunOutlook outlook = forecast.At(S(40));
        Assert.Equal([StrainingObservable.PondDepth, StrainingObservable.TankLevel, StrainingObservable.ReceiverMass], outlook.Expected.Select(expected => expected.Quantity));
        foreach ((StrainingObservable quantity, double sd) in new[] { (StrainingObservable.PondDepth, s_rule), (StrainingObservable.TankLevel, s_rule), (StrainingObservable.ReceiverMass, s_balance) })
        {
            ExpectedReading expected = The(outlook, quantity);
            Assert.Equal(Exact(quantity, 40), expected.Value, 0.01 * sd);
            Assert.Equal(expected.Value - (2 * sd), expected.Low, 0.01 * sd);
            Assert.Equal(expected.Value + (2 * sd), expected.High, 0.01 * sd);
        }

        // Before the gate opens there is no pond, and no rule shows less than none.
        ExpectedReading pond = The(forecast.At(Duration.Zero), StrainingObservable.PondDepth);
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
        RunForecast forecast = RunForecast.Of(Short() with { Steps = [Scraped(20)] });
        Assert.Equal("now", Assert.Throws<ArgumentOutOfRangeException>(() => forecast.At(S(19.9))).ParamName);
        Assert.Equal(S(20), forecast.At(S(20)).Now);
        Assert.Empty(forecast.Deviations);
        Assert.Equal(RunVerdict.NoReading, forecast.Verdict);
        Assert.False(forecast.Fitted);
    }

    [Theory]
    [InlineData(55, true)]
    [InlineData(37, false)]
    public void That_most_have_run_over_by_now_is_told(double now, bool told)
    {
        RunForecast forecast = RunForecast.Of(Run() with { Steps = [Gate(now, 30)] });
        double over = forecast.Left.Samples.Count(sample => sample.FirstOverflowSeconds <= now) / (double)Runs;
        Assert.InRange(over, told ? 0.51 : 0.05, told ? 0.9 : 0.49);
        IReadOnlyList<Notice> notices = forecast.At(S(now)).Notices;
        Assert.Equal(told ? ["over-by-now"] : [], notices.Select(notice => notice.Code));
        if (told)
            Assert.Contains($"{(100 * over).ToString("0", CultureInfo.InvariantCulture)} of 100", notices[0].Seen, StringComparison.Ordinal);
    }

    /// <summary>A rule whose clock is the run's shows 4 mm too much; its zero is then thought to be off to that side. A forecast of another run made before is of no use.</summary>
    [Fact]
    public void A_first_reading_is_judged_by_scatter_and_zero_and_moves_what_is_expected()
    {
        double level = Exact(StrainingObservable.TankLevel, 30);
        RunForecast forecast = RunForecast.Of(Short() with { Series = [Level((30, level + 0.004)) with { ClockOffset = Duration.Zero }] }, RunForecast.Of(Run()));
        ReadingDeviation deviation = Assert.Single(forecast.Deviations);
        Assert.Equal(level, deviation.Expected, 1e-5);
        Assert.Equal(0.004 / s_rule, deviation.StandardDeviations, 0.01);
        Assert.Equal(RunVerdict.AsExpected, forecast.Verdict);
        Assert.True(forecast.Fitted);
        RunOutlook outlook = forecast.At(S(30));
        Assert.Empty(outlook.Notices);
        Assert.InRange(The(outlook, StrainingObservable.TankLevel).Value, level + 0.0005, level + 0.004);
    }

    /// <summary>A clock 8 s off moves it as far as the receiver gains in that time; it is then thought to be behind.</summary>
    [Fact]
    public void A_clock_that_may_be_off_lets_a_reading_be_off_by_what_has_run_meanwhile()
    {
        double mass = Exact(StrainingObservable.ReceiverMass, 30);
        RunForecast forecast = RunForecast.Of(Short() with { Series = [Mass((30, mass + 0.15)) with { ClockOffset = S(8) }] });
        double byClock = 0.5 * (Exact(StrainingObservable.ReceiverMass, 38) - Exact(StrainingObservable.ReceiverMass, 22));
        double expected = 0.15 / Math.Sqrt((s_balance * s_balance) + (byClock * byClock));
        Assert.Equal(expected, Assert.Single(forecast.Deviations).StandardDeviations, 0.01 * expected);
        Assert.InRange(The(forecast.At(S(30)), StrainingObservable.ReceiverMass).Value, mass + 0.02, mass + 0.15);
    }

    /// <summary>A balance below the tank whose zero may be 0.3 kg off shows far too much.</summary>
    [Fact]
    public void A_slip_at_another_scale_is_told_with_how_far_it_lies_off()
    {
        double left = Exact(StrainingObservable.TankMass, 30);
        RunForecast forecast = RunForecast.Of(Short() with { Series = [Series(StrainingObservable.TankMass, (30, left + 2)) with { ZeroOffset = 0.3 }] });
        double byClock = 0.5 * (Exact(StrainingObservable.TankMass, 35) - Exact(StrainingObservable.TankMass, 25));
        double expected = 2 / Math.Sqrt((s_balance * s_balance) + (byClock * byClock) + (0.2 * 0.2));
        ReadingDeviation deviation = Assert.Single(forecast.Deviations);
        Assert.Equal(left, deviation.Expected, 1e-3 * left);
        Assert.Equal(expected, deviation.StandardDeviations, 0.02 * expected);
        Assert.Equal(RunVerdict.CheckTheReading, forecast.Verdict);
        Notice check = forecast.At(S(30)).Notices.Single();
        Assert.Equal("check-reading", check.Code);
        Assert.Contains(deviation.StandardDeviations.ToString("0", CultureInfo.InvariantCulture) + " standard", check.Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void That_of_many_readings_some_are_fitted_is_told_and_no_more_are_asked_for()
    {
        RunOutlook outlook = RunForecast.Of(Short() with { Series = [Level([.. Enumerable.Range(0, 201).Select(i => (0.3 * i, 0.11 - (1e-4 * i)))])] }).At(S(61));
        Notice told = outlook.Notices.Single(notice => notice.Code == "readings-thinned");
        Assert.Contains("201 readings", told.Seen, StringComparison.Ordinal);
        Assert.Contains("200", told.Seen, StringComparison.Ordinal);
        Assert.True(outlook.Fitted);
        Assert.DoesNotContain(outlook.NextActions, action => action.Kind == NextActionKind.TakeReading);
    }
}
