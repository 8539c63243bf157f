using System.Globalization;

namespace FlowSim.Sources.Tests;

/// <summary>Numbers as the report writes them: the same on every machine although the last bits are not.</summary>
internal static class Digits
{
    private const int Most = 6;

    /// <summary>So many significant digits, plain between a ten-thousandth and a million; zeros at their end are kept on request.</summary>
    public static string Of(double value, int digits, bool zeros = false)
    {
        // First to 11 digits, so that a figure that lies in the middle between two is rounded the same way everywhere.
        double settled = double.Parse(value.ToString("E10", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        double rounded = double.Parse(settled.ToString(FormattableString.Invariant($"E{digits - 1}"), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        if (rounded == 0) return "0";
        double size = Math.Abs(rounded);
        if (size is < 1e-4 or >= 1e6) return Sign(rounded.ToString("0.#####e0", CultureInfo.InvariantCulture));
        int decimals = Math.Max(0, digits - 1 - (int)Math.Floor(Math.Log10(size)));
        return Sign(rounded.ToString("0." + new string(zeros ? '0' : '#', decimals), CultureInfo.InvariantCulture));
    }

    /// <summary>A figure as printed, to six digits.</summary>
    public static string Printed(double value) => Of(value, Most);

    /// <summary>Ours beside it: with one digit more, four at least and six at most.</summary>
    public static string Beside(double published, double ours) => Of(ours, Math.Clamp(Significant(published) + 1, 4, Most));

    private static int Significant(double value) =>
        Math.Abs(value).ToString("R", CultureInfo.InvariantCulture).Split('E')[0].Replace(".", "", StringComparison.Ordinal).Trim('0').Length;

    private static string Sign(string number) => number.Replace('-', '−').Replace("e−", "e-", StringComparison.Ordinal);
}
