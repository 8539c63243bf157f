using System.CommandLine;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <content>Staying beside a run that goes on.</content>
internal static partial class FlowSimCommand
{
    private static Command Watch(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string?> log = new("--log") { Description = "Table that readings and moves are kept in; one that is there is gone on with. \"flowsim fit\" reads it.", HelpName = "RUN.csv" };
        Option<string[]> set = Set();
        Option<string?> at = new("--at") { Description = "Tell how things stand this long after the opening, by what the log holds up to then, and end. Nothing is written.", HelpName = "TIME" };
        Option<bool> plain = new("--plain") { Description = "Lines in, lines out: nothing is drawn over." };
        Option<bool> noColour = new("--no-colour", "--no-color") { Description = "No colour; as with NO_COLOR set." };
        Option<bool> sound = new("--sound") { Description = "Ring the bell when something is due." };
        Option<bool> json = new("--json") { Description = "Print the last outlook as JSON, SI units, and nothing else; lines are read as with --plain." };
        Option<string> units = Units();
        Command command = new("watch", "Stay beside a run that goes on: keep readings, tell what to do next. Without FILE for the example.") { file, log, set, at, plain, noColour, sound, json, units };
        command.SetAction(parsed => WatchCommand.Run(
            new WatchRequest
            {
                File = parsed.GetValue(file),
                Log = parsed.GetValue(log),
                Settings = parsed.GetValue(set) ?? [],
                At = parsed.GetValue(at),
                Plain = parsed.GetValue(plain),
                NoColour = parsed.GetValue(noColour),
                Sound = parsed.GetValue(sound),
                Json = parsed.GetValue(json),
                Units = UnitsOf(parsed.GetValue(units)),
            },
            around,
            cancellation));
        return command;
    }
}
