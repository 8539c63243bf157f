using System.CommandLine;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

internal static partial class FlowSimCommand
{
    private static Command Fill(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<bool> json = Json();
        Option<string?> csv = FileOption("--csv", "Write the run jar by jar to FILE, SI units.");
        Option<string?> plot = FileOption("--plot", "Draw fill times and level over the jars to FILE, .png or .svg.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Command command = new("fill", "Fill jars from the bottling tank: how many, how much, how long, when to shut. Without FILE for the example.") { file, set, json, csv, plot, report, units, force, quiet };
        command.SetAction(parsed => FillCommand.Run(
            new FillRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Json = parsed.GetValue(json),
                Csv = parsed.GetValue(csv),
                Plot = parsed.GetValue(plot),
                Report = parsed.GetValue(report),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
                Quiet = parsed.GetValue(quiet),
            },
            around,
            cancellation));
        return command;
    }

    private static Command Shelf(Surroundings around)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<bool> json = Json();
        Option<string> units = Units();
        Option<bool> quiet = Quiet();
        Command command = new("shelf", "Tell what published classes say of this honey on the shelf: fermentation, granulation. Without FILE for the example.") { file, set, json, units, quiet };
        command.SetAction(parsed => ShelfCommand.Run(
            new ShelfRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Json = parsed.GetValue(json),
                Units = UnitsOf(parsed.GetValue(units)),
                Quiet = parsed.GetValue(quiet),
            },
            around));
        return command;
    }
}
