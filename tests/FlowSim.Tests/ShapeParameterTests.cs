namespace FlowSim.Tests;

public class ShapeParameterTests
{
    private static ShapeParameter Of(ShapeParameterKind kind, double min, double max, bool required = true, double? standard = null) =>
        new("rim_height", kind, min, max, required, standard, "height of the rim");

    private static string Refused(ShapeParameter parameter, double value)
    {
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => parameter.Check(value, "key"));
        Assert.Equal("key", refused.ParamName);
        return refused.Message;
    }

    [Theory]
    [InlineData(ShapeParameterKind.Length, 0.01, 0.5, "501 mm; it must be within 10 to 500 mm", 0.501)]
    [InlineData(ShapeParameterKind.Length, 0.01, 1, "1.5 m; it must be within 0.01 to 1 m", 1.5)]
    [InlineData(ShapeParameterKind.LengthList, 0.01, 0.99, "5 mm; it must be within 10 to 990 mm", 0.005)]
    [InlineData(ShapeParameterKind.Volume, 0.001, 0.5, "501 L; it must be within 1 to 500 L", 0.501)]
    [InlineData(ShapeParameterKind.VolumeList, 0.001, 2, "2001 L; it must be within 1 to 2000 L", 2.001)]
    public void A_refusal_is_in_the_unit_that_people_use(ShapeParameterKind kind, double min, double max, string said, double value) =>
        Assert.Contains(said, Refused(Of(kind, min, max), value), StringComparison.Ordinal);

    [Fact]
    public void What_is_within_the_limits_comes_back()
    {
        ShapeParameter length = ShapeParameter.RequiredLength("rim_height", 0.01, 0.5, "height of the rim");
        Assert.Equal((0.01, 0.2, 0.5), (length.Check(0.01, "key"), length.Check(0.2, "key"), length.Check(0.5, "key")));
        Assert.Equal(ShapeParameterKind.Length, length.Kind);
        Assert.True(length.IsRequired);
        Assert.Null(length.Default);
        Refused(length, 0.0099);
        Refused(length, double.NaN);
        Assert.Equal(0.3, Of(ShapeParameterKind.Volume, 0.1, 0.5).Check(0.3, "key"));
    }

    [Fact]
    public void What_is_given_is_taken_then_the_standard_then_none()
    {
        ShapeParameter required = Of(ShapeParameterKind.Length, 0.01, 0.5), standard = Of(ShapeParameterKind.Length, 0.01, 0.5, required: false, 0.2), optional = Of(ShapeParameterKind.Length, 0.01, 0.5, required: false);
        Assert.Equal(0.3, required.ReadOptional(key => key == "rim_height" ? 0.3 : null));
        Assert.Equal(0.3, standard.ReadOptional(_ => 0.3));
        Assert.Equal(0.2, standard.ReadOptional(_ => null));
        Assert.Equal(0.2, standard.Read(_ => null));
        Assert.Null(optional.ReadOptional(_ => null));
        Assert.Equal("rim_height", Assert.Throws<ArgumentException>(() => required.ReadOptional(_ => null)).ParamName);
        Assert.Equal("rim_height", Assert.Throws<ArgumentOutOfRangeException>(() => optional.ReadOptional(_ => 0.6)).ParamName);
        Assert.Equal("valueInSI", Assert.Throws<ArgumentNullException>(() => required.ReadOptional(null!)).ParamName);
    }

    [Fact]
    public void A_list_is_asked_for_one_after_the_other_until_there_is_none()
    {
        ShapeParameter list = Of(ShapeParameterKind.LengthList, 0.01, 0.5);
        double[] given = [0.1, 0.2, 0.15];
        Assert.Equal(given, list.ReadList(key => Array.FindIndex(["rim_height[0]", "rim_height[1]", "rim_height[2]"], k => k == key) is >= 0 and int i ? given[i] : null));
        Assert.Empty(list.ReadList(_ => null));
        Assert.Equal("rim_height[1]", Assert.Throws<ArgumentOutOfRangeException>(() => list.ReadList(key => key == "rim_height[1]" ? 0.6 : 0.1)).ParamName);
        Assert.Equal("valueInSI", Assert.Throws<ArgumentNullException>(() => list.ReadList(null!)).ParamName);
    }

    [Fact]
    public void A_list_has_ten_thousand_values_at_most()
    {
        ShapeParameter list = Of(ShapeParameterKind.LengthList, 0.01, 0.5);
        Assert.Equal(10_000, list.ReadList(key => key == "rim_height[10000]" ? null : 0.1).Count);
        ArgumentException refused = Assert.Throws<ArgumentException>(() => list.ReadList(key => key == "rim_height[10001]" ? null : 0.1));
        Assert.Equal("rim_height", refused.ParamName);
        Assert.Contains("10000", refused.Message, StringComparison.Ordinal);
    }
}
