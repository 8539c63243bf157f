namespace FlowSim.Tests.Properties;

public class ValidityRangeTests
{
    private static readonly ValidityRange s_range = new("x law", "x", "m", 1, 2, 0.5, 3);

    [Theory]
    [InlineData(0.4999, false, false)]
    [InlineData(0.5, true, false)]
    [InlineData(1, true, true)]
    [InlineData(2, true, true)]
    [InlineData(2.0001, true, false)]
    [InlineData(3, true, false)]
    [InlineData(3.0001, false, false)]
    [InlineData(double.NaN, false, false)]
    [InlineData(double.PositiveInfinity, false, false)]
    public void Edges_belong_to_the_range(double value, bool admitted, bool supported)
    {
        Assert.Equal(admitted, s_range.Admits(value));
        Assert.Equal(supported, s_range.Supports(value));
        Assert.Equal(supported, s_range.NoticeFor(value) is null);
        if (admitted)
            s_range.Require(value, "x");
        else
            Assert.Throws<ArgumentOutOfRangeException>(() => s_range.Require(value, "x"));
    }

    [Fact]
    public void A_notice_gives_value_limits_and_correlation_and_tells_extrapolated_from_hopeless()
    {
        Notice near = s_range.NoticeFor(2.5)!;
        Assert.Equal("x = 2.5 m is outside 1 to 2 m, the range of x law", near.Seen);
        Assert.Contains("extrapolated", near.MayMean, StringComparison.Ordinal);
        Assert.Contains("means little", s_range.NoticeFor(4)!.MayMean, StringComparison.Ordinal);
        Assert.Equal("range.x law.x", near.Code);
    }

    [Theory]
    [InlineData(2, 1, 0, 3, "High")]
    [InlineData(1, 2, 1.5, 3, "Low")]
    [InlineData(1, 2, 0, 1.5, "OuterHigh")]
    [InlineData(double.NaN, 2, 0, 3, "Low")]
    [InlineData(1, double.NaN, 0, 3, "High")]
    [InlineData(1, 2, double.NaN, 3, "Low")]
    [InlineData(1, 2, 0, double.NaN, "OuterHigh")]
    public void Limits_out_of_order_are_refused(double low, double high, double outerLow, double outerHigh, string name) =>
        Assert.Equal(name, Assert.Throws<ArgumentException>(() => new ValidityRange("x law", "x", "m", low, high, outerLow, outerHigh)).ParamName);

    [Fact]
    public void A_range_may_be_one_point_but_not_without_words()
    {
        Assert.True(new ValidityRange("x law", "x", "m", 1, 1).Supports(1));
        Assert.Equal("Correlation", Assert.Throws<ArgumentNullException>(() => new ValidityRange(null!, "x", "m", 1, 2)).ParamName);
        Assert.Equal("Symbol", Assert.Throws<ArgumentNullException>(() => new ValidityRange("x law", null!, "m", 1, 2)).ParamName);
        Assert.Equal("Unit", Assert.Throws<ArgumentNullException>(() => new ValidityRange("x law", "x", null!, 1, 2)).ParamName);
    }

    [Fact]
    public void A_range_without_a_unit_prints_none_and_four_decimals_survive()
    {
        var index = new ValidityRange("y law", "index", "", 1.4740, 1.5044);
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => index.Require(1.6, "n"));
        Assert.StartsWith("index must be within 1.474 to 1.5044 for y law; nearest: 1.5044.", e.Message, StringComparison.Ordinal);
        Assert.Equal("n", e.ParamName);
        Assert.Equal(1.6, e.ActualValue);
    }
}
