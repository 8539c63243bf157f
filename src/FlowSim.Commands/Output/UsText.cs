using System.Globalization;
using System.Text.RegularExpressions;

namespace FlowSim.Commands.Output;

/// <summary>
/// The library's sentences in US customary units. They are written in metric and their figures stand in a fixed form,
/// "12 to 60 °C" or "1.5 kg" ("5 K" is a difference), so that each is converted where it stands. What the trade gives in metric in the US too stays:
/// µm of a cloth, g/kg, and compound units.
/// </summary>
internal static partial class UsText
{
    private static readonly Display s_us = new(UnitChoice.Us);

    /// <summary>A sentence with its figures converted. What the user wrote, in quotes, stays as it is.</summary>
    /// <param name="text">Sentence.</param>
    public static string Of(string text) => Metric().Replace(text, match =>
    {
        string unit = match.Groups["unit"].Value;
        string last = Convert(match.Groups["last"].Value, unit);
        return match.Groups["first"].Success
            ? Convert(match.Groups["first"].Value, unit).Split(' ')[0] + match.Groups["between"].Value + last
            : last;
    });

    private static string Convert(string number, string unit)
    {
        double value = double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture);
        string converted = unit switch
        {
            "°C" => s_us.Temperature(value + Celsius),
            "K" => s_us.TemperatureDifference(value),
            "kg" => s_us.Mass(value),
            "g" => s_us.SmallMass(value / 1000),
            "mL" => s_us.SmallVolume(value / 1e6),
            "L" => s_us.Volume(value / 1000),
            "mm" => s_us.Length(value / 1000),
            "cm" => s_us.Length(value / 100),
            _ => s_us.Length(value),
        };
        string[] parts = converted.Split(' ', 2);
        double result = double.Parse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture);

        // A conversion knows no more than what it converts: 23 kg are 51 lb and not 50.7.
        int figures = Math.Max(2, number.Count(char.IsAsciiDigit) - (number.StartsWith("0.", StringComparison.Ordinal) ? 1 : 0));
        int whole = result == 0 ? 1 : (int)Math.Floor(Math.Log10(Math.Abs(result))) + 1;
        int decimals = unit == "°C" ? (number.Contains('.', StringComparison.Ordinal) ? 1 : 0) : Math.Clamp(figures - whole, 0, 6);
        return Math.Round(result, decimals, MidpointRounding.AwayFromZero).ToString("0.######", CultureInfo.InvariantCulture) + " " + parts[1];
    }

    private const double Celsius = 273.15;

    [GeneratedRegex("""(?<![\w."/,-])(?:(?<first>-?\d+(?:\.\d+)?)(?<between> to |–| and ))?(?<last>-?\d+(?:\.\d+)?) (?<unit>°C|K|kg|g|mm|mL|cm|m|L)(?![\w/·²³*^])""", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Metric();
}
