using System.Globalization;

namespace FlowSim.Plots.Drawing;

/// <summary>The unit of a time axis, chosen by the length of the run, and how moments are written beside it.</summary>
internal sealed record TimeScale(string Unit, double SecondsPerUnit)
{
    // Engineering choice: an axis of 3 to 180 units reads without decimals.
    private const double LongestInSecondsS = 180;
    private const double LongestInMinutesS = 3 * 3600;
    private const double LongestInHoursS = 72 * 3600;
    private const double DayS = 86400;

    public static TimeScale For(double durationS) => durationS switch
    {
        <= LongestInSecondsS => new("s", 1),
        <= LongestInMinutesS => new("min", 60),
        <= LongestInHoursS => new("h", 3600),
        _ => new("d", DayS),
    };

    /// <summary>A moment with its unit, <c>3:20 min</c>, <c>1:05 h</c> or <c>5 d 7 h</c>; below one unit in the next smaller: <c>48 s</c>.</summary>
    public string Moment(double seconds)
    {
        if (SecondsPerUnit == DayS)
            return InDays(seconds);

        (string bare, string unit) = Split(seconds);
        return bare + " " + unit;
    }

    /// <summary>A stretch of time: <c>3:20–5:10 min</c>.</summary>
    public string Span(double fromS, double toS)
    {
        if (SecondsPerUnit == DayS)
            return InDays(fromS) + " – " + InDays(toS);

        (string from, string fromUnit) = Split(fromS);
        (string to, string toUnit) = Split(toS);
        return fromUnit == toUnit || from == "0" ? $"{from}–{to} {toUnit}" : $"{from} {fromUnit} – {to} {toUnit}";
    }

    private static string InDays(double seconds)
    {
        if (seconds < 3600)
            return new TimeScale("h", 3600).Moment(seconds);

        long hours = (long)Math.Round(seconds / 3600, MidpointRounding.AwayFromZero);
        string inDays = hours < 24 ? "" : FormattableString.Invariant($"{hours / 24} d");
        string rest = hours >= 24 && hours % 24 == 0 ? "" : FormattableString.Invariant($"{hours % 24} h");
        return (inDays + " " + rest).Trim();
    }

    private (string Bare, string Unit) Split(double seconds)
    {
        if (SecondsPerUnit == 1)
            return (seconds.ToString(seconds < 9.95 ? "0.#" : "0", CultureInfo.InvariantCulture), Unit);

        long parts = (long)Math.Round(seconds / (SecondsPerUnit / 60), MidpointRounding.AwayFromZero);
        return parts < 60
            ? (parts.ToString(CultureInfo.InvariantCulture), Unit == "h" ? "min" : "s")
            : (string.Create(CultureInfo.InvariantCulture, $"{parts / 60}:{parts % 60:00}"), Unit);
    }
}
