using FlowSim.Calibration;

namespace FlowSim.Tests.Calibration;

/// <summary>The cubic and the gaps of the grid, each by hand.</summary>
public class CourseGridPiecesTests
{
    /// <summary>A straight course is met exactly, whatever the times.</summary>
    [Fact]
    public void A_straight_course_is_met_everywhere()
    {
        double[] times = [0, 1, 4, 5, 9], values = [.. times.Select(t => 3 - (0.5 * t))];
        for (double t = 0; t <= 9; t += 0.1)
            Assert.Equal(3 - (0.5 * t), CourseGrid.At(times, values, t), 1e-12);
    }

    /// <summary>
    /// Times 0, 1, 3, 4, values 0, 1, 2, 6. Slopes: at the ends those of the chords, 1 and 4; at 1, of chords 1 and ½, share (1 + 4)/(3·3) = 5/9, so
    /// ½/(5/9·½ + 4/9·1) = 9/13; at 3, of ½ and 4, share (2 + 2)/9 = 4/9, so 2/(4/9·4 + 5/9·½) = 36/37.
    /// </summary>
    [Theory]
    [InlineData(0.5, 0, 1, 1, 0, 1, 9.0 / 13)]
    [InlineData(1.4, 1, 2, 2, 1, 9.0 / 13, 36.0 / 37)]
    [InlineData(2.5, 1, 2, 2, 1, 9.0 / 13, 36.0 / 37)]
    [InlineData(3.75, 3, 6, 1, 2, 36.0 / 37, 4)]
    public void Between_times_it_is_Hermites_cubic(double t, double from, double end, double width, double start, double slopeStart, double slopeEnd)
    {
        double x = (t - from) / width, y = 1 - x;
        double expected = (start * y * y * (1 + (2 * x))) + (end * x * x * (1 + (2 * y))) + (width * slopeStart * x * y * y) - (width * slopeEnd * x * x * y);
        Assert.Equal(expected, CourseGrid.At([0, 1, 3, 4], [0, 1, 2, 6], t), 1e-12);

        // The same on another clock.
        Assert.Equal(expected, CourseGrid.At([3, 5, 9, 11], [0, 1, 2, 6], 3 + (2 * t)), 1e-12);
    }

    [Fact]
    public void At_a_turn_the_course_lies_level_and_at_a_time_its_value_stands()
    {
        double[] times = [0, 1, 2], values = [0, 1, 0];
        Assert.Equal(1, CourseGrid.At(times, values, 1));
        Assert.Equal(0, CourseGrid.At(times, values, 0));
        Assert.Equal(0, CourseGrid.At(times, values, 2));
        Assert.Equal(0.5, CourseGrid.At([0, 1], [0, 1], 0.5), 1e-15);

        // From slope 1 to slope 0 and back: x + x² − x³ on either side.
        Assert.Equal(0.5 + 0.25 - 0.125, CourseGrid.At(times, values, 0.5), 1e-12);
        Assert.Equal(0.5 + 0.25 - 0.125, CourseGrid.At(times, values, 1.5), 1e-12);
    }

    [Fact]
    public void Values_hold_before_the_first_and_after_the_last_time()
    {
        double[] times = [1, 2, 4], values = [5, 6, 8];
        Assert.Equal(5, CourseGrid.At(times, values, 0));
        Assert.Equal(5, CourseGrid.At(times, values, 1));
        Assert.Equal(8, CourseGrid.At(times, values, 4));
        Assert.Equal(8, CourseGrid.At(times, values, 7));
        Assert.Equal(5, CourseGrid.At(times, values, double.NaN));
    }

    /// <summary>No gap is more than one and a half times, none but the last less than half of what the growth by a twentieth asks for, between 1/4000 and 1/200 of the whole.</summary>
    [Theory]
    [InlineData(1000, 20)]
    [InlineData(1000, 0)]
    [InlineData(3, 0.5)]
    public void Gaps_grow_with_time(double last, double margin)
    {
        double[] times = CourseGrid.For([0.013 * last, last, 0.3 * last, -5, 0, 0.3001 * last], margin);
        double end = last + margin;
        Assert.Equal(0, times[0]);
        Assert.Equal(end, times[^1]);
        int smallest = 0, largest = 0;
        for (int i = 1; i < times.Length; i++)
        {
            double from = times[i - 1], gap = times[i] - from, asked = Math.Min(Math.Max(0.05 * from, end / 4000), end / 200);
            Assert.InRange(gap, i == times.Length - 1 ? 0 : 0.499 * asked, 1.501 * asked);
            if (Math.Abs(gap - (end / 4000)) < 1e-9 * end)
                smallest++;
            if (Math.Abs(gap - (end / 200)) < 1e-9 * end)
                largest++;
        }

        Assert.True(smallest > 10, $"{smallest}");
        Assert.True(largest > 100, $"{largest}");
    }

    [Fact]
    public void A_reading_stands_in_the_grid_unless_another_is_beside_it()
    {
        double[] times = CourseGrid.For([100, 130, 130.1, 1000], 0);
        Assert.Contains(100.0, times);
        Assert.Contains(130.0, times);
        Assert.DoesNotContain(130.1, times);
    }

    [Fact]
    public void Without_readings_after_the_start_there_is_a_moment_and_the_margin()
    {
        Assert.Equal(1e-3, CourseGrid.For([], 0)[^1]);
        Assert.Equal(1e-3, CourseGrid.For([0, -4], 0)[^1]);
        Assert.Equal(20, CourseGrid.For([], 20)[^1]);
        Assert.Equal(0, CourseGrid.For([-4], 20)[0]);
    }

    /// <summary>A last reading closer than half a gap to the time before takes that time's place.</summary>
    [Fact]
    public void The_end_is_the_last_time_always()
    {
        for (double margin = 0; margin < 12; margin += 0.37)
        {
            double[] times = CourseGrid.For([999, 1000], margin);
            Assert.Equal(1000 + margin, times[^1]);
            Assert.True(times[^1] > times[^2]);
        }
    }
}
