using System.Globalization;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Tests.Quantities;

/// <summary>
/// What people write, and its SI value. Factors: inch 25.4 mm and pound 0.453 592 37 kg exactly (international yard and
/// pound agreement, 1959); US gallon 231 cubic inches; imperial gallon 4.546 09 L; poise 0.1 Pa·s; all also in NIST SP 811,
/// appendix B (from memory). t/°C = (t/°F − 32)/1.8 and T/K = t/°C + 273.15 by definition of the scales. Each product is
/// worked by hand in the table.
/// </summary>
public class AcceptedQuantityTests
{
    [Theory]
    [InlineData("35 °C", 308.15)]
    [InlineData("35°C", 308.15)]
    [InlineData("35C", 308.15)]
    [InlineData("35 c", 308.15)]
    [InlineData("35 \u00BAC", 308.15)] // masculine ordinal in place of the degree sign
    [InlineData("35 \u2103", 308.15)]
    [InlineData("35\u00A0°C", 308.15)] // no-break space
    [InlineData(" 35 degC ", 308.15)]
    [InlineData("95F", 308.15)] // (95 − 32)/1.8 = 35
    [InlineData("95 °F", 308.15)]
    [InlineData("308 K", 308)]
    [InlineData("-5 °C", 268.15)]
    [InlineData("\u22125 °C", 268.15)] // minus sign
    [InlineData("-459.67 °F", 0)] // absolute zero: −459.67/1.8 − 32/1.8 = −273.15
    public void Temperature(string text, double kelvin) => Reads(text, Dimension.Temperature, kelvin);

    [Theory]
    [InlineData("38 mm", 0.038)]
    [InlineData("1.5 in", 0.0381)]
    [InlineData("1 1/2 in", 0.0381)]
    [InlineData("3/4 in", 0.01905)]
    [InlineData("1.5\"", 0.0381)]
    [InlineData("5 ft 2 in", 1.5748)] // 62 × 0.0254
    [InlineData("400 um", 4e-4)]
    [InlineData("400 \u00B5m", 4e-4)] // micro sign
    [InlineData("400 \u03BCm", 4e-4)] // Greek mu
    [InlineData("400 micron", 4e-4)]
    [InlineData(".5 m", 0.5)]
    [InlineData("4e2 mm", 0.4)]
    [InlineData("4E-1 m", 0.4)]
    public void Length(string text, double metre) => Reads(text, Dimension.Length, metre);

    /// <summary>Quantities of warming. 1 Btu(IT) = 1055.05585262 J, 1 ft = 0.3048 m, 1 mi = 5280 ft; a difference of 1.8 °F is 1 K.</summary>
    [Theory]
    [InlineData("2 K", nameof(Dimension.TemperatureDifference), 2)]
    [InlineData("2 °C", nameof(Dimension.TemperatureDifference), 2)]
    [InlineData("9 F", nameof(Dimension.TemperatureDifference), 5)]
    [InlineData("1500 W", nameof(Dimension.Power), 1500)]
    [InlineData("1.5kW", nameof(Dimension.Power), 1500)]
    [InlineData("3600 Btu/h", nameof(Dimension.Power), 1055.05585262)]
    [InlineData("30 kJ/K", nameof(Dimension.HeatCapacity), 30_000)]
    [InlineData("1.8 Btu/F", nameof(Dimension.HeatCapacity), 3418.3809624888)] // 1.8² × 1055.05585262
    [InlineData("6 m²", nameof(Dimension.Area), 6)]
    [InlineData("100 ft2", nameof(Dimension.Area), 9.290304)]
    [InlineData("0.5 m/s", nameof(Dimension.Speed), 0.5)]
    [InlineData("100 ft/min", nameof(Dimension.Speed), 0.508)]
    [InlineData("36 km/h", nameof(Dimension.Speed), 10)]
    [InlineData("5 mph", nameof(Dimension.Speed), 2.2352)]
    [InlineData("5 mg/kg", nameof(Dimension.Content), 5e-6)]
    [InlineData("5 ppm", nameof(Dimension.Content), 5e-6)]
    public void Of_warming(string text, string dimension, double si) => Reads(text, Enum.Parse<Dimension>(dimension), si);

