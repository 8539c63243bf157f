using System.Text.RegularExpressions;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>A command as it may be typed again.</summary>
internal static partial class ShellWords
{
    /// <summary>Words in one line, quoted where a shell would take them apart.</summary>
    /// <param name="words">Words.</param>
    public static string Line(IEnumerable<string> words) => string.Join(' ', words.Select(Quoted));

    /// <summary>Options that were given, each with its value.</summary>
    /// <param name="options">Options with their values; null for one that was not given, an empty one for an option that takes none.</param>
    public static IEnumerable<string> Of(IEnumerable<(string Option, string? Value)> options) =>
        options.Where(option => option.Value is not null).SelectMany(option => option.Value!.Length == 0 ? new[] { option.Option } : [option.Option, Printable.Of(option.Value, 300)]);

    /// <summary>Options as they were repeated.</summary>
    /// <param name="option">Option.</param>
    /// <param name="values">Its values.</param>
    public static IEnumerable<(string Option, string? Value)> Repeated(string option, IEnumerable<string> values) => values.Select(value => (option, (string?)value));

    private static string Quoted(string word)
    {
        if (Plain().IsMatch(word))
            return word;
        return word.AsSpan().ContainsAny("\"\\$`!") ? "'" + word.Replace("'", "'\\''", StringComparison.Ordinal) + "'" : "\"" + word + "\"";
    }

    [GeneratedRegex(@"\A[A-Za-z0-9_./:=,%+@-]+\z", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Plain();
}
