using FlowSim.Commands.Quantities;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Commands.Tests.Quantities;

/// <summary>What is refused, and that the message says what would be right.</summary>
public class RefusedQuantityTests
{
    [Theory]
    [InlineData("35", "needs one: °C, °F, K")]
    [InlineData("35,5 °C", "comma")]
    [InlineData("1,000 °C", "comma")]
    [InlineData("35 mm", "is a length, but a temperature is wanted: °C, °F, K")]
    [InlineData("-300 °C", "-273.15 °C")]
    [InlineData("-1 K", "0 K")]
    [InlineData("NaN °C", "does not begin with a number")]
    [InlineData("inf K", "does not begin with a number")]
    [InlineData("1e999 K", "too large")]
    [InlineData("", "is empty")]
    [InlineData("   ", "is empty")]
    [InlineData("°C", "does not begin with a number")]
    [InlineData("35 °C 2 °C", "one number and one unit")]
    [InlineData("35 Cels", "nearest: \"°C\"")]
    [InlineData("35 k", "nearest: \"K\"")]
    [InlineData("3\u0665 °C", "unit")] // a digit of another script
    [InlineData("thirty °C", "does not begin with a number")]
    public void Temperature(string text, string said) => Refuses(text, Dimension.Temperature, said);

    [Theory]
    [InlineData("1'000 mm", "groups its digits")]
    [InlineData("1_000 mm", "groups its digits")]
    [InlineData("1 000 mm", "digits are not grouped")]
    [InlineData("1\u2009000 mm", "digits are not grouped")] // thin space
    [InlineData("1.000.000 mm", "two points")]
    [InlineData("5. mm", "point without a digit")]
    [InlineData("-3 mm", "0 mm or more")]
    [InlineData("1/0 in", "fraction")]
    [InlineData("1/2/3 in", "fraction")]
    [InlineData("2 in 5 ft", "larger unit to the smaller")]
    [InlineData("5 ft -2 in", "larger unit to the smaller")]
    [InlineData("12 min", "is a time, but a length is wanted")]
    [InlineData("0x10 mm", "not known")]
    public void Length(string text, string said) => Refuses(text, Dimension.Length, said);

    [Theory]
    [InlineData("3 Pas.", "nearest: \"Pa.s\"")]
    [InlineData("3 MPa.s", "nearest: \"mPa.s\"")] // a million times too much if case did not matter
    public void Viscosity(string text, string said) => Refuses(text, Dimension.Viscosity, said);

    [Theory]
    [InlineData("0.4", "needs one: %")]
    [InlineData("12 oz", "is a mass")]
    public void Share(string text, string said) => Refuses(text, Dimension.Share, said);

    [Theory]
    [InlineData("2", nameof(Dimension.TemperatureDifference), "needs one: K, °C, °F")]
    [InlineData("-2 K", nameof(Dimension.TemperatureDifference), "0 K or more")]
    [InlineData("500", nameof(Dimension.Power), "W, kW, Btu/h")]
    [InlineData("500 mW", nameof(Dimension.Power), "which is not known; nearest: \"W\"")]
    [InlineData("0.5 kWh", nameof(Dimension.Power), "not known")]
    [InlineData("30 kJ", nameof(Dimension.HeatCapacity), "nearest: \"kJ/K\"")]
    [InlineData("6 m", nameof(Dimension.Area), "is a length, but an area is wanted")]
    [InlineData("1 m", nameof(Dimension.Speed), "is a length, but a speed is wanted")]
    [InlineData("5", nameof(Dimension.Content), "mg/kg, g/kg, %")]
    public void Of_warming(string text, string dimension, string said) => Refuses(text, Enum.Parse<Dimension>(dimension), said);

    [Fact]
    public void The_offset_points_at_what_is_wrong()
    {
        //                                         0123456
        Assert.Equal(3, QuantityGrammar.Read("35 mm", Dimension.Temperature, out _)!.Offset);
        Assert.Equal(2, QuantityGrammar.Read("35,5 °C", Dimension.Temperature, out _)!.Offset);
        Assert.Equal(4, QuantityGrammar.Read("1 h 2 km", Dimension.Duration, out _)!.Offset - 2);
    }

    [Fact]
    public void A_long_text_is_refused_before_it_is_read() =>
        Refuses(new string('9', 1_000_000) + " K", Dimension.Temperature, "characters long");

    [Property(MaxTest = 2000)]
    public void Any_text_gives_a_finite_value_or_a_fault(NonNull<string> text, int dimension)
    {
        var wanted = (Dimension)Math.Abs(dimension % Enum.GetValues<Dimension>().Length);
        QuantityFault? fault = QuantityGrammar.Read(text.Get, wanted, out Quantity quantity);
        AssertSound(text.Get, wanted, fault, quantity);
    }

    /// <summary>Random texts seldom come near a quantity, so these are strung together from pieces of quantities.</summary>
    [Property(MaxTest = 3000)]
    public void Any_pieces_of_quantities_give_a_finite_value_or_a_fault(int[] picks, int dimension)
    {
        string[] pieces = ["1", "35", "0", ".", ",", "/", " ", "e", "E9", "-", "+", "°C", "F", "mm", "in", "gal", "'", "\"", "%", "µ", "m2", "W/m2K", "h", "min", "\u2009", "_", "99999999999999999999", "\u0000", "\uD800", "(", "^"];
        string text = string.Concat((picks ?? []).Take(12).Select(p => pieces[Math.Abs(p % pieces.Length)]));
        var wanted = (Dimension)Math.Abs(dimension % Enum.GetValues<Dimension>().Length);
        QuantityFault? fault = QuantityGrammar.Read(text, wanted, out Quantity quantity);
        AssertSound(text, wanted, fault, quantity);
        _ = QuantityGrammar.ReadNumber(text, out double number);
        Assert.True(double.IsFinite(number));
    }

    private static void AssertSound(string text, Dimension wanted, QuantityFault? fault, Quantity quantity)
    {
        if (fault is null)
        {
            Assert.True(double.IsFinite(quantity.Si) && quantity.Si >= DimensionFacts.Of(wanted).LeastSi);
            return;
        }

        Assert.InRange(fault.Offset, 0, text.Length);
        Assert.NotEmpty(fault.What);
    }

    private static void Refuses(string text, Dimension dimension, string said)
    {
        QuantityFault? fault = QuantityGrammar.Read(text, dimension, out _);
        Assert.NotNull(fault);
        Assert.Contains(said, fault.What, StringComparison.Ordinal);
        Assert.InRange(fault.Offset, 0, text.Length);
    }
}