    [Theory]
    [InlineData("19 L", 0.019)]
    [InlineData("500 mL", 5e-4)]
    [InlineData("5 gal", 0.01892705892)] // 5 × 231 × 0.0254³
    [InlineData("5 US gal", 0.01892705892)]
    [InlineData("5 imp gal", 0.02273045)] // 5 × 4.54609 L
    [InlineData("1 gal 2 qt", 0.005678117676)] // 1.5 × 3.785411784 L
    [InlineData("1 m\u00B3", 1)]
    [InlineData("1 m^3", 1)]
    [InlineData("1000 cm3", 1e-3)]
    [InlineData("1 ft3", 0.028316846592)] // 0.3048³
    public void Volume(string text, double cubicMetre) => Reads(text, Dimension.Volume, cubicMetre);

    [Theory]
    [InlineData("60 lb", 27.2155422)] // 60 × 0.45359237
    [InlineData("60 lbs", 27.2155422)]
    [InlineData("3 lb 4 oz", 1.4741752025)] // 3.25 × 0.45359237
    [InlineData("12 kg", 12)]
    [InlineData("454 g", 0.454)]
    public void Mass(string text, double kilogram) => Reads(text, Dimension.Mass, kilogram);

    [Theory]
    [InlineData("12 min", 720)]
    [InlineData("1 h 30 min", 5400)]
    [InlineData("1h30min", 5400)]
    [InlineData("1 h 5 min 3 s", 3903)]
    [InlineData("2 days", 172800)]
    [InlineData("0 min", 0)]
    public void Duration(string text, double second) => Reads(text, Dimension.Duration, second);

    [Theory]
    [InlineData("3 Pa.s", 3)]
    [InlineData("3 Pa\u00B7s", 3)]
    [InlineData("3 Pa s", 3)]
    [InlineData("3000 cP", 3)]
    [InlineData("30 poise", 3)]
    [InlineData("3000 mPa.s", 3)]
    public void Viscosity(string text, double pascalSecond) => Reads(text, Dimension.Viscosity, pascalSecond);

    [Theory]
    [InlineData("17.8%", 0.178)]
    [InlineData("17.8 %", 0.178)]
    [InlineData("0.3 g/kg", 3e-4)]
    [InlineData("300 ppm", 3e-4)]
    [InlineData("300 mg/kg", 3e-4)]
    public void Share(string text, double share) => Reads(text, Dimension.Share, share);

    [Theory]
    [InlineData("960 kg/m3", 960)]
    [InlineData("0.96 g/cm\u00B3", 960)]
    [InlineData("60 lb/ft3", 961.107802438)] // 60 × 0.45359237/0.3048³
    public void Density(string text, double kilogramPerCubicMetre) => Reads(text, Dimension.Density, kilogramPerCubicMetre);

    [Theory]
    [InlineData("6 W/m2K", 6)]
    [InlineData("6 W/(m\u00B2\u00B7K)", 6)]
    [InlineData("6 W/m2/K", 6)]
    [InlineData("1 Btu/(h ft2 °F)", 5.678263341)] // 1055.05585262/3600/0.09290304 × 1.8
    public void HeatTransfer(string text, double si) => Reads(text, Dimension.HeatTransfer, si);

    [Theory]
    [InlineData("5 gal", "US gallon")]
    [InlineData("5 imp gal", "imperial gallon")]
    public void The_gallon_is_named(string text, string said)
    {
        Assert.Null(QuantityGrammar.Read(text, Dimension.Volume, out Quantity quantity));
        Assert.Contains(said, quantity.Echo, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_spelling_reads_as_its_own_unit_and_no_spelling_serves_two_of_one_dimension()
    {
        foreach (Unit unit in Units.All)
        {
            foreach (string spelling in unit.Exact.Concat(unit.AnyCase).Append(unit.Symbol))
                Assert.Same(unit, Units.Find(spelling, unit.Dimension));
        }
    }

    [Fact]
    public void The_language_of_the_machine_does_not_matter()
    {
        // Invariant globalization has no foreign cultures, so the separators are set by hand.
        var foreign = new CultureInfo(string.Empty) { NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = ".", NegativeSign = "~" } };
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = foreign;
            Reads("-35.5 °C", Dimension.Temperature, 237.65);
            Assert.NotNull(QuantityGrammar.Read("35,5 °C", Dimension.Temperature, out _));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static void Reads(string text, Dimension dimension, double si)
    {
        QuantityFault? fault = QuantityGrammar.Read(text, dimension, out Quantity quantity);
        Assert.True(fault is null, fault?.What);
        Assert.Equal(si, quantity.Si, 1e-9 * Math.Max(1e-3, Math.Abs(si)));
    }
}
