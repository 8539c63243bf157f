using FlowSim.OverflowRisk;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Quantiles of times from bins of equal ratio, 1.001, from 1 ms on.</summary>
public class TimeSketchTests
{
    [Fact]
    public void No_times_no_quantiles()
    {
        Assert.Equal(new TimeSpread(null, null, null, 0), Sketch().Spread());
        Assert.Equal(double.PositiveInfinity, Sketch().Quantile(0.5));
        Assert.Equal((0, 0), (Sketch().Count, Sketch().Never));
    }

    /// <summary>Equal times lie in one bin, 0.001 · 1.001^k to 0.001 · 1.001^(k+1), and a share p of them is taken to lie at 1.001^p from its low end.</summary>
    [Theory]
    [InlineData(0.0011)]
    [InlineData(1.5)]
    [InlineData(3600)]
    [InlineData(2592000)] // 30 days, the longest run.
    public void Within_a_bin_the_quantile_goes_evenly_on_a_scale_of_ratios(double seconds)
    {
        double bin = Math.Floor(Math.Log(seconds / 0.001) / Math.Log(1.001));
        TimeSketch sketch = Sketch(seconds, seconds, seconds, seconds);
        foreach (double share in new[] { 0.25, 0.5, 0.75 })
            Assert.Equal(1, sketch.Quantile(share) / (0.001 * Math.Pow(1.001, bin + share)), 1e-9);
    }

    /// <summary>One early time and nine late ones: a tenth of the runs is the early one alone, and just above a tenth it is over.</summary>
    [Fact]
    public void A_share_that_ends_with_a_bin_is_told_from_that_bin()
    {
        TimeSketch sketch = Sketch([2, .. Enumerable.Repeat(200.0, 9)]);
        Assert.InRange(sketch.Quantile(0.1), 2, 2.003);
        Assert.InRange(sketch.Quantile(0.1000001), 199.7, 200.1);
        Assert.InRange(sketch.Quantile(0.999), 199.8, 200.3);
    }

    /// <summary>Of ten runs five never get there: half of them do, more than half do not.</summary>
    [Fact]
    public void What_fewer_runs_reach_never_comes()
    {
        TimeSketch sketch = Sketch([.. Enumerable.Repeat(10.0, 5), double.NaN, double.NaN, double.PositiveInfinity, double.NaN, double.PositiveInfinity]);
        Assert.Equal((10, 5), (sketch.Count, sketch.Never));
        Assert.InRange(sketch.Quantile(0.5), 9.99, 10.02);
        Assert.Equal(double.PositiveInfinity, sketch.Quantile(0.51));
        TimeSpread spread = sketch.Spread();
        Assert.Equal(0.5, spread.Never);
        Assert.InRange(spread.P10!.Value.Seconds, 9.99, 10.02);
        Assert.InRange(spread.P50!.Value.Seconds, 9.99, 10.02);
        Assert.Null(spread.P90);
    }

    [Fact]
    public void Each_quantile_told_is_its_own()
    {
        TimeSpread spread = Sketch([.. Enumerable.Range(1, 100).Select(i => (double)i)]).Spread();
        Assert.Equal(10, spread.P10!.Value.Seconds, 0.02);
        Assert.Equal(50, spread.P50!.Value.Seconds, 0.1);
        Assert.Equal(90, spread.P90!.Value.Seconds, 0.2);
        Assert.Equal(0, spread.Never);
    }

    /// <summary>Up to a millisecond there is one bin, even; beyond 1e7 s one that holds whatever comes.</summary>
    [Fact]
    public void Times_out_of_all_bounds_are_counted_at_the_ends()
    {
        TimeSketch shortest = Sketch(0, 0.0005, 0.001, 0.001);
        Assert.Equal(0.00025, shortest.Quantile(0.25), 1e-12);
        Assert.Equal(0.0005, shortest.Quantile(0.5), 1e-12);
        Assert.Equal(0.00075, shortest.Quantile(0.75), 1e-12);

        TimeSketch longest = Sketch(1e6, 1e300, 1e7, 1e300);
        Assert.Equal((4, 0), (longest.Count, longest.Never));
        Assert.InRange(longest.Quantile(0.25), 0.999e6, 1.0011e6);
        Assert.InRange(longest.Quantile(0.9), 0.998e7, 1.002e7);
    }

    /// <summary>Just above the millisecond a time has a bin of its own, not that of all shorter ones.</summary>
    [Fact]
    public void The_first_bin_of_a_ratio_begins_at_a_millisecond()
    {
        TimeSketch sketch = Sketch(0.0001, 0.0010001);
        Assert.InRange(sketch.Quantile(0.5), 0.00099, 0.001);
        Assert.InRange(sketch.Quantile(0.75), 0.001, 0.001001);
    }
}
