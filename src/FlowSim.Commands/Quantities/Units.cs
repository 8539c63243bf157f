using System.Globalization;
using System.Text;

namespace FlowSim.Commands.Quantities;

/// <summary>The units that are read. Numbers as data: nothing here decides anything.</summary>
/// <remarks>
/// Factors are exact by definition unless said: inch 0.0254 m and pound 0.453 592 37 kg (international yard and pound
/// agreement, 1959), US gallon 231 in³, imperial gallon 4.546 09 L (UK Units of Measurement Regulations 1995), poise
/// 0.1 Pa·s (CGS), °F = 5/9 K with 32 °F = 273.15 K. The same figures stand in NIST SP 811, appendix B (from memory). The
/// British thermal unit is that of the International Table, 1055.055 852 62 J; the mile has 5280 ft.
/// </remarks>
internal static class Units
{
    private const double Inch = 0.0254;
    private const double Foot = 12 * Inch;
    private const double Pound = 0.45359237;
    private const double UsGallon = 231 * Inch * Inch * Inch;
    private const double ImperialGallon = 4.54609e-3;
    private const double BtuInternational = 1055.05585262;

    /// <summary>All units, the first of each dimension the one suggested.</summary>
    public static IReadOnlyList<Unit> All { get; } =
    [
        new(Dimension.Temperature, "°C", 1, 273.15, [], ["c", "°c", "degc", "celsius", "deg.c"]),
        new(Dimension.Temperature, "°F", 5 / 9.0, 273.15 - 32 * 5 / 9.0, [], ["f", "°f", "degf", "fahrenheit", "deg.f"]),
        new(Dimension.Temperature, "K", 1, 0, ["K"], ["kelvin", "kelvins"]),

        new(Dimension.Length, "mm", 1e-3, 0, ["mm"], ["millimeter", "millimeters", "millimetre", "millimetres"]),
        new(Dimension.Length, "cm", 1e-2, 0, ["cm"], ["centimeter", "centimeters", "centimetre", "centimetres"]),
        new(Dimension.Length, "m", 1, 0, ["m"], ["meter", "meters", "metre", "metres"]),
        new(Dimension.Length, "um", 1e-6, 0, ["um"], ["micron", "microns", "micrometer", "micrometers", "micrometre", "micrometres"]),
        new(Dimension.Length, "in", Inch, 0, ["\"", "″"], ["in", "inch", "inches", "in."]),
        new(Dimension.Length, "ft", Foot, 0, ["'", "′"], ["ft", "foot", "feet", "ft."]),

        new(Dimension.Volume, "L", 1e-3, 0, ["L", "l"], ["liter", "liters", "litre", "litres"]),
        new(Dimension.Volume, "mL", 1e-6, 0, ["mL", "ml", "cm3", "cc"], ["milliliter", "milliliters", "millilitre", "millilitres"]),
        new(Dimension.Volume, "m3", 1, 0, ["m3"], []),
        new(Dimension.Volume, "US gal", UsGallon, 0, [], ["gal", "gallon", "gallons", "usgal", "usgallon", "usgallons", "u.s.gal"], "US gallon, 3.785 L"),
        new(Dimension.Volume, "imp gal", ImperialGallon, 0, [], ["impgal", "impgallon", "impgallons", "imperialgallon", "imperialgallons", "ukgal", "ukgallon", "ukgallons"], "imperial gallon, 4.546 L"),
        new(Dimension.Volume, "US qt", UsGallon / 4, 0, [], ["qt", "quart", "quarts", "usqt", "usquart", "usquarts"], "US quart, 0.946 L"),
        new(Dimension.Volume, "US pt", UsGallon / 8, 0, [], ["pt", "pint", "pints", "uspt", "uspint", "uspints"], "US pint, 0.473 L"),
        new(Dimension.Volume, "imp pt", ImperialGallon / 8, 0, [], ["imppt", "imppint", "imppints", "ukpint", "ukpints"], "imperial pint, 0.568 L"),
        new(Dimension.Volume, "US fl oz", UsGallon / 128, 0, [], ["floz", "usfloz"], "US fluid ounce, 29.57 mL"),
        new(Dimension.Volume, "imp fl oz", ImperialGallon / 160, 0, [], ["impfloz", "ukfloz"], "imperial fluid ounce, 28.41 mL"),
        new(Dimension.Volume, "ft3", Foot * Foot * Foot, 0, [], ["ft3", "cuft"]),
        new(Dimension.Volume, "in3", Inch * Inch * Inch, 0, [], ["in3", "cuin"]),

        new(Dimension.Mass, "kg", 1, 0, ["kg"], ["kilo", "kilos", "kilogram", "kilograms"]),
        new(Dimension.Mass, "g", 1e-3, 0, ["g"], ["gram", "grams"]),
        new(Dimension.Mass, "lb", Pound, 0, [], ["lb", "lbs", "lb.", "pound", "pounds"]),
        new(Dimension.Mass, "oz", Pound / 16, 0, [], ["oz", "oz.", "ounce", "ounces"], "ounce of weight, 28.35 g"),
        new(Dimension.Mass, "t", 1000, 0, ["t"], ["tonne", "tonnes"], "metric tonne, 1000 kg"),

        new(Dimension.Duration, "min", 60, 0, [], ["min", "mins", "min.", "minute", "minutes"]),
        new(Dimension.Duration, "s", 1, 0, ["s"], ["sec", "secs", "sec.", "second", "seconds"]),
        new(Dimension.Duration, "h", 3600, 0, ["h"], ["hr", "hrs", "hr.", "hour", "hours"]),
        new(Dimension.Duration, "d", 86400, 0, ["d"], ["day", "days"]),

        new(Dimension.Viscosity, "Pa.s", 1, 0, ["Pa.s", "Pas", "Pa*s"], []),
        new(Dimension.Viscosity, "mPa.s", 1e-3, 0, ["mPa.s", "mPas", "mPa*s"], []),
        new(Dimension.Viscosity, "cP", 1e-3, 0, ["cP", "cp", "cps", "cPs"], ["centipoise"]),
        new(Dimension.Viscosity, "P", 0.1, 0, ["P"], ["poise"]),

        new(Dimension.Share, "%", 1e-2, 0, ["%"], ["percent", "pct"]),
        new(Dimension.Share, "g/kg", 1e-3, 0, ["g/kg", "‰"], []),
        new(Dimension.Share, "mg/kg", 1e-6, 0, ["mg/kg"], ["ppm"]),

        new(Dimension.Density, "kg/m3", 1, 0, ["kg/m3"], []),
        new(Dimension.Density, "g/mL", 1000, 0, ["g/mL", "g/ml", "g/cm3", "g/cc", "kg/L", "kg/l"], []),
        new(Dimension.Density, "g/L", 1, 0, ["g/L", "g/l"], []),
        new(Dimension.Density, "lb/ft3", Pound / (Foot * Foot * Foot), 0, [], ["lb/ft3", "lbs/ft3"]),
        new(Dimension.Density, "lb/US gal", Pound / UsGallon, 0, [], ["lb/gal", "lbs/gal", "lb/usgal"], "pounds per US gallon"),

        new(Dimension.HeatTransfer, "W/m2K", 1, 0, ["W/m2K", "W/m2.K", "W/m2/K", "W/m2C", "W/m2°C", "W/m2/°C", "W/m2.°C"], []),
        new(Dimension.HeatTransfer, "Btu/h.ft2.F", BtuInternational / 3600 / (Foot * Foot) * 1.8, 0, [], ["btu/h.ft2.f", "btu/hft2f", "btu/hft2°f", "btu/hr.ft2.f", "btu/h.ft2.°f", "btu/hr/ft2/f"]),

        new(Dimension.TemperatureDifference, "K", 1, 0, ["K"], ["kelvin", "kelvins"]),
        new(Dimension.TemperatureDifference, "°C", 1, 0, [], ["c", "°c", "degc", "celsius", "deg.c"]),
        new(Dimension.TemperatureDifference, "°F", 5 / 9.0, 0, [], ["f", "°f", "degf", "fahrenheit", "deg.f"]),

        new(Dimension.Power, "W", 1, 0, ["W"], ["w", "watt", "watts"]),
        new(Dimension.Power, "kW", 1e3, 0, ["kW"], ["kw", "kilowatt", "kilowatts"]),
        new(Dimension.Power, "Btu/h", BtuInternational / 3600, 0, [], ["btu/h", "btu/hr", "btuh"]),

        new(Dimension.HeatCapacity, "kJ/K", 1e3, 0, ["kJ/K", "kJ/C", "kJ/°C"], []),
        new(Dimension.HeatCapacity, "J/K", 1, 0, ["J/K", "J/C", "J/°C"], []),
        new(Dimension.HeatCapacity, "Btu/F", BtuInternational * 1.8, 0, [], ["btu/f", "btu/°f"]),

        new(Dimension.Area, "m2", 1, 0, ["m2"], ["sqm"]),
        new(Dimension.Area, "ft2", Foot * Foot, 0, [], ["ft2", "sqft"]),

        new(Dimension.Speed, "m/s", 1, 0, ["m/s"], []),
        new(Dimension.Speed, "km/h", 1 / 3.6, 0, ["km/h"], ["kmh", "kph"]),
        new(Dimension.Speed, "ft/min", Foot / 60, 0, [], ["ft/min", "fpm"]),
        new(Dimension.Speed, "mph", 5280 * Foot / 3600, 0, [], ["mph"]),

        new(Dimension.Content, "mg/kg", 1e-6, 0, ["mg/kg"], ["ppm"]),
        new(Dimension.Content, "g/kg", 1e-3, 0, ["g/kg", "‰"], []),
        new(Dimension.Content, "%", 1e-2, 0, ["%"], ["percent", "pct"]),
    ];

