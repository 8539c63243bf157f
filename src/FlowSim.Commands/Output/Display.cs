using System.Globalization;

namespace FlowSim.Commands.Output;

/// <summary>Prints quantities for people: few digits, a point, the unit behind a space.</summary>
/// <param name="system">Units.</param>
internal sealed class Display(UnitChoice system)
{
    private const double InchM = 0.0254;
    private const double PoundKg = 0.45359237;
    private const double UsGallonM3 = 231 * InchM * InchM * InchM;

    public UnitChoice System { get; } = system;

    private bool Us => System == UnitChoice.Us;

    public string Length(double metre) => Us
        ? Three(metre / InchM) + " in"
        : Math.Abs(metre) < 0.9995 ? Digits(metre * 1000, Math.Abs(metre) < 0.00995 ? 1 : 0) + " mm" : Digits(metre, 2) + " m";

    public string Mass(double kilogram) => Us ? Three(kilogram / PoundKg) + " lb" : Three(kilogram) + " kg";

    /// <summary>A mass as a kitchen scale shows it: grams to a tenth, or ounces to a hundredth.</summary>
    /// <param name="kilogram">Mass, kg.</param>
    public string SmallMass(double kilogram) => Us ? Digits(kilogram / PoundKg * 16, 2) + " oz" : Digits(kilogram * 1000, 1) + " g";

    /// <summary>What a jar holds.</summary>
    /// <param name="cubicMetre">Volume, m³.</param>
    public string SmallVolume(double cubicMetre) => Us ? Digits(cubicMetre / UsGallonM3 * 128, 1) + " fl oz" : Digits(cubicMetre * 1e6, 0) + " mL";

    public string Volume(double cubicMetre) => Us ? Three(cubicMetre / UsGallonM3) + " gal" : Digits(cubicMetre * 1000, 1) + " L";

    /// <summary>A sentence of the library, its figures in these units.</summary>
    /// <param name="text">Sentence, metric.</param>
    public string Words(string text) => Us ? UsText.Of(text) : text;

    public string Temperature(double kelvin) => Us
        ? Digits((kelvin - 273.15) * 1.8 + 32, 1) + " °F"
        : Digits(kelvin - 273.15, 1) + " °C";

    /// <summary>The number alone of a temperature, for table heads.</summary>
    /// <param name="kelvin">Temperature, K.</param>
    public string TemperatureNumber(double kelvin) => Temperature(kelvin).Split(' ')[0];

