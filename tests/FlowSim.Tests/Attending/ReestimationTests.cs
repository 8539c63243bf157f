using System.Globalization;
using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>Readings that come in from runs of a known truth: the rest is foretold surer and nearer, and as sure as it says.</summary>
public class ReestimationTests
{
    private static readonly StrainingObservable[] LevelAndMass = [StrainingObservable.TankLevel, StrainingObservable.ReceiverMass];

    private static int Factor => int.TryParse(Environment.GetEnvironmentVariable("COVERAGE_FACTOR"), NumberStyles.None, CultureInfo.InvariantCulture, out int factor) ? factor : 1;

    [Fact]
    public void Readings_narrow_the_band_and_move_it_to_the_truth()
    {
        double before = 0, after = 0, widthBefore = 0, widthAfter = 0;
        for (int seed = 1; seed <= 6; seed++)
        {
            AttendedRun whole = AttendedRuns.Simulated(seed, RiskSetups.Pail(15), LevelAndMass, 14, 0.5, out StrainingSetup real);
            double truth = Math.Log(StrainingRun.Simulate(real).Strain.To95!.Value.Seconds);
            RunOutlook first = RunForecast.Of(whole with { Series = [] }).At(Duration.Zero);
            RunForecast fitted = RunForecast.Of(whole);
            RunOutlook last = fitted.At(whole.LastEntry);
            Assert.False(first.Fitted);
            Assert.True(last.Fitted);
            before += Math.Abs(Math.Log(first.Ready.P50!.Value.Seconds) - truth);
            after += Math.Abs(Math.Log(last.Ready.P50!.Value.Seconds) - truth);
            widthBefore += Math.Log(first.Ready.P90!.Value / first.Ready.P10!.Value);
            widthAfter += Math.Log(last.Ready.P90!.Value / last.Ready.P10!.Value);
        }

        Assert.True(after < 0.4 * before, $"off by {before / 6:0.000} before, {after / 6:0.000} after");
        Assert.True(widthAfter < 0.5 * widthBefore, $"width {widthBefore / 6:0.000} before, {widthAfter / 6:0.000} after");
    }

    /// <summary>Eight runs in ten end within the band told, and nineteen readings in twenty lie within two standard deviations; few seeds here, <c>COVERAGE_FACTOR=10</c> takes ten times as many.</summary>
    [Fact]
    public void The_band_holds_the_truth_as_often_as_it_says_from_the_first_readings_on()
    {
        int seeds = 16 * Factor, held = 0, near = 0, judged = 0;
        Lock gate = new();
        Parallel.For(0, seeds, seed =>
        {
            AttendedRun whole = AttendedRuns.Simulated(100 + seed, RiskSetups.Pail(25), seed % 2 == 0 ? LevelAndMass : [StrainingObservable.TankLevel], 20, 0.5, out StrainingSetup real) with { Threads = 1 };
            double truth = StrainingRun.Simulate(real).Strain.To95?.Seconds ?? double.PositiveInfinity;
            AttendedRun run = AttendedRuns.First(whole, 1 + (seed % 5));
            RunOutlook outlook = RunForecast.Of(run).At(run.LastEntry);
            bool holds = truth >= (outlook.Ready.P10?.Seconds ?? double.PositiveInfinity) && truth <= (outlook.Ready.P90?.Seconds ?? double.PositiveInfinity);
            lock (gate)
            {
                held += holds ? 1 : 0;
                judged += outlook.Deviations.Count;
                near += outlook.Deviations.Count(deviation => Math.Abs(deviation.StandardDeviations) <= DeviationJudge.AsExpected);
            }
        });

        double margin = 3 * Math.Sqrt(0.8 * 0.2 / seeds);
        Assert.InRange(held / (double)seeds, 0.8 - margin, Math.Min(1, 0.8 + margin));
        Assert.InRange(near / (double)judged, 0.95 - (3 * Math.Sqrt(0.95 * 0.05 / judged)), 1);
    }

    /// <summary>A scale that writes every second: what the fit takes are those readings that it would have been given by hand.</summary>
    [Fact]
    public void Of_a_long_series_evenly_chosen_readings_are_fitted()
    {
        AttendedRun run = AttendedRuns.Simulated(6, RiskSetups.Pail(25), [StrainingObservable.TankLevel], 500, 0.6, out _);
        TimedSeries series = Assert.Single(run.Series);
        AttendedRun chosen = run with { Series = [series with { Readings = [.. Enumerable.Range(0, AttendedRunCheck.MostFitted).Select(i => series.Readings[i * (series.Readings.Count - 1) / (AttendedRunCheck.MostFitted - 1)])] }] };
        Assert.Equal(series.Readings[^1], chosen.Series[0].Readings[^1]);
        RunOutlook all = RunForecast.Of(run).At(run.LastEntry), some = RunForecast.Of(chosen).At(run.LastEntry);
        Assert.Equal(some.Estimate.Select(input => input.Middle), all.Estimate.Select(input => input.Middle));
        Assert.Equal(some.Ready, all.Ready);
        Assert.Contains(all.Notices, notice => notice.Code == "readings-thinned");
        Assert.DoesNotContain(some.Notices, notice => notice.Code == "readings-thinned");
    }

