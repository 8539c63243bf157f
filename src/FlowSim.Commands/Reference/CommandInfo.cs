using System.CommandLine;
using System.CommandLine.Completions;

namespace FlowSim.Commands.Reference;

/// <summary>A command as its documentation and a shell see it, read from the parser that runs it.</summary>
/// <param name="Path">Words that call it, without the program's name: "measure ball"; empty for the program.</param>
/// <param name="Description">What it answers.</param>
/// <param name="Arguments">Its arguments.</param>
/// <param name="Options">Its options, those of every command last.</param>
/// <param name="Commands">Commands below it.</param>
internal sealed record CommandInfo(
    string Path, string Description, IReadOnlyList<ArgumentInfo> Arguments, IReadOnlyList<OptionInfo> Options, IReadOnlyList<CommandInfo> Commands)
{
    private static readonly string[] s_fileNames = ["FILE", "RUN.csv", "DAY.toml"];

    /// <summary>Its own word.</summary>
    public string Name => Path.Split(' ')[^1];

    /// <summary>The line of usage, with the program's name.</summary>
    public string Usage => string.Join(
        ' ',
        new[] { Path.Length == 0 ? "flowsim" : "flowsim " + Path }
            .Concat(Commands.Count > 0 ? ["COMMAND"] : [])
            .Concat(Arguments.Select(argument => (argument.IsRequired ? argument.Name : $"[{argument.Name}]") + (argument.Repeats ? " …" : string.Empty)))
            .Append("[OPTIONS]"));

    /// <summary>It and all commands below it that do something, in the order of the help.</summary>
    public IEnumerable<CommandInfo> Leaves => Commands.Count == 0 ? [this] : Commands.SelectMany(command => command.Leaves);

    /// <summary>It and all commands below it, in the order of the help.</summary>
    public IEnumerable<CommandInfo> All => Commands.SelectMany(command => command.All).Prepend(this);

    /// <summary>Reads the whole program.</summary>
    /// <param name="root">The program.</param>
    public static CommandInfo Of(RootCommand root) => Of(root, string.Empty, [.. root.Options.Where(option => option.Recursive)]);

    private static CommandInfo Of(Command command, string path, IReadOnlyList<Option> ofAll) => new(
        path,
        command.Description ?? string.Empty,
        [.. command.Arguments.Select(Of)],
        [.. command.Options.Except(ofAll).Concat(ofAll).Select(Of)],
        [.. command.Subcommands.Select(sub => Of(sub, $"{path} {sub.Name}".Trim(), ofAll))]);

    private static ArgumentInfo Of(Argument argument) => new(
        argument.Name,
        argument.Description ?? string.Empty,
        argument.Arity.MinimumNumberOfValues > 0,
        argument.Arity.MaximumNumberOfValues > 1,
        s_fileNames.Contains(argument.Name, StringComparer.Ordinal),
        [.. WordsOf(argument)]);

    private static OptionInfo Of(Option option)
    {
        bool isSwitch = option.Arity.MaximumNumberOfValues == 0 || option.ValueType == typeof(bool);
        string[] words = isSwitch ? [] : [.. WordsOf(option)];
        string value = isSwitch ? string.Empty : option.HelpName ?? option.Name.TrimStart('-').ToUpperInvariant();
        return new OptionInfo(
            option.Name,
            [.. option.Aliases.Where(alias => alias.StartsWith('-') && alias != "-?").Order(StringComparer.Ordinal)],
            option.Description ?? string.Empty,
            value,
            isSwitch ? ValueHint.None : words.Length > 0 ? ValueHint.Word : HintOf(value),
            words,
            isSwitch || !option.HasDefaultValue ? null : option.GetDefaultValue() as string,
            option.Arity.MaximumNumberOfValues > 1);
    }

    private static ValueHint HintOf(string value) =>
        s_fileNames.Contains(value, StringComparer.Ordinal) ? ValueHint.File
        : value == CommandOptions.SettingForm ? ValueHint.Setting
        : value == CommandOptions.RangeForm ? ValueHint.Range
        : ValueHint.Text;

    private static IEnumerable<string> WordsOf(Symbol symbol) => symbol.GetCompletions(CompletionContext.Empty).Select(word => word.Label);
}
