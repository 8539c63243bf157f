using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Reads the lines that begin with # above the headings: keys of the batch for this run alone, and its date.</summary>
internal static partial class RunComment
{
    private const string Date = "date";

    /// <summary>Sections whose keys may differ from run to run; what does not may be refused later as another kit.</summary>
    private static readonly string[] s_sections = ["honey", "room", "tank", "gate", "screen", "debris", "scraping", "receiver", "fit"];

    private static readonly Lazy<string[]> s_keys = new(() =>
    [
        Date,
        .. Keys.All.Where(key => s_sections.Contains(key.Section, StringComparer.Ordinal)).Select(key => key.ToString()),
        .. VesselShapes.All.SelectMany(shape => shape.Parameters).SelectMany(parameter => new[] { "tank." + parameter.Key, "receiver." + parameter.Key }),
        .. ScreenShapes.All.SelectMany(shape => shape.Parameters).Select(parameter => "screen." + parameter.Key),
    ]);

    /// <summary>Whether a line is a comment.</summary>
    /// <param name="line">Line.</param>
    public static bool IsComment(ReadOnlySpan<char> line)
    {
        ReadOnlySpan<char> text = line.TrimStart();
        return text.StartsWith("#") || text.StartsWith("\"#");
    }

    /// <summary>Whether a comment looks like a key with its value.</summary>
    /// <param name="line">Line.</param>
    public static bool IsSetting(string line) => KeyValue().IsMatch(Bare(line));

    /// <summary>Reads a comment.</summary>
    /// <param name="line">Line.</param>
    /// <param name="spot">Where it stands.</param>
    /// <param name="settings">Takes a key that it sets.</param>
    /// <param name="date">Takes the date.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public static string? Read(string line, Spot spot, List<RunSetting> settings, ref DateOnly? date)
    {
        Match match = KeyValue().Match(Bare(line));
        if (!match.Success)
            return null;
        string key = match.Groups["key"].Value;
        string value = match.Groups["value"].Value.Trim();
        if (!s_keys.Value.Contains(key, StringComparer.Ordinal))
            return $"\"{Printable.Of(key)}\" is not a key that a run can set for itself; nearest: \"{Spelling.Nearest(key, s_keys.Value)}\"; a comment for people is written without an = sign";
        if (key == Date)
        {
            if (date is not null)
                return "gives the date a second time";
            if (!DateOnly.TryParseExact(value.Trim('"', '\''), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
                return $"\"{Printable.Of(value)}\" is not a date; write year, month and day as 2026-11-20";
            date = day;
            return null;
        }

        if (settings.Exists(before => before.Key == key))
            return $"sets {key} a second time; give each key once";
        settings.Add(new RunSetting(key, key + "=" + value, spot));
        return null;
    }

    /// <summary>A comment without its sign, and without what a spreadsheet puts around and behind it.</summary>
    private static string Bare(string line)
    {
        string text = line.Trim().TrimEnd(',', ';', '\t', ' ');
        if (text.StartsWith("\"#", StringComparison.Ordinal) && text.EndsWith('"') && text.Length > 2)
            text = text[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal);
        return text.TrimStart('#').Trim();
    }

    [GeneratedRegex(@"^(?<key>[A-Za-z_][A-Za-z0-9_]*(\.[A-Za-z_][A-Za-z0-9_]*)*)\s*=\s*(?<value>\S.*)$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex KeyValue();
}
