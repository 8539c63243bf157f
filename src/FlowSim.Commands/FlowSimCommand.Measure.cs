using System.CommandLine;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

internal static partial class FlowSimCommand
{
    private static Command Measure(Surroundings around)
    {
        Command command = new("measure", "Find viscosity, lot factor or moisture from a measurement of your own.");
        foreach (MeasureMethod method in MeasureMethod.All)
            command.Add(Measure(method, around));
        return command;
    }

    private static Command Measure(MeasureMethod method, Surroundings around)
    {
        Option<string[]>[] options =
        [
            .. method.Options.Select(option => new Option<string[]>(option.Name)
            {
                Description = option.Meaning,
                HelpName = option.Value,
                Arity = ArgumentArity.OneOrMore,
                AllowMultipleArgumentsPerToken = false,
            }),
        ];
        Option<string?> batch = new(MeasuredHoney.Batch) { Description = "TOML file whose honey, gate and tank are taken.", HelpName = "FILE" };
        Option<bool> compensated = new(RefractometerReader.Compensated) { Description = "The instrument corrects for its temperature itself." };
        Option<bool> json = Json();
        Option<string> units = Units();
        Command command = new(method.Name, method.Description);
        foreach ((Option<string[]> option, MeasureOption said) in options.Zip(method.Options))
        {
            if (said.Words.Count > 0)
                option.CompletionSources.Add([.. said.Words]);
            command.Add(option);
        }

        command.Add(batch);
        if (method == MeasureMethod.Refractometer)
            command.Add(compensated);
        command.Add(json);
        command.Add(units);
        command.SetAction(parsed => MeasureCommand.Run(
            new MeasureRequest
            {
                Method = method,
                Options = options.ToDictionary(option => option.Name, option => (IReadOnlyList<string>)(parsed.GetValue(option) ?? []), StringComparer.Ordinal),
                Batch = parsed.GetValue(batch),
                Compensated = method == MeasureMethod.Refractometer && parsed.GetValue(compensated),
                Json = parsed.GetValue(json),
                Units = UnitsOf(parsed.GetValue(units)),
            },
            around));
        return command;
    }
}
