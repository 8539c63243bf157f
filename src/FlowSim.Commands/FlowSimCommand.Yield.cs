using System.CommandLine;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

internal static partial class FlowSimCommand
{
    private static Command Yield(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<bool> json = Json();
        Option<string> units = Units();
        Option<bool> quiet = Quiet();
        Command command = new("yield", "Take a batch through all its steps: how long each takes, and where every kilogram is at the end. Without FILE for the example.") { file, set, json, units, quiet };
        command.SetAction(parsed => YieldCommand.Run(
            new YieldRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Json = parsed.GetValue(json),
                Units = UnitsOf(parsed.GetValue(units)),
                Quiet = parsed.GetValue(quiet),
            },
            around,
            cancellation));
        return command;
    }
}