    /// <summary>One spelling for the signs that look alike: micro and mu, the dots, raised digits, the degree signs.</summary>
    /// <param name="text">A unit as written, or a whole quantity.</param>
    public static string Normalize(string text)
    {
        StringBuilder result = new(text.Length);
        foreach (char c in text)
        {
            switch (c)
            {
                case '\u00B5' or '\u03BC': result.Append('u'); break; // micro sign, Greek mu
                case '\u00B7' or '\u22C5' or '\u2219' or '\u2022': result.Append('.'); break; // middle dot, dot operator, bullets
                case '\u00BA' or '\u02DA': result.Append('°'); break; // masculine ordinal, ring above
                case '\u2103': result.Append("°C"); break;
                case '\u2109': result.Append("°F"); break;
                case '\u212A': result.Append('K'); break; // Kelvin sign
                case '\u00B2': result.Append('2'); break;
                case '\u00B3': result.Append('3'); break;
                case '\u2033' or '\u201D': result.Append('″'); break;
                case '(' or ')' or '^': break;
                default:
                    if (!char.IsWhiteSpace(c))
                        result.Append(c);
                    break;
            }
        }

        return result.ToString();
    }

    /// <summary>The unit of a spelling; null when there is none.</summary>
    /// <param name="written">Unit as written.</param>
    /// <param name="wanted">Dimension preferred when a spelling serves two.</param>
    public static Unit? Find(string written, Dimension wanted)
    {
        string exact = Normalize(written);
        string lower = exact.ToLowerInvariant();
        Unit? other = null;
        foreach (Unit unit in All)
        {
            if (Array.IndexOf(unit.Exact, exact) < 0 && Array.IndexOf(unit.AnyCase, lower) < 0)
                continue;
            if (unit.Dimension == wanted)
                return unit;
            other ??= unit;
        }

        return other;
    }

