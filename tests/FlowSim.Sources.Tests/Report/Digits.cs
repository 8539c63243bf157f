using System.Globalization;

namespace FlowSim.Sources.Tests;

/// <summary>Numbers as the report writes them: the same on every machine although the last bits are not.</summary>
internal static class Digits
{
    private const int Most = 6;

    /// <summary>So many significant digits, plain between a ten-thousandth and ten millions.</summary>
    public static string Of(double value, int digits)
    {
        // First to 11 digits, so that a figure that lies in the middle between two is rounded the same way everywhere.
        double settled = double.Parse(value.ToString("E10", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        double rounded = double.Parse(settled.ToString(FormattableString.Invariant($"E{digits - 1}"), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        if (rounded == 0) return "0";
        bool plain = Math.Abs(rounded) is >= 1e-4 and < 1e7;
        return Sign(plain
            ? rounded.ToString("0.###############", CultureInfo.InvariantCulture)
            : rounded.ToString("0.#####e0", CultureInfo.InvariantCulture));
    }

    /// <summary>A figure as printed, to six digits.</summary>
    public static string Printed(double value) => Of(value, Most);

    /// <summary>Ours beside it: with one digit more, four at least and six at most.</summary>
    public static string Beside(double published, double ours) => Of(ours, Math.Clamp(Significant(published) + 1, 4, Most));

    private static int Significant(double value) =>
        Math.Abs(value).ToString("E15", CultureInfo.InvariantCulture).Split('E')[0].Replace(".", "", StringComparison.Ordinal).TrimEnd('0').Length;

    private static string Sign(string number) => number.Replace('-', '−').Replace("e−", "e-", StringComparison.Ordinal);
}
