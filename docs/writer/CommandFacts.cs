using FlowSim.Commands;
using FlowSim.Commands.Reference;

namespace FlowSim.Docs;

/// <summary>What the pages say of a command beside what its parser knows.</summary>
internal static class CommandFacts
{
    /// <summary>Options by which a file is written or changed; every other one that takes a file reads it.</summary>
    public static IReadOnlyList<string> Writing { get; } = ["--csv", "--damage", "--log", "--map", "--plot", "--report", "--save", "--save-as", "--times"];

    /// <summary>Options by which a file is read.</summary>
    public static IReadOnlyList<string> Reading { get; } = ["--batch"];

    /// <summary>Exit codes that a command may return.</summary>
    /// <param name="command">Command.</param>
    public static IEnumerable<(int Code, string Meaning)> ExitCodesOf(CommandInfo command) => ExitCode.All.Where(entry => BelongsTo(entry.Meaning, command));

    /// <summary>Lines of the examples of a command, without their heading and indentation; a remark under them is left out.</summary>
    /// <param name="command">Command.</param>
    public static IReadOnlyList<string> ExamplesOf(CommandInfo command) =>
        [.. Usage.Examples(command.Name).Split('\n').Where(line => line.StartsWith("  ", StringComparison.Ordinal)).Select(line => line.Trim())];

    /// <summary>Remarks under the examples of a command.</summary>
    /// <param name="command">Command.</param>
    public static IReadOnlyList<string> RemarksOf(CommandInfo command) =>
        [.. Usage.Examples(command.Name).Split('\n').Where(line => line.Length > 0 && line[0] != ' ' && !line.StartsWith("Example", StringComparison.Ordinal))];

    // A meaning that is of some commands alone says so in front: "with --option: …" or "command: …".
    private static bool BelongsTo(string meaning, CommandInfo command)
    {
        int colon = meaning.IndexOf(": ", StringComparison.Ordinal);
        if (colon < 0)
            return true;
        string subject = meaning[..colon];
        return subject.StartsWith("with ", StringComparison.Ordinal)
            ? command.Options.Any(option => option.Name == subject["with ".Length..])
            : command.Name == subject;
    }
}