    /// <summary>Symbols of a dimension, as in "°C, °F, K".</summary>
    /// <param name="dimension">Dimension.</param>
    public static string SymbolsOf(Dimension dimension) =>
        string.Join(", ", All.Where(u => u.Dimension == dimension).Select(u => u.Symbol));

    /// <summary>The unit of a dimension whose spelling is nearest.</summary>
    /// <param name="written">Unit as written.</param>
    /// <param name="dimension">Dimension.</param>
    public static Unit Nearest(string written, Dimension dimension)
    {
        string text = Normalize(written);
        Unit[] candidates = [.. All.Where(u => u.Dimension == dimension)];
        return candidates.MinBy(u => u.Exact.Concat(u.AnyCase).Min(spelling => Spelling.Distance(spelling, text)))!;
    }

    /// <summary>A value in a unit, as people write it and as it can be read again.</summary>
    /// <param name="si">Value, SI.</param>
    /// <param name="unit">Unit; null for a plain number.</param>
    /// <param name="figures">Figures that count. Twelve: what conversions do to the last places of a round number is gone.</param>
    public static string Text(double si, Unit? unit, int figures = 12) =>
        unit is null ? Rounded(si, figures) : Rounded((si - unit.Offset) / unit.Factor, figures) + " " + unit.Symbol;

    private static string Rounded(double value, int figures) => double.Parse(value.ToString("G" + figures.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).ToString("R", CultureInfo.InvariantCulture);

    /// <summary>A value printed with few digits and a point, whatever the machine's language.</summary>
    /// <param name="value">Value.</param>
    public static string Print(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