    [Fact]
    public void A_slip_is_told_and_hardly_moves_the_rest()
    {
        AttendedRun run = AttendedRuns.Simulated(4, RiskSetups.Pail(25), [StrainingObservable.TankLevel], 14, 0.5, out _);
        RunForecast good = RunForecast.Of(run);
        TimedSeries series = run.Series[0];
        TimedReading slip = new(run.LastEntry + Duration.FromSeconds(5), Math.Min(0.3, series.Readings[^1].Value + 0.15));
        RunForecast slipped = RunForecast.Of(run with { Series = [series with { Readings = [.. series.Readings, slip] }] }, good);
        Assert.Equal(RunVerdict.CheckTheReading, slipped.Verdict);
        RunOutlook told = slipped.At(slip.At), without = good.At(slip.At);
        Assert.Contains(told.Notices, notice => notice.Code == "check-reading");
        Assert.InRange(told.Ready.P50!.Value / without.Ready.P50!.Value, 0.93, 1.07);

        // It stays in the run all the same, and the next good reading is as expected.
        Assert.Equal(slip, slipped.Run.Series[0].Readings[^1]);
    }

    [Theory]
    [InlineData(StrainingObservable.TankLevel, -1, RunVerdict.Faster)]
    [InlineData(StrainingObservable.TankLevel, 1, RunVerdict.Slower)]
    [InlineData(StrainingObservable.ReceiverMass, 1, RunVerdict.Faster)]
    [InlineData(StrainingObservable.ReceiverMass, -1, RunVerdict.Slower)]
    [InlineData(StrainingObservable.PondDepth, 1, RunVerdict.PondDeeper)]
    [InlineData(StrainingObservable.PondDepth, -1, RunVerdict.PondShallower)]
    public void A_reading_means_what_its_side_says(StrainingObservable quantity, int side, RunVerdict verdict)
    {
        ReadingDeviation Off(double sds) => new(quantity, Duration.Zero, 1, 1, sds);
        Assert.Equal(verdict, DeviationJudge.Of([Off(side * 3), Off(0.1)]));
        Assert.Equal(RunVerdict.AsExpected, DeviationJudge.Of([Off(side * 1.9)]));
        Assert.Equal(RunVerdict.CheckTheReading, DeviationJudge.Of([Off(side * 4.1)]));
        Assert.Equal(RunVerdict.NoReading, DeviationJudge.Of([]));
    }

    /// <summary>Judged against a normal distribution with known middle and width, a reading lies as many standard deviations off as it was put.</summary>
    [Theory]
    [InlineData(-3)]
    [InlineData(0.5)]
    [InlineData(2)]
    public void Standard_deviations_are_those_of_draws_and_noise_together(double sds)
    {
        double[] shown = [.. Enumerable.Range(0, 2001).Select(i => 0.2 + (0.003 * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (i + 0.5) / 2001)))];
        ReadingDeviation off = DeviationJudge.Judge(new TimedReading(Duration.Zero, 0.2 + (sds * 0.005)), StrainingObservable.TankLevel, shown, 0.004);
        Assert.Equal(sds, off.StandardDeviations, 0.01);
        Assert.Equal(0.2, off.Expected, 1e-4);
    }

    [Fact]
    public void The_answer_is_the_same_after_a_restart_and_on_any_number_of_threads()
    {
        AttendedRun run = AttendedRuns.Simulated(9, RiskSetups.Pail(25), LevelAndMass, 8, 0.4, out _);
        RunForecast live = RunForecast.Of(AttendedRuns.First(run, 1));
        for (int n = 2; n <= 4; n++)
            live = RunForecast.Of(AttendedRuns.First(run, n), live);
        RunForecast restarted = RunForecast.Of(AttendedRuns.First(AttendedRuns.Simulated(9, RiskSetups.Pail(25), LevelAndMass, 8, 0.4, out _), 4) with { Threads = 1 });
        Duration now = live.Run.LastEntry + Duration.FromSeconds(30);
        RunOutlook one = live.At(now), other = restarted.At(now);
        Assert.Equal(one.NextActions, other.NextActions);
        Assert.Equal(one.Expected, other.Expected);
        Assert.Equal(one.Deviations, other.Deviations);
        Assert.Equal(one.Ready, other.Ready);
        Assert.Equal(one.PondReachesRim, other.PondReachesRim);
        Assert.Equal(one.LookAgainIn, other.LookAgainIn);
    }
}
