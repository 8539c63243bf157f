using System.Text;

namespace FlowSim.Commands.Reference;

/// <summary>Completion for bash, 4.0 or later.</summary>
internal static class BashCompletion
{
    /// <summary>The script.</summary>
    /// <param name="program">The program.</param>
    public static string Script(CommandInfo program)
    {
        StringBuilder text = new("""
            # Completes flowsim in bash 4.0 or later. In ~/.bashrc:  source <(flowsim completion bash)
            _flowsim() {
                local line=${COMP_LINE:0:COMP_POINT} command current previous option
                local -a words
                read -ra words <<< "$line"
                case $line in *[[:space:]]) words+=('') ;; esac
                current=${words[-1]}
                previous=${words[-2]}
                COMPREPLY=()
                if [ "${#words[@]}" -le 2 ]; then

            """);
        text.Append("        _flowsim_words '").Append(Names(program)).Append("'\n        return\n    fi\n    command=${words[1]}\n    case $command in\n");
        foreach (CommandInfo group in program.Commands.Where(command => command.Commands.Count > 0))
        {
            text.Append("        ").Append(group.Path).Append(")\n")
                .Append("            if [ \"${#words[@]}\" -le 3 ]; then _flowsim_words '").Append(Names(group)).Append("'; return; fi\n")
                .Append("            command=\"$command ${words[2]}\" ;;\n");
        }

        text.Append("""
                esac
                option=$previous
                case $current in --*=*) option=${current%%=*}; current=${current#*=} ;; esac
                current=${current#[\"\']}
                case $command/$option in

            """);
        foreach (IReadOnlyList<string> words in ShellCompletion.WordLists(program))
            Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Word && option.Words.SequenceEqual(words, StringComparer.Ordinal)), $"_flowsim_words '{string.Join(' ', words)}'");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Setting), "_flowsim_keys \"$_flowsim_settings\"");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Range), "_flowsim_keys \"$_flowsim_ranges\"");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.File), "_flowsim_files");
        Case(text, ShellCompletion.Pattern(program, option => option.Hint == ValueHint.Text), ":");
        text.Append("""
                esac
                case $command in

            """);
        foreach (CommandInfo command in program.Leaves)
        {
            string options = string.Join(' ', command.Options.SelectMany(option => option.Names));
            string rest = command.Arguments.Count == 0 ? ":" : command.Arguments[0] is { Words.Count: > 0 } one ? $"_flowsim_words '{string.Join(' ', one.Words)}'" : "_flowsim_files";
            text.Append("        '").Append(command.Path).Append("') case $current in -*) _flowsim_words '").Append(options).Append("' ;; *) ").Append(rest).Append(" ;; esac ;;\n");
        }

        text.Append("""
                esac
            }
            _flowsim_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$current"); }
            _flowsim_files() { compopt -o filenames 2> /dev/null; mapfile -t COMPREPLY < <(compgen -f -- "$current"); }
            _flowsim_keys() {
                case $current in *=*) return ;; esac
                compopt -o nospace 2> /dev/null
                mapfile -t COMPREPLY < <(compgen -S = -W "$1" -- "$current")
            }

            """);
        text.Append("_flowsim_settings='").Append(string.Join(' ', ShellCompletion.SettingKeys)).Append("'\n");
        text.Append("_flowsim_ranges='").Append(string.Join(' ', ShellCompletion.RangeKeys)).Append("'\n");
        return text.Append("complete -F _flowsim flowsim\n").ToString();
    }

    private static string Names(CommandInfo command) =>
        string.Join(' ', command.Commands.Select(sub => sub.Name).Concat(command.Options.SelectMany(option => option.Names)));

    private static void Case(StringBuilder text, string? pattern, string action)
    {
        if (pattern is not null)
            text.Append("        ").Append(pattern).Append(") ").Append(action).Append("; return ;;\n");
    }
}
