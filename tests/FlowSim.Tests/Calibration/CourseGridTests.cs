using FlowSim.Calibration;

namespace FlowSim.Tests.Calibration;

public class CourseGridTests
{
    [Fact]
    public void Times_increase_and_reach_past_the_last_reading()
    {
        double[] times = CourseGrid.For([0, 3, 3.001, 50, 900, 901, 3600], 20);
        Assert.Equal(0, times[0]);
        Assert.Equal(3620, times[^1], 1e-9);
        for (int i = 1; i < times.Length; i++)
            Assert.True(times[i] > times[i - 1]);
    }

    [Fact]
    public void Between_times_a_smooth_course_is_met()
    {
        double[] times = CourseGrid.For([100, 1000], 0);
        double[] values = [.. times.Select(t => Math.Exp(-t / 300))];
        for (double t = 0; t <= 1000; t += 0.7)
            Assert.Equal(Math.Exp(-t / 300), CourseGrid.At(times, values, t), 1e-4);
    }

    [Fact]
    public void No_bump_appears_at_a_corner_and_the_ends_hold()
    {
        double[] times = [0, 1, 2, 3, 4];
        double[] values = [0, 0, 0, 1, 1];
        for (double t = -1; t < 6; t += 0.01)
            Assert.InRange(CourseGrid.At(times, values, t), 0, 1);
        Assert.Equal(0, CourseGrid.At(times, values, -5));
        Assert.Equal(1, CourseGrid.At(times, values, 9));
    }
}
