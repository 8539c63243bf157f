using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Reflection;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Reference;

namespace FlowSim.Commands;

/// <summary>The whole program as a function of its arguments.</summary>
internal static class FlowSimCommand
{
    /// <summary>Runs the program.</summary>
    /// <param name="arguments">Arguments, without the program's name.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="cancellation">Ends a run.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static int Run(IReadOnlyList<string> arguments, Surroundings around, CancellationToken cancellation)
    {
        try
        {
            if (arguments.Count == 0)
                arguments = ["--help"];
            ParseResult parsed = Build(around, cancellation).Parse(arguments, new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (Usage.Report(parsed, arguments, around))
                return ExitCode.BadInput;

            return parsed.Invoke(new InvocationConfiguration
            {
                Output = around.Output,
                Error = around.Error,
                EnableDefaultExceptionHandler = false,
                ProcessTerminationTimeout = null,
            });
        }
        catch (BadInputException bad)
        {
            foreach (Problem problem in bad.Problems.All)
            {
                around.Wrong?.Add(problem);
                around.Error.Write(problem + "\n");
            }

            if (bad.Problems.Unlisted > 0)
                around.Error.Write(FormattableString.Invariant($"… and {bad.Problems.Unlisted} more\n"));
            return ExitCode.BadInput;
        }
        catch (FileTroubleException trouble)
        {
            around.Error.Write("flowsim: " + trouble.Message + "\n");
            return ExitCode.FileTrouble;
        }
        catch (RefusedHoneyException refused)
        {
            around.Error.Write(refused.Message + "\n");
            return ExitCode.HoneyRefused;
        }
        catch (OperationCanceledException)
        {
            around.Error.Write("flowsim: cancelled\n");
            return ExitCode.Cancelled;
        }
        catch (SimulationException failed)
        {
            around.Error.Write("flowsim: the computation failed: " + Printable.Of(failed.Message, 400) + "\n");
            return ExitCode.Unexpected;
        }
    }

    /// <summary>Version of the program.</summary>
    public static string Version =>
        (typeof(FlowSimCommand).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0").Split('+')[0];

    /// <summary>The commands as the parser knows them.</summary>
    /// <param name="around">Surroundings.</param>
    /// <param name="cancellation">Ends a run.</param>
    internal static RootCommand Build(Surroundings around, CancellationToken cancellation)
    {
        RootCommand root = new("How long honey takes to warm, to strain and to fill into jars, what the heat does to it, and whether the strainer runs over.");
        foreach (Option option in root.Options)
        {
            if (option is VersionOption version)
            {
                version.Action = new Act(_ => Say(around, Version + "\n"));
            }
            else if (option is HelpOption { Action: SynchronousCommandLineAction help })
            {
                option.Action = new Act(parsed =>
                {
                    // The parser calls this program by the name of the process, which is another where a library or a test is its host.
                    using StringWriter page = new() { NewLine = "\n" };
                    parsed.InvocationConfiguration.Output = page;
                    help.Invoke(parsed);
                    around.Output.Write(page.ToString().Replace($"\n  {root.Name} ", "\n  flowsim ", StringComparison.Ordinal));
                    return Say(around, Usage.Examples(parsed.CommandResult.Command.Name) + ExitCode.Help + "\n");
                });
            }
        }

        root.Add(Command("strain", "Run a tank through a strainer. Without FILE the example is run.", StrainRequest.Of, request => StrainCommand.Run(request, around, cancellation)));
        root.Add(Command("settle", "Let honey stand until bubbles and wax have risen. Without FILE the example is run.", SettleRequest.Of, request => SettleCommand.Run(request, around, cancellation)));
        root.Add(Command("risk", "Find how likely an overflow is, and what keeps it unlikely. Without FILE for the example.", RiskRequest.Of, request => RiskCommand.Run(request, around, cancellation)));
        root.Add(Command("warm", "Warm, hold or cool a vessel of honey. Without FILE the example is run.", WarmRequest.Of, request => WarmCommand.Run(request, around, cancellation)));
        root.Add(Command("setpoint", "Find how warm to set the heat, within limits. Without FILE for the example.", SetpointRequest.Of, request => SetpointCommand.Run(request, around, cancellation)));
        root.Add(Command("plan", "Plan a day: who warms, strains, fills and cleans what, when and with what. Without FILE for the example.", PlanRequest.Of, request => PlanCommand.Run(request, around, cancellation)));
        root.Add(Command("fit", "Learn honey and kit from timed runs of your own.", FitRequest.Of, request => FitCommand.Run(request, around, cancellation)));
        root.Add(Command("watch", "Stay beside a run that goes on: keep readings, tell what to do next. Without FILE for the example.", WatchRequest.Of, request => WatchCommand.Run(request, around, cancellation)));
        root.Add(Command("fill", "Fill jars from the bottling tank: how many, how much, how long, when to shut. Without FILE for the example.", FillRequest.Of, request => FillCommand.Run(request, around, cancellation)));
        root.Add(Command("yield", "Take a batch through all its steps: how long each takes, and where every kilogram is at the end. Without FILE for the example.", YieldRequest.Of, request => YieldCommand.Run(request, around, cancellation)));
        root.Add(Command("shelf", "Tell what published classes say of this honey on the shelf: fermentation, granulation. Without FILE for the example.", ShelfRequest.Of, request => ShelfCommand.Run(request, around)));
        root.Add(Command("honey", "Print the properties of one honey. Without FILE that of the example.", HoneyRequest.Of, request => HoneyCommand.Run(request, around)));
        root.Add(Measure(around));
        root.Add(Command("new", "Write the example file, every key explained, to start from.", NewRequest.Of, request => NewCommand.Run(request, around)));
        root.Add(Command("kit", "List what a file can name: vessels, gates, cloths, jars, shapes, ways of warming, limits, rules.", options => options.Units(), units => KitCommand.Run(units, around)));
        root.Add(Command("completion", "Print the script by which a shell completes commands, options, keys and file names.", options => options.OneOf("SHELL", ShellCompletion.Shells), shell => Say(around, ShellCompletion.For(shell, CommandInfo.Of(root)))));
        return root;
    }

    private static Command Measure(Surroundings around)
    {
        Command measure = new("measure", "Find viscosity, lot factor or moisture from a measurement of your own.");
        foreach (MeasureMethod method in MeasureMethod.All)
            measure.Add(Command(method.Name, method.Description, options => MeasureRequest.Of(method, options), request => MeasureCommand.Run(request, around)));
        return measure;
    }

    /// <summary>A command. Its request is made once to learn what the command takes, and then from every line.</summary>
    private static Command Command<T>(string name, string description, Func<CommandOptions, T> request, Func<T, int> run)
    {
        Command command = new(name, description);
        _ = request(CommandOptions.Declaring(command));
        command.SetAction(line => run(request(CommandOptions.From(line))));
        return command;
    }

    private static int Say(Surroundings around, string text)
    {
        around.Output.Write(text);
        return ExitCode.Done;
    }

    private sealed class Act(Func<ParseResult, int> run) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult) => run(parseResult);
    }
}
