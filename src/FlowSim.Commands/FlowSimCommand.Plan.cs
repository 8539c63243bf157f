using System.CommandLine;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Planning;

namespace FlowSim.Commands;

internal static partial class FlowSimCommand
{
    private static Command Plan(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = new("DAY.toml") { Description = "TOML file of the day; \"flowsim new --day FILE\" writes one.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> pace = new("--pace") { Description = "Times that the plan counts with, in place of day.pace.", HelpName = "quick|likely|slow" };
        pace.AcceptOnlyFromAmong(Words.All<Pace>());
        Option<bool> json = Json();
        Option<string?> csv = FileOption("--csv", "Write the lines of the plan to FILE.");
        Option<string?> plot = FileOption("--plot", "Draw who and what is at work when to FILE, .png or .svg.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Command command = new("plan", "Plan a day: who warms, strains, fills and cleans what, when and with what. Without FILE for the example.") { file, pace, json, csv, plot, report, units, force, quiet };
        command.SetAction(parsed => PlanCommand.Run(
            new PlanRequest
            {
                File = parsed.GetValue(file),
                Pace = parsed.GetValue(pace) is { } word ? Words.Value<Pace>(word) : null,
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
}