    /// <summary>A temperature with its decimal even when it is zero and without its unit, for columns.</summary>
    /// <param name="kelvin">Temperature, K.</param>
    public string TemperatureInColumn(double kelvin) =>
        Math.Round(Us ? (kelvin - 273.15) * 1.8 + 32 : kelvin - 273.15, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>Unit of temperatures.</summary>
    public string TemperatureUnit => Us ? "°F" : "°C";

    /// <summary>A difference of temperatures.</summary>
    /// <param name="kelvin">Difference, K.</param>
    public string TemperatureDifference(double kelvin) => Us ? Digits(kelvin * 1.8, 1) + " °F" : Digits(kelvin, 1) + " °C";

    /// <summary>A speed of air.</summary>
    /// <param name="metrePerSecond">Speed, m/s.</param>
    public string Speed(double metrePerSecond) => Us ? Figures(metrePerSecond / (12 * InchM) * 60, 2) + " ft/min" : Three(metrePerSecond) + " m/s";

    /// <summary>Energy, as the meter counts it.</summary>
    /// <param name="joule">Energy, J.</param>
    public static string Energy(double joule) => Three(joule / 3.6e6) + " kWh";

    /// <summary>Power.</summary>
    /// <param name="watt">Power, W.</param>
    public static string Power(double watt) => Math.Abs(watt) < 9999.5 ? Digits(watt, Math.Abs(watt) < 9.95 ? 1 : 0) + " W" : Three(watt / 1000) + " kW";

    /// <summary>A content of HMF, the number alone: two figures, for it is a band that it belongs to.</summary>
    /// <param name="milligramPerKilogram">Content, mg/kg.</param>
    public static string Hmf(double milligramPerKilogram) => milligramPerKilogram < 0.0005 ? "0" : Figures(milligramPerKilogram, milligramPerKilogram < 0.01 ? 1 : 2);

    /// <summary>A number as somebody set it.</summary>
    /// <param name="value">Number.</param>
    public static string Plain(double value) => Digits(value, 3);

    /// <summary>Days, without more figures than such days have.</summary>
    /// <param name="days">Days.</param>
    public static string Days(double days) => Math.Abs(days) < 0.0995 ? Digits(days, 2) : Math.Abs(days) < 9.95 ? Digits(days, 1) : Digits(days, 0);

    public static string Viscosity(double pascalSecond) => Figures(pascalSecond, 3) + " Pa·s";

    public static string Share(double share) => Digits(share * 100, 1) + " %";

    /// <summary>A share with its decimal even when it is zero, for columns.</summary>
    /// <param name="share">Share.</param>
    public static string ShareInColumn(double share) => (share * 100).ToString("0.0", CultureInfo.InvariantCulture) + " %";

    /// <summary>A mass with its decimals even when they are zero, for columns.</summary>
    /// <param name="kilogram">Mass, kg.</param>
    public string MassInColumn(double kilogram) =>
        (Us ? kilogram / PoundKg : kilogram).ToString("0.00", CultureInfo.InvariantCulture) + (Us ? " lb" : " kg");

    /// <summary>A time, as in "3 min 20 s".</summary>
    /// <param name="seconds">Time, s.</param>
    public static string Time(double seconds)
    {
        if (seconds < 10)
            return Digits(seconds, 1) + " s";
        long whole = (long)Math.Round(seconds, MidpointRounding.AwayFromZero);
        if (whole < 60)
            return whole.ToString(CultureInfo.InvariantCulture) + " s";
        if (whole < 3600)
            return string.Create(CultureInfo.InvariantCulture, $"{whole / 60} min {whole % 60:00} s");
        long minutes = (long)Math.Round(seconds / 60, MidpointRounding.AwayFromZero);
        return minutes < 48 * 60
            ? string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min")
            : string.Create(CultureInfo.InvariantCulture, $"{minutes / 1440} d {minutes / 60 % 24} h");
    }

    /// <summary>A value with a number of significant figures, without an exponent where people would not write one.</summary>
    /// <param name="value">Value.</param>
    /// <param name="figures">Figures.</param>
    public static string Figures(double value, int figures)
    {
        if (value == 0)
            return "0";

        // Rounded first: 0.0997 to two figures is 0.10 and not 0.100.
        double rounded = double.Parse(value.ToString("E" + (figures - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        int decimals = figures - 1 - (int)Math.Floor(Math.Log10(Math.Abs(rounded)));
        string format = decimals is < -6 or > 9 ? "G" : "F";
        int digits = format == "G" ? figures : Math.Max(0, decimals);
        return (decimals < 0 ? rounded : value).ToString(format + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>A time that is not known to the second, as in "35 min".</summary>
    /// <param name="seconds">Time, s.</param>
    public static string RoughTime(double seconds)
    {
        string text = Rounded(seconds);
        return text.EndsWith(" 00 s", StringComparison.Ordinal) || text.EndsWith(" 00 min", StringComparison.Ordinal) ? text[..text.LastIndexOf(" 00 ", StringComparison.Ordinal)] : text;
    }

    /// <summary>A time that must not be exceeded, as rough as <see cref="RoughTime"/> and never above the time itself.</summary>
    /// <param name="seconds">Time, s.</param>
    public static string TimeAtMost(double seconds)
    {
        double step = seconds switch
        {
            < 120 => 1,
            < 600 => 10,
            < 3600 => 60,
            < 36_000 => 600,
            _ => 3600,
        };
        return RoughTime(step * Math.Floor(seconds / step));
    }

    private static string Rounded(double seconds) => seconds switch
    {
        < 120 => Time(Math.Round(seconds)),
        < 600 => Time(10 * Math.Round(seconds / 10)),
        < 3600 => string.Create(CultureInfo.InvariantCulture, $"{seconds / 60:0} min"),
        < 36_000 => Time(600 * Math.Round(seconds / 600)),
        < 48 * 3600 => string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600:0} h"),
        _ => Time(3600 * Math.Round(seconds / 3600)),
    };

    /// <summary>Three figures, at most two decimals: a scale in a honey house shows no more.</summary>
    private static string Three(double value) => Math.Abs(value) switch
    {
        0 => "0",
        < 0.1 => Digits(value, Math.Abs(value) < 0.0095 ? 4 : 3),
        < 9.995 => Digits(value, 2),
        < 99.95 => Digits(value, 1),
        _ => Digits(value, 0),
    };

    private static string Digits(double value, int decimals) =>
        Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), CultureInfo.InvariantCulture);
}
