using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class TimingsTests
{
    private static Timings Of(double reaction, params double[] seconds) => new(Samples.Seconds(seconds), Duration.FromSeconds(reaction), "times", "reaction");

    private static string[] Codes(double reaction, params double[] seconds) => [.. Of(reaction, seconds).Notices.Select(notice => notice.Code)];

    [Fact]
    public void One_to_a_thousand_are_taken()
    {
        Assert.Equal(10, Of(0.3, [.. Enumerable.Repeat(10.0, 1000)]).MeanS, 1e-9);
        Assert.Equal("1001 timings are given; it takes 1 to 1000. (Parameter 'times')", Assert.Throws<ArgumentException>(() => Of(0.3, [.. Enumerable.Repeat(10.0, 1001)])).Message);
        Assert.Equal("times", Assert.Throws<ArgumentException>(() => Of(0.3)).ParamName);
    }

    /// <summary>An electric clock that shows the same each time leaves nothing to remark on.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    public void Equal_timings_without_any_error_are_in_order(int count)
    {
        double[] same = [.. Enumerable.Repeat(10.0, count)];
        Assert.Empty(Codes(0, same));
        Assert.Equal(0, Of(0, same).SpreadS);
    }

    /// <summary>
    /// A timing by hand at 0.1 s for start and stop is good to 0.141 s; three times that is 0.42 s. 15 ± 5 s is far more, 10 ± 0.4 s is not; of two
    /// timings nobody can say which is the odd one.
    /// </summary>
    [Fact]
    public void Scatter_is_remarked_on_from_three_timings_and_three_times_the_watch()
    {
        Assert.Empty(Codes(0.1, 10, 20));
        Assert.Empty(Codes(0.1, 9.6, 10, 10.4));
        Assert.Equal(["timings.scatter"], Codes(0.1, 9.5, 10, 10.5));
        Assert.Equal("the timings scatter by 5 s, more than a stop watch explains (0.14 s)", Assert.Single(Of(0.1, 10, 20, 15).Notices).Seen);
    }

    /// <summary>
    /// Of 10, 10.1, 10.2 and 14 s the median is 10.15 and the deviations 0.15, 0.05, 0.05 and 3.85, their median 0.1: 3.85 is 26 times 0.1/0.6745.
    /// Three timings are too few to call one of them apart.
    /// </summary>
    [Fact]
    public void One_is_called_apart_from_four_timings_on()
    {
        Notice apart = Assert.Single(Of(0.1, 10, 10.1, 14, 10.2).Notices, notice => notice.Code == "timings.outlier");
        Assert.Equal("one timing of 14 s stands apart from the others, whose median is 10.15 s", apart.Seen);
        Assert.DoesNotContain("timings.outlier", Codes(0.1, 10, 10.1, 14));
    }

    /// <summary>
    /// 10, 10.2, 10.4, 10.6 s and one more: the median is 10.4, the median deviation 0.2 s, which for a normal distribution is 0.2/0.6745 = 0.297 s of
    /// standard deviation; 3.5 of them are 1.04 s. A watch good to 0.3 √2 = 0.424 s is the wider, and 3.5 of it are 1.48 s.
    /// </summary>
    [Theory]
    [InlineData(0.001, 11.40, false)]
    [InlineData(0.001, 11.48, true)]
    [InlineData(0.3, 11.80, false)]
    [InlineData(0.3, 11.92, true)]
    public void Apart_is_three_and_a_half_deviations_of_timings_or_watch(double reaction, double last, bool apart) =>
        Assert.Equal(apart, Codes(reaction, 10, 10.2, 10.4, 10.6, last).Contains("timings.outlier"));
}
