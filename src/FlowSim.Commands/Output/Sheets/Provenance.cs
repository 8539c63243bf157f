using FlowSim.Commands.Input;
using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>What a sheet was made by, so that anybody can make it again: no path of this machine is in it.</summary>
/// <param name="Command">The command.</param>
/// <param name="Inputs">The inputs: what each is, and its text.</param>
internal sealed record Provenance(string Command, IReadOnlyList<(string Name, string Text)> Inputs)
{
    /// <summary>Longest input that is printed, characters; one that is longer is told of alone. Engineering choice: some ten pages.</summary>
    private const int LongestInput = 40_000;

    /// <summary>The program and its version.</summary>
    public string Colophon => $"Computed by flowsim {FlowSimCommand.Version}, from the input that stands above and what it assumes. The more of it you measure, the better the sheet.";

    /// <summary>The section that says how to make the sheet again.</summary>
    public IReadOnlyList<SheetBlock> Blocks =>
    [
        new ParagraphBlock($"The same command on the same input gives the same sheet (flowsim {FlowSimCommand.Version})."),
        new VerbatimBlock("Command", Command),
        .. Inputs.Select(input => input.Text.Length <= LongestInput
            ? (SheetBlock)new VerbatimBlock($"Input: {input.Name}, without its comments", input.Text)
            : new ParagraphBlock($"Input: {input.Name}, which is too long to be printed here.")),
    ];

    /// <summary>What a command on one input was made by.</summary>
    /// <param name="command">Name of the command.</param>
    /// <param name="file">Path of the input; null for the example.</param>
    /// <param name="loaded">The input.</param>
    /// <param name="options">Options with their values; null for one that was not given.</param>
    public static Provenance Of(string command, string? file, Loaded loaded, params IReadOnlyList<(string Option, string? Value)> options) =>
        Of([command, .. file is null ? (string[])[] : [NameOf(file)]], (NameOf(file), loaded), options);

    /// <summary>What a command was made by that takes more than one input.</summary>
    /// <param name="words">The command and its inputs by name.</param>
    /// <param name="batch">What the batch is called, and the batch.</param>
    /// <param name="options">Options with their values; null for one that was not given, an empty one for an option that takes none.</param>
    public static Provenance Of(IEnumerable<string> words, (string Name, Loaded Loaded) batch, params IReadOnlyList<(string Option, string? Value)> options) =>
        new(ShellWords.Line(["flowsim", .. words, .. ShellWords.Of(options)]), [(batch.Name, InputDigest.Of(batch.Loaded.Text))]);

    /// <summary>The name of an input without its folder, fit to print.</summary>
    /// <param name="path">Path as the user gave it; null for the example.</param>
    public static string NameOf(string? path) => path is null ? "the built-in example" : Printable.Of(Path.GetFileName(path), 70);
}
