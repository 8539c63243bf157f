using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Calibration;
using static FlowSim.Tests.Attending.SmallRun;

namespace FlowSim.Tests.Attending;

/// <summary>Courses of hand-made draws against single runs, and when they first pass a value.</summary>
public class RunCoursesTests
{
    private static readonly double[] s_times = [.. Enumerable.Range(0, 41).Select(i => 5.0 * i)];

    /// <summary>Three draws: a depth to ride that nobody rides, the lot factor, a clock and the room's temperature, K.</summary>
    private static RunDrawn Drawn(double third = 1.25) => new(
        3,
        4,
        [StrainingInputs.RideDepth, StrainingInputs.LotFactor, null, StrainingInputs.RoomTemperature],
        [2],
        [0.01, 0.8, 2, 290, 0.02, 1, 3, 295, 0.03, third, 4, 300]);

    private static RunCourses Courses(RunDrawn? drawn = null) => new(Pail, drawn ?? Drawn(), s_times, [StrainingObservable.PondDepth, StrainingObservable.ReceiverMass], 1, CancellationToken.None);

    private static StrainingSetup Single(double lotFactor, double roomK) => StrainingInputs.RoomTemperature.With(StrainingInputs.LotFactor.With(Pail, lotFactor), roomK);

    [Fact]
    public void Each_draw_is_a_run_of_its_own()
    {
        RunCourses courses = Courses();
        (double Lot, double Room)[] drawn = [(0.8, 290), (1, 295), (1.25, 300)];
        Assert.Equal(3, courses.Samples.Length);
        for (int i = 0; i < 3; i++)
        {
            StrainingSetup single = Single(drawn[i].Lot, drawn[i].Room);
            Assert.Equal(StrainingRun.Simulate(single).Strain.To95!.Value.Seconds, courses.Samples[i].StrainSeconds, 0.05);
            Assert.Equal(SimulatedRuns.Read(single, StrainingObservable.ReceiverMass, [60])[0], courses.At(i, StrainingObservable.ReceiverMass, 60), 1e-3);
            Assert.Equal(SimulatedRuns.Read(single, StrainingObservable.PondDepth, [60])[0], courses.At(i, StrainingObservable.PondDepth, 60), 1e-4);
        }
    }

    [Fact]
    public void What_is_drawn_beyond_its_range_is_taken_at_the_range_s_end()
    {
        (double low, double high) = StrainingInputs.LotFactor.RangeIn(Pail);
        Assert.Equal(Courses(Drawn(high)).Samples[2], Courses(Drawn(1e3 * high)).Samples[2]);
        Assert.Equal(Courses(Drawn(low)).Samples[2], Courses(Drawn(1e-3 * low)).Samples[2]);
    }

    [Fact]
    public void Which_quantities_are_read_is_known()
    {
        RunCourses courses = Courses();
        Assert.True(courses.Reads(StrainingObservable.PondDepth));
        Assert.True(courses.Reads(StrainingObservable.ReceiverMass));
        Assert.False(courses.Reads(StrainingObservable.TankLevel));
    }

    [Fact]
    public void Without_times_there_are_samples_alone()
    {
        RunCourses none = new(Pail, Drawn(), [], [], null, CancellationToken.None), read = Courses();
        Assert.Equal(read.Samples.Select(sample => sample.StrainSeconds), none.Samples.Select(sample => sample.StrainSeconds));
        Assert.False(none.Reads(StrainingObservable.PondDepth));
    }

    /// <summary>What has come through never falls: it passes what it is at a time at that time, and half of a step half way, along a straight line.</summary>
    [Fact]
    public void What_rises_is_passed_along_straight_lines()
    {
        RunCourses courses = Courses();
        for (int run = 0; run < 3; run++)
        {
            double At(double seconds) => courses.At(run, StrainingObservable.ReceiverMass, seconds);
            double Passes(double kilograms, double fromS) => courses.FirstAbove(run, StrainingObservable.ReceiverMass, kilograms, fromS);
            foreach (int k in new[] { 2, 7, 15 })
            {
                (double before, double after) = (At(s_times[k - 1]), At(s_times[k]));
                Assert.True(after > before);
                Assert.Equal(s_times[k], Passes(after, 0), 1e-9);
                Assert.Equal(s_times[k] - 2.5, Passes((before + after) / 2, 0), 1e-9);
                Assert.Equal(s_times[k] - 4, Passes((0.8 * before) + (0.2 * after), s_times[k - 1]), 1e-9);
                Assert.Equal(s_times[k] - 4, Passes((0.8 * before) + (0.2 * after), s_times[k - 2]), 1e-9);
                Assert.Equal(s_times[k] - 1, Passes((0.2 * before) + (0.8 * after), s_times[k] - 2), 1e-9);
                Assert.Equal(s_times[k] + 3, Passes(after, s_times[k] + 3));
                Assert.Equal(s_times[k], Passes(after, s_times[k]));
            }

            Assert.Equal(3, Passes(-1, 3));
            Assert.Equal(double.PositiveInfinity, Passes(At(1e6) + 1e-6, 0));
            Assert.Equal(double.PositiveInfinity, Passes(At(1e6) + 1e-6, 1e6));
        }
    }

    [Fact]
    public void A_pond_that_falls_does_not_come_back()
    {
        RunCourses courses = Courses();
        double[] pond = [.. s_times.Select(at => courses.At(1, StrainingObservable.PondDepth, at))];
        int deepest = Array.IndexOf(pond, pond.Max());
        Assert.InRange(deepest, 2, s_times.Length - 10);
        double some = 0.5 * (pond[^1] + pond[deepest]);
        double reached = courses.FirstAbove(1, StrainingObservable.PondDepth, some, 0);
        Assert.InRange(reached, 1e-3, s_times[deepest]);
        Assert.Equal(s_times[deepest], courses.FirstAbove(1, StrainingObservable.PondDepth, some, s_times[deepest]));
        Assert.Equal(double.PositiveInfinity, courses.FirstAbove(1, StrainingObservable.PondDepth, some, 199));
        Assert.Equal(double.PositiveInfinity, courses.FirstAbove(1, StrainingObservable.PondDepth, pond[deepest] + 1e-6, 0));
    }

    [Fact]
    public void It_ends_when_it_is_told()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => new RunCourses(Pail, Drawn(), s_times, [StrainingObservable.PondDepth], 1, stop.Token));
    }
}
