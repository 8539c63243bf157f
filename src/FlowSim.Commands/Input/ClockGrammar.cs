using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>Reads times of day: <c>07:30</c>, <c>7:30 am</c>, and <c>2026-03-13 18:00</c> for another day.</summary>
internal static partial class ClockGrammar
{
    private const int DayMin = 24 * 60;

    /// <summary>Reads a time of day.</summary>
    /// <param name="text">Text.</param>
    /// <param name="minutes">Minutes from midnight.</param>
    /// <returns>Null, or what is wrong.</returns>
    public static string? ReadTime(string text, out int minutes)
    {
        minutes = 0;
        Match match = Time().Match(text.Trim());
        bool half = match.Groups["half"].Success;
        int hour = match.Success ? int.Parse(match.Groups["h"].Value, CultureInfo.InvariantCulture) : 0;
        int minute = match.Success ? int.Parse(match.Groups["m"].Value, CultureInfo.InvariantCulture) : 0;
        if (!match.Success || minute > 59 || (half && hour is 0 or > 12))
            return $"\"{Printable.Of(text.Trim())}\" is not a time of day; write it as \"07:30\" or \"7:30 am\"";
        if (half)
            hour = (hour % 12) + (match.Groups["half"].Value is "p" or "P" ? 12 : 0);
        minutes = (60 * hour) + minute;
        return minutes <= DayMin ? null : $"\"{Printable.Of(text.Trim())}\" is not a time of day; the day goes from \"00:00\" to \"24:00\"";
    }

    /// <summary>Reads a date.</summary>
    /// <param name="text">Text.</param>
    /// <param name="date">Date.</param>
    /// <returns>Null, or what is wrong.</returns>
    public static string? ReadDate(string text, out DateOnly date) =>
        DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out date)
            ? null
            : $"\"{Printable.Of(text.Trim())}\" is not a date; write it as \"2026-03-14\"";

    /// <summary>Reads a moment: a time of day, or a date and a time of day.</summary>
    /// <param name="text">Text.</param>
    /// <param name="day">The day that a time alone belongs to.</param>
    /// <param name="minutes">Minutes from that day's midnight; negative before it.</param>
    /// <returns>Null, or what is wrong.</returns>
    public static string? ReadMoment(string text, DateOnly day, out int minutes)
    {
        string[] parts = text.Trim().Split((char[])[' ', 'T'], 2, StringSplitOptions.RemoveEmptyEntries);
        if (parts is not [string first, string second] || !first.Contains('-', StringComparison.Ordinal))
            return ReadTime(text, out minutes) is null ? null : $"\"{Printable.Of(text.Trim())}\" is not a time; write \"07:30\", \"7:30 am\", or with the day \"{Date(day)} 07:30\"";
        minutes = 0;
        if (ReadDate(first, out DateOnly date) is { } wrongDate)
            return wrongDate;
        string? wrong = ReadTime(second, out minutes);
        long days = (long)date.DayNumber - day.DayNumber;
        if (Math.Abs(days) > 14)
            return $"\"{Printable.Of(text.Trim())}\" lies more than two weeks from {Date(day)}, the date of the plan";
        minutes += (int)days * DayMin;
        return wrong;
    }

    /// <summary>A date as files write it.</summary>
    /// <param name="date">Date.</param>
    public static string Date(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?<h>[0-9]{1,2}):(?<m>[0-9]{2})\s*((?<half>[apAP])\.?[mM]\.?)?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Time();
}
