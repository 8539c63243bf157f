using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests;

public class EquipmentCheckTests
{
    private static ArgumentOutOfRangeException Refused(double value, double low, double high, string unit = "mm") =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EquipmentCheck.Within(value, low, high, unit, "Bore"));

    [Fact]
    public void Limits_belong_to_the_interval()
    {
        foreach (double value in (double[])[3, 3.1, 199, 200])
            Assert.Equal(value, EquipmentCheck.Within(value, 3, 200, "mm", "Bore"));
        foreach (double value in (double[])[2.999, 200.001, double.NaN, double.PositiveInfinity, double.NegativeInfinity])
        {
            ArgumentOutOfRangeException refused = Refused(value, 3, 200);
            Assert.Equal(("Bore", value), (refused.ParamName, (double)refused.ActualValue!));
        }
    }

    /// <summary>1e-14 of a limit is what a unit may cost, on either side of 0; ten times as much is beyond.</summary>
    [Theory]
    [InlineData(2, 5)]
    [InlineData(-5, -2)]
    [InlineData(-5, 5)]
    public void The_last_digit_of_a_limit_is_no_refusal(double low, double high)
    {
        Assert.True(EquipmentCheck.IsWithin(low - (0.9e-14 * Math.Abs(low)), low, high));
        Assert.True(EquipmentCheck.IsWithin(high + (0.9e-14 * Math.Abs(high)), low, high));
        Assert.False(EquipmentCheck.IsWithin(low - (1e-13 * Math.Abs(low)), low, high));
        Assert.False(EquipmentCheck.IsWithin(high + (1e-13 * Math.Abs(high)), low, high));
        Assert.True(EquipmentCheck.IsWithin(0.5 * (low + high), low, high));
        Assert.False(EquipmentCheck.IsWithin(low - 1, low, high));
        Assert.False(EquipmentCheck.IsWithin(high + 1, low, high));
        Assert.False(EquipmentCheck.IsWithin(double.NaN, low, high));
    }

    [Fact]
    public void Twenty_micrometres_are_as_many_thousandths_of_a_millimetre() =>
        Assert.Equal(20e-6, EquipmentCheck.Millimetres(Length.FromMicrometers(20), 0.02, 10, "Opening"), 1e-18);

    [Fact]
    public void Millimetres_are_checked_and_metres_given()
    {
        Assert.Equal(0.25, EquipmentCheck.Millimetres(Length.FromMillimeters(250), 3, 250, "Rim"));
        Assert.Equal("Rim", Assert.Throws<ArgumentOutOfRangeException>(() => EquipmentCheck.Millimetres(Length.FromMillimeters(251), 3, 250, "Rim")).ParamName);
    }

    [Fact]
    public void A_refusal_says_name_value_interval_and_unit()
    {
        Assert.StartsWith("Bore is 2.5 mm; it must be within 3 to 200 mm.", Refused(2.5, 3, 200).Message, StringComparison.Ordinal);
        Assert.StartsWith("Bore is 2.5; it must be within 3 to 200.", Refused(2.5, 3, 200, "").Message, StringComparison.Ordinal);
    }

    /// <summary>Figures of a hundred-thousandth up to ten milliards are written out, others with an exponent.</summary>
    [Theory]
    [InlineData(0, "is 0 mm")]
    [InlineData(1e-5, "is 0.00001 mm")]
    [InlineData(-1e-5, "is -0.00001 mm")]
    [InlineData(9e-6, "is 9e-6 mm")]
    [InlineData(-9e-6, "is -9e-6 mm")]
    [InlineData(9_999_999_999, "is 9999999999 mm")]
    [InlineData(1e10, "is 1e10 mm")]
    [InlineData(-2.5e12, "is -2.5e12 mm")]
    public void Figures_are_written_as_people_do(double value, string said) => Assert.Contains(said, Refused(value, 100, 200).Message, StringComparison.Ordinal);

    [Fact]
    public void A_member_of_an_enumeration_is_one_of_its_own()
    {
        EquipmentCheck.Defined(StrainingObservable.TankMass, "Quantity");
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => EquipmentCheck.Defined((StrainingObservable)99, "Quantity"));
        Assert.Equal("Quantity", refused.ParamName);
        Assert.Contains("TankMass", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_that_is_there_is_given_back_and_one_that_is_not_is_named()
    {
        string part = "a part";
        Assert.Same(part, EquipmentCheck.Present(part));
        string? missing = null;
        Assert.Equal("missing", Assert.Throws<ArgumentNullException>(() => EquipmentCheck.Present(missing)).ParamName);
        Assert.Equal("other", Assert.Throws<ArgumentNullException>(() => EquipmentCheck.Present(missing, "other")).ParamName);
    }

    [Theory]
    [InlineData(1e-300, true)]
    [InlineData(5, true)]
    [InlineData(0, false)]
    [InlineData(-1, false)]
    [InlineData(double.NaN, false)]
    [InlineData(double.PositiveInfinity, false)]
    public void The_size_of_a_shape_is_above_none_and_finite(double value, bool accepted)
    {
        if (accepted)
        {
            ShapeProbe.Positive("shape", "height", value, "Shape");
            return;
        }

        ArgumentException refused = Assert.Throws<ArgumentException>(() => ShapeProbe.Positive("shape", "height", value, "Shape"));
        Assert.Equal("Shape", refused.ParamName);
        Assert.Contains("String", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(5, true)]
    [InlineData(-1e-300, false)]
    [InlineData(double.NaN, false)]
    [InlineData(double.PositiveInfinity, false)]
    public void An_answer_of_a_shape_may_be_none(double value, bool accepted)
    {
        if (accepted)
        {
            ShapeProbe.Number("shape", "volume", value, 0.25, "Shape");
            return;
        }

        ArgumentException refused = Assert.Throws<ArgumentException>(() => ShapeProbe.Number("shape", "volume", value, 0.25, "Shape"));
        Assert.Equal("Shape", refused.ParamName);
        Assert.Contains("volume at 0.25 m", refused.Message, StringComparison.Ordinal);
    }
}
