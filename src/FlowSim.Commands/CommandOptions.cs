using System.CommandLine;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>
/// What a command takes, each named once, where its request reads it: while the command is built the naming adds it to the command and gives nothing, and for a line it gives what stands there.
/// A request must therefore name the same whatever it is given.
/// </summary>
internal sealed class CommandOptions
{
    /// <summary>What <c>--set</c> takes, as the help writes it.</summary>
    internal const string SettingForm = "section.key=value";

    /// <summary>What <c>--scan</c> takes, as the help writes it.</summary>
    internal const string RangeForm = "section.key=from..to:n";

    private readonly Command? _command;
    private readonly ParseResult? _line;

    private CommandOptions(Command? command, ParseResult? line) => (_command, _line) = (command, line);

    /// <summary>Adds what is named to a command.</summary>
    /// <param name="command">Command.</param>
    public static CommandOptions Declaring(Command command) => new(command, line: null);

    /// <summary>Reads what is named from a line.</summary>
    /// <param name="line">Line, without errors.</param>
    public static CommandOptions From(ParseResult line) => new(command: null, line);

    /// <summary>The batch, or another file that may be left out.</summary>
    /// <param name="name">Name in the help.</param>
    /// <param name="description">What it is.</param>
    public string? File(string name = "FILE", string description = "TOML file; \"flowsim new FILE\" writes one.") =>
        Given(new Argument<string?>(name) { Description = description, Arity = ArgumentArity.ZeroOrOne });

    /// <summary>Any number of files.</summary>
    /// <param name="name">Name in the help.</param>
    /// <param name="description">What they are.</param>
    public IReadOnlyList<string> Files(string name, string description) =>
        Given(new Argument<string[]>(name) { Description = description, Arity = ArgumentArity.ZeroOrMore }) ?? [];

    /// <summary>A file that must be named.</summary>
    /// <param name="name">Name in the help.</param>
    /// <param name="description">What it is.</param>
    public string Needed(string name, string description) => Given(new Argument<string>(name) { Description = description }) ?? string.Empty;

    /// <summary>One of some words, which must be given.</summary>
    /// <param name="name">Name in the help.</param>
    /// <param name="words">Words.</param>
    public string OneOf(string name, IReadOnlyCollection<string> words)
    {
        Argument<string> argument = new(name) { Description = string.Join(", ", words) + "." };
        argument.AcceptOnlyFromAmong([.. words]);
        return Given(argument) ?? string.Empty;
    }

    /// <summary>Keys to set.</summary>
    public IReadOnlyList<string> Settings() => Repeated("--set", SettingForm, "Set one key, as in --set \"honey.temperature=40 °C\". May be repeated.");

    /// <summary>Keys to run through.</summary>
    public IReadOnlyList<string> Scans() => Repeated("--scan", RangeForm, "Run with one value after the other, as in --scan gate.opening=10%..60%:11. Twice for a grid.");

    /// <summary>An option that may be repeated.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Name of its value in the help.</param>
    /// <param name="description">What it does.</param>
    /// <param name="words">What a shell proposes; null for nothing.</param>
    public IReadOnlyList<string> Repeated(string name, string value, string description, IReadOnlyCollection<string>? words = null)
    {
        Option<string[]> option = new(name) { Description = description, HelpName = value, Arity = ArgumentArity.OneOrMore, AllowMultipleArgumentsPerToken = false };
        if (words is { Count: > 0 })
            option.CompletionSources.Add([.. words]);
        return Given(option) ?? [];
    }

    /// <summary>An option with a text.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Name of its value in the help.</param>
    /// <param name="description">What it does.</param>
    public string? Text(string name, string value, string description) => Given(new Option<string?>(name) { Description = description, HelpName = value });

    /// <summary>An option that sets one key.</summary>
    /// <param name="name">Name.</param>
    /// <param name="key">Key.</param>
    /// <param name="value">Name of its value in the help.</param>
    /// <param name="description">What it does, without a stop.</param>
    public string? Setting(string name, Key key, string value, string description) => Text(name, value, $"{description}; the same as --set {key}=…");

    /// <summary>An option with one of the words of a kind.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Name of its value in the help.</param>
    /// <param name="description">What it does.</param>
    public T? Word<T>(string name, string value, string description)
        where T : struct, Enum
    {
        Option<string?> option = new(name) { Description = description, HelpName = value };
        option.AcceptOnlyFromAmong(Words.All<T>());
        return Given(option) is { } word ? Words.Value<T>(word) : null;
    }

    /// <summary>An option with one of the words of a kind, or what stands for none.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Name of its value in the help.</param>
    /// <param name="description">What it does.</param>
    /// <param name="otherwise">What holds without it.</param>
    public T Word<T>(string name, string value, string description, T otherwise)
        where T : struct, Enum
    {
        Option<string> option = new(name) { Description = description, HelpName = value, DefaultValueFactory = _ => Words.Of(otherwise) };
        option.AcceptOnlyFromAmong(Words.All<T>());
        return Given(option) is { } word ? Words.Value<T>(word) : otherwise;
    }

    /// <summary>An option without a value.</summary>
    /// <param name="name">Name.</param>
    /// <param name="description">What it does.</param>
    /// <param name="others">Its other names.</param>
    public bool Flag(string name, string description, params string[] others) => Given(new Option<bool>(name, others) { Description = description });

    /// <summary>An option with a file to write.</summary>
    /// <param name="name">Name.</param>
    /// <param name="description">What is written.</param>
    public string? Output(string name, string description) => Text(name, "FILE", description);

    /// <summary>A run over time as a table.</summary>
    public string? Csv() => Output("--csv", "Write the run over time to FILE, SI units.");

    /// <summary>A run sheet.</summary>
    public string? Report() => Output(Asked.ReportOption, "Write a run sheet to FILE, one .html page to read, print and hang up.");

    /// <summary>JSON in place of text.</summary>
    /// <param name="description">What it does.</param>
    public bool Json(string description = "Print JSON, SI units, and nothing else.") => Flag("--json", description);

    /// <summary>Units of the text.</summary>
    public UnitChoice Units() => Word("--units", "metric|us", "Units of the text: metric or us (°F, gal, lb, in).", UnitChoice.Metric);

    /// <summary>Whether files are replaced.</summary>
    public bool Force() => Flag("--force", "Replace files that exist.");

    /// <summary>Whether only the result is told.</summary>
    public bool Quiet() => Flag("--quiet", "Print the result and what to do next, nothing else.", "-q");

    private T? Given<T>(Option<T> option)
    {
        _command?.Add(option);
        return _line is null ? default : _line.GetValue<T>(option.Name);
    }

    private T? Given<T>(Argument<T> argument)
    {
        _command?.Add(argument);
        return _line is null ? default : _line.GetValue<T>(argument.Name);
    }
}
