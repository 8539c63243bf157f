using System.Text;

namespace FlowSim.Commands.Reference;

/// <summary>Completion for zsh; commands and options come with their descriptions.</summary>
internal static class ZshCompletion
{
    /// <summary>The script.</summary>
    /// <param name="program">The program.</param>
    public static string Script(CommandInfo program)
    {
        StringBuilder text = new("""
            #compdef flowsim
            # Completes flowsim in zsh. In ~/.zshrc, after compinit:  source <(flowsim completion zsh)
            _flowsim() {
                local command=${words[2]} current=${words[CURRENT]} option=${words[CURRENT-1]}
                local -a items

            """);
        Level(text, program, 2, "    ");
        text.Append("    case $command in\n");
        foreach (CommandInfo group in program.Commands.Where(command => command.Commands.Count > 0))
        {
            text.Append("        ").Append(group.Path).Append(")\n");
            Level(text, group, 3, "            ");
            text.Append("            command=\"$command ${words[3]}\" ;;\n");
        }

        text.Append("""
                esac
                if [[ $current == --*=* ]]; then option=${current%%=*}; compset -P '*='; fi
                case $command/$option in

            """);
        foreach (IReadOnlyList<string> words in ShellCompletion.WordLists(program))
            Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Word && option.Words.SequenceEqual(words, StringComparer.Ordinal)), $"compadd -- {string.Join(' ', words)}");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Setting), "compadd -S = -- $_flowsim_settings");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Range), "compadd -S = -- $_flowsim_ranges");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.File), "_files");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Text), "_message value");
        text.Append("    esac\n    if [[ $current == -* ]]; then\n        case $command in\n");
        foreach (CommandInfo command in program.Leaves)
            text.Append("            '").Append(command.Path).Append("') items=(").Append(Options(command)).Append(") ;;\n");
        text.Append("        esac\n        _describe -o option items\n        return\n    fi\n    case $command in\n");
        foreach (CommandInfo command in program.Leaves.Where(command => command.Arguments.Count > 0))
            text.Append("        '").Append(command.Path).Append("') ").Append(command.Arguments[0] is { Words.Count: > 0 } one ? "compadd -- " + string.Join(' ', one.Words) : "_files").Append(" ;;\n");
        text.Append("    esac\n}\n");
        text.Append("typeset -ga _flowsim_settings=(").Append(string.Join(' ', ShellCompletion.SettingKeys)).Append(")\n");
        text.Append("typeset -ga _flowsim_ranges=(").Append(string.Join(' ', ShellCompletion.RangeKeys)).Append(")\n");
        return text.Append("(( $+functions[compdef] )) && compdef _flowsim flowsim\n").ToString();
    }

    private static void Level(StringBuilder text, CommandInfo command, int word, string indent) => text
        .Append(indent).Append("if (( CURRENT == ").Append(word.ToString(System.Globalization.CultureInfo.InvariantCulture)).Append(" )); then\n")
        .Append(indent).Append("    items=(").Append(string.Join(' ', command.Commands.Select(sub => Item(sub.Name, sub.Description)))).Append(' ').Append(Options(command)).Append(")\n")
        .Append(indent).Append("    _describe command items\n")
        .Append(indent).Append("    return\n")
        .Append(indent).Append("fi\n");

    private static string Options(CommandInfo command) =>
        string.Join(' ', command.Options.SelectMany(option => option.Names.Select(name => Item(name, option.Description))));

    private static string Item(string word, string description) =>
        "'" + word + ":" + description.Replace("'", "'\\''", StringComparison.Ordinal) + "'";

    private static void Case(StringBuilder text, string? pattern, string action)
    {
        if (pattern is not null)
            text.Append("        ").Append(pattern).Append(") ").Append(action).Append("; return ;;\n");
    }
}
