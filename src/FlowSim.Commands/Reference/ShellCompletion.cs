using FlowSim.Commands.Input;
using FlowSim.Commands.Scanning;

namespace FlowSim.Commands.Reference;

/// <summary>Scripts that complete a line in a shell. Everything is in them: a shell that completes starts no program.</summary>
internal static class ShellCompletion
{
    /// <summary>The shells that there is a script for.</summary>
    public static IReadOnlyList<string> Shells { get; } = ["bash", "zsh", "fish"];

    /// <summary>Keys that <c>--set</c> takes.</summary>
    public static IReadOnlyList<string> SettingKeys { get; } =
        [.. Keys.All.Select(key => key.ToString()).Concat(Keys.Sections.SelectMany(section => ShapeKeys.Of(section).Select(parameter => section + "." + parameter.Key))).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>Keys that <c>--scan</c> takes.</summary>
    public static IReadOnlyList<string> RangeKeys { get; } =
        [.. ScanReader.Numeric().Select(key => key.ToString()).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>The script of a shell.</summary>
    /// <param name="shell">One of <see cref="Shells"/>.</param>
    /// <param name="program">The program.</param>
    public static string For(string shell, CommandInfo program) => shell switch
    {
        "bash" => BashCompletion.Script(program),
        "zsh" => ZshCompletion.Script(program),
        _ => FishCompletion.Script(program),
    };

    /// <summary>Options of a kind as a shell's <c>case</c> writes them, "command/option" in alternatives; null when there is none.</summary>
    /// <param name="program">The program.</param>
    /// <param name="wanted">Which.</param>
    public static string? Pattern(CommandInfo program, Func<OptionInfo, bool> wanted)
    {
        string[] all = [.. program.Leaves.SelectMany(command => command.Options.Where(wanted).SelectMany(option => option.Names.Select(name => $"'{command.Path}/{name}'")))];
        return all.Length == 0 ? null : string.Join('|', all);
    }

    /// <summary>Options that take some words, by these words.</summary>
    /// <param name="program">The program.</param>
    public static IEnumerable<IReadOnlyList<string>> WordLists(CommandInfo program) => program.Leaves
        .SelectMany(command => command.Options)
        .Where(option => option.Hint == ValueHint.Word)
        .Select(option => option.Words)
        .DistinctBy(words => string.Join(' ', words), StringComparer.Ordinal);
}
