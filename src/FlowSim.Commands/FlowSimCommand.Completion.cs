using System.CommandLine;
using FlowSim.Commands.Output;
using FlowSim.Commands.Reference;

namespace FlowSim.Commands;

/// <content>The script by which a shell completes a line.</content>
internal static partial class FlowSimCommand
{
    private static Command Completion(Surroundings around)
    {
        Argument<string> shell = new("SHELL") { Description = string.Join(", ", ShellCompletion.Shells) + "." };
        shell.AcceptOnlyFromAmong([.. ShellCompletion.Shells]);
        Command command = new("completion", "Print the script by which a shell completes commands, options, keys and file names.") { shell };
        command.SetAction(parsed => Say(around, ShellCompletion.For(parsed.GetValue(shell)!, CommandInfo.Of((RootCommand)parsed.RootCommandResult.Command))));
        return command;
    }
}
