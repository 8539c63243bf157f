using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.Attending;

/// <summary>What a reading means, at the limits and on each side.</summary>
public class DeviationJudgeTests
{
    private static ReadingDeviation Off(double sds, StrainingObservable quantity = StrainingObservable.TankLevel) => new(quantity, Duration.Zero, 1, 1, sds);

    [Theory]
    [InlineData(0, RunVerdict.AsExpected)]
    [InlineData(2, RunVerdict.AsExpected)]
    [InlineData(-2, RunVerdict.AsExpected)]
    [InlineData(2.001, RunVerdict.Slower)]
    [InlineData(-2.001, RunVerdict.Faster)]
    [InlineData(4, RunVerdict.Slower)]
    [InlineData(-4, RunVerdict.Faster)]
    [InlineData(4.001, RunVerdict.CheckTheReading)]
    [InlineData(-4.001, RunVerdict.CheckTheReading)]
    [InlineData(double.NaN, RunVerdict.CheckTheReading)]
    public void Two_and_four_standard_deviations_are_the_limits(double sds, RunVerdict verdict) => Assert.Equal(verdict, DeviationJudge.Of([Off(sds)]));

    [Theory]
    [InlineData(StrainingObservable.TankMass, RunVerdict.Slower, RunVerdict.Faster)]
    [InlineData(StrainingObservable.TankVolume, RunVerdict.Slower, RunVerdict.Faster)]
    [InlineData(StrainingObservable.ReceiverLevel, RunVerdict.Faster, RunVerdict.Slower)]
    [InlineData(StrainingObservable.ReceiverVolume, RunVerdict.Faster, RunVerdict.Slower)]
    [InlineData(StrainingObservable.PondDepth, RunVerdict.PondDeeper, RunVerdict.PondShallower)]
    public void More_in_the_tank_is_slower_and_more_in_the_receiver_faster(StrainingObservable quantity, RunVerdict higher, RunVerdict lower)
    {
        Assert.Equal(higher, DeviationJudge.Of([Off(3, quantity)]));
        Assert.Equal(lower, DeviationJudge.Of([Off(-3, quantity)]));
    }

    [Fact]
    public void The_furthest_of_several_counts_on_whichever_side()
    {
        Assert.Equal(RunVerdict.Faster, DeviationJudge.Of([Off(2.5), Off(-3), Off(1)]));
        Assert.Equal(RunVerdict.Slower, DeviationJudge.Of([Off(3), Off(-2.5)]));
        Assert.Equal(RunVerdict.NoReading, DeviationJudge.Of([]));
        Assert.Throws<ArgumentNullException>(() => DeviationJudge.Of(null!));
    }

    /// <summary>Shown are 0 to 100 up to the middle and as many three apart above it: 15.87 % lie below the 32nd, 84.13 % below the 168th.</summary>
    [Fact]
    public void Each_side_has_its_own_width()
    {
        double[] shown = [.. Enumerable.Range(0, 101).Select(i => (double)i), .. Enumerable.Range(1, 100).Select(i => 100 + (3.0 * i))];
        ReadingDeviation high = Judge(shown, 200, 0), low = Judge(shown, 50, 0), middle = Judge(shown, 100, 0);
        Assert.Equal(100, high.Expected);
        Assert.Equal(100 / (3 * (168 - 100.0)), high.StandardDeviations, 1e-9);
        Assert.Equal(-50 / (100 - 32.0), low.StandardDeviations, 1e-9);
        Assert.Equal(0, middle.StandardDeviations);
        Assert.Equal((200, StrainingObservable.PondDepth, Duration.FromSeconds(9)), (high.Read, high.Quantity, high.At));

        // 51² + 68² = 85².
        Assert.Equal(100 / Math.Sqrt((204.0 * 204) + (40 * 40)), Judge(shown, 200, 40).StandardDeviations, 1e-9);
        Assert.Equal(-50 / 85.0, Judge(shown, 50, 51).StandardDeviations, 1e-9);
    }

    [Fact]
    public void Where_nothing_scatters_any_other_reading_is_a_million_off_at_most()
    {
        Assert.Equal(1e6, Judge([1, 1, 1], 2, 0).StandardDeviations);
        Assert.Equal(-1e6, Judge([1, 1, 1], 0, 0).StandardDeviations);
        Assert.Equal(0, Judge([1, 1, 1], 1, 0).StandardDeviations);
        Assert.Equal(500, Judge([0, 0, 0], 500e-12, 0.1e-12).StandardDeviations, 1e-9);
    }

    private static ReadingDeviation Judge(double[] shown, double value, double noise) => DeviationJudge.Judge(new TimedReading(Duration.FromSeconds(9), value), StrainingObservable.PondDepth, shown, noise);
}
