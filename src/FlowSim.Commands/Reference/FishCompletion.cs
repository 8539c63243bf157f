using System.Text;

namespace FlowSim.Commands.Reference;

/// <summary>Completion for fish, 3.0 or later; commands and options come with their descriptions.</summary>
internal static class FishCompletion
{
    /// <summary>The script.</summary>
    /// <param name="program">The program.</param>
    public static string Script(CommandInfo program)
    {
        StringBuilder text = new("""
            # Completes flowsim in fish 3.0 or later. In ~/.config/fish/config.fish:  flowsim completion fish | source
            function __flowsim_at
                set -l words (commandline -opc)
                set -e words[1]
                string match -q -- "$argv *" "$words "
            end
            function __flowsim_begin
                test (count (commandline -opc)) -eq $argv[1]
            end
            complete -c flowsim -f

            """);
        text.Append("set -g __flowsim_settings ").Append(string.Join(' ', ShellCompletion.SettingKeys.Select(key => key + "="))).Append('\n');
        text.Append("set -g __flowsim_ranges ").Append(string.Join(' ', ShellCompletion.RangeKeys.Select(key => key + "="))).Append('\n');
        Level(text, program, "__flowsim_begin 1");
        foreach (OptionInfo option in program.Options)
            Line(text, "__flowsim_begin 1", option);
        foreach (CommandInfo group in program.Commands.Where(command => command.Commands.Count > 0))
            Level(text, group, $"__flowsim_begin 2; and __flowsim_at {group.Path}");
        foreach (CommandInfo command in program.Leaves)
        {
            string here = "__flowsim_at " + command.Path;
            foreach (OptionInfo option in command.Options)
                Line(text, here, option);
            if (command.Arguments.Count == 0)
                continue;
            text.Append("complete -c flowsim -n '").Append(here).Append("' ")
                .Append(command.Arguments[0] is { Words.Count: > 0 } one ? $"-a '{string.Join(' ', one.Words)}'" : "-F").Append('\n');
        }

        return text.ToString();
    }

    private static void Level(StringBuilder text, CommandInfo command, string when)
    {
        foreach (CommandInfo sub in command.Commands)
            text.Append("complete -c flowsim -n '").Append(when).Append("' -a ").Append(sub.Name).Append(" -d ").Append(Quoted(sub.Description)).Append('\n');
    }

    private static void Line(StringBuilder text, string when, OptionInfo option)
    {
        text.Append("complete -c flowsim -n '").Append(when).Append('\'');
        foreach (string name in option.Names)
            text.Append(name.StartsWith("--", StringComparison.Ordinal) ? " -l " : " -s ").Append(name.TrimStart('-'));
        text.Append(option.Hint switch
        {
            ValueHint.None => string.Empty,
            ValueHint.Word => $" -x -a '{string.Join(' ', option.Words)}'",
            ValueHint.File => " -r -F",
            ValueHint.Setting => " -x -a '$__flowsim_settings'",
            ValueHint.Range => " -x -a '$__flowsim_ranges'",
            _ => " -x",
        });
        text.Append(" -d ").Append(Quoted(option.Description)).Append('\n');
    }

    private static string Quoted(string text) => "'" + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("'", "\\'", StringComparison.Ordinal) + "'";
}
