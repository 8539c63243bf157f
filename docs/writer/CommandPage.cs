using System.Globalization;
using System.Text;
using FlowSim.Commands;
using FlowSim.Commands.Reference;

namespace FlowSim.Docs;

/// <summary>The reference of the commands as a Markdown page.</summary>
internal static class CommandPage
{
    /// <summary>The page.</summary>
    /// <param name="program">The program.</param>
    public static string Of(CommandInfo program)
    {
        StringBuilder text = new();
        text.Append("# Commands\n\n").Append(Markdown.Generated).Append(program.Description)
            .Append(" Each command reads a [file](file-format.md) or, without one, the built-in example, and prints an answer.\n\n")
            .Append("| command | answers |\n|---|---|\n");
        foreach (CommandInfo command in program.Leaves)
            text.Append(CultureInfo.InvariantCulture, $"| [`{command.Path}`](#{Anchor(command)}) | {Markdown.Cell(command.Description)} |\n");
        text.Append("\nQuantities in options are written as in a file: `\"95 F\"`, `25%`, `\"1 1/2 in\"`. An option may come before or after a file; `--option=value` does as well as `--option value`.\n");
        foreach (CommandInfo command in program.Leaves)
            Section(text, command);
        text.Append("\n## Exit codes\n\n| code | meaning |\n|---|---|\n");
        foreach ((int code, string meaning) in ExitCode.All)
            text.Append(CultureInfo.InvariantCulture, $"| {code} | {Markdown.Cell(meaning)} |\n");
        text.Append("""

            ## Completion in a shell

            `flowsim completion bash`, `zsh` or `fish` prints a script that completes commands, options, their words, the keys of `--set` and `--scan`, and file names.
            The script holds all of that itself, so nothing is started while you type.

            ```text
            source <(flowsim completion bash)        # in ~/.bashrc, bash 4.0 or later
            source <(flowsim completion zsh)         # in ~/.zshrc, after compinit
            flowsim completion fish | source         # in ~/.config/fish/config.fish
            ```

            The man page is [man/flowsim.1](man/flowsim.1): `man docs/man/flowsim.1`, or copy it to `~/.local/share/man/man1`.

            """);
        return text.ToString();
    }

    private static string Anchor(CommandInfo command) => "flowsim-" + command.Path.Replace(' ', '-');

    private static void Section(StringBuilder text, CommandInfo command)
    {
        text.Append(CultureInfo.InvariantCulture, $"\n## flowsim {command.Path}\n\n{command.Description}\n\n```text\n{command.Usage}\n```\n\n");
        if (command.Arguments.Count > 0)
        {
            text.Append("| argument | |\n|---|---|\n");
            foreach (ArgumentInfo argument in command.Arguments)
                text.Append(CultureInfo.InvariantCulture, $"| `{argument.Name}` | {Markdown.Cell(argument.Description)}{(argument.IsRequired ? " It must be given." : string.Empty)} |\n");
            text.Append('\n');
        }

        text.Append("| option | takes | default | |\n|---|---|---|---|\n");
        foreach (OptionInfo option in command.Options)
            text.Append(CultureInfo.InvariantCulture, $"| {string.Join(", ", option.Names.Select(name => $"`{name}`"))} | {Takes(option)} | {Default(option)} | {Markdown.Cell(option.Description)} |\n");
        string[] writing = [.. command.Options.Select(option => option.Name).Where(name => CommandFacts.Writing.Contains(name, StringComparer.Ordinal))];
        if (writing.Length > 0)
            text.Append(CultureInfo.InvariantCulture, $"\nFiles are written by {string.Join(", ", writing.Select(name => $"`{name}`"))}{(command.Options.Any(option => option.Name == "--force") ? "; one that exists is replaced only with `--force`" : string.Empty)}.\n");
        else
            text.Append(command.Name == "new" ? "\nIt writes `FILE`; one that exists is replaced only with `--force`.\n" : "\nIt writes no file.\n");
        text.Append(CultureInfo.InvariantCulture, $"\nExit codes: {string.Join(", ", CommandFacts.ExitCodesOf(command).Select(entry => entry.Code.ToString(CultureInfo.InvariantCulture)))} ([meanings](#exit-codes)).\n");
        if (CommandFacts.ExamplesOf(command) is { Count: > 0 } examples)
            text.Append("\n```text\n").AppendJoin('\n', examples).Append("\n```\n");
        foreach (string remark in CommandFacts.RemarksOf(command))
            text.Append('\n').Append(remark).Append('\n');
    }

    private static string Takes(OptionInfo option)
    {
        if (option.Hint == ValueHint.None)
            return string.Empty;
        string what = option.Words.Count > 0 ? string.Join(", ", option.Words.Select(word => $"`{word}`")) : $"`{Markdown.Cell(option.Value)}`";
        return option.Repeats ? what + ", repeats" : what;
    }

    private static string Default(OptionInfo option) => option.Default is { } word ? $"`{word}`" : string.Empty;
}
