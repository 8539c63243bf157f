using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Reflection;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Properties;

namespace FlowSim.Commands;

/// <summary>The whole program as a function of its arguments.</summary>
internal static partial class FlowSimCommand
{
    /// <summary>What <c>--set</c> takes, as the help writes it.</summary>
    internal const string SettingForm = "section.key=value";

    /// <summary>What <c>--scan</c> takes, as the help writes it.</summary>
    internal const string RangeForm = "section.key=from..to:n";

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
                    help.Invoke(parsed);
                    return Say(around, Usage.Examples(parsed.CommandResult.Command.Name) + ExitCode.Help + "\n");
                });
            }
        }

        root.Add(Strain(around, cancellation));
        root.Add(Settle(around, cancellation));
        root.Add(Risk(around, cancellation));
        root.Add(Warm(around, cancellation));
        root.Add(Setpoint(around, cancellation));
        root.Add(Plan(around, cancellation));
        root.Add(Fit(around, cancellation));
        root.Add(Watch(around, cancellation));
        root.Add(Fill(around, cancellation));
        root.Add(Yield(around, cancellation));
        root.Add(Shelf(around));
        root.Add(HoneyProperties(around));
        root.Add(Measure(around));
        root.Add(New(around));
        root.Add(Kit(around));
        root.Add(Completion(around));
        return root;
    }

    private static Command Strain(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<string[]> scan = Scan();
        Option<bool> json = Json();
        Option<string?> csv = Csv();
        Option<string?> plot = FileOption("--plot", "Write a figure to FILE, .png or .svg.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Option<bool> fail = new("--fail-on-overflow") { Description = "Return 10 when the strainer or the receiver runs over." };
        Command command = new("strain", "Run a tank through a strainer. Without FILE the example is run.") { file, set, scan, json, csv, plot, report, units, force, quiet, fail };
        command.SetAction(parsed => StrainCommand.Run(
            new StrainRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Scans = parsed.GetValue(scan) ?? [],
                Json = parsed.GetValue(json),
                Csv = parsed.GetValue(csv),
                Plot = parsed.GetValue(plot),
                Report = parsed.GetValue(report),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
                Quiet = parsed.GetValue(quiet),
                FailOnOverflow = parsed.GetValue(fail),
            },
            around,
            cancellation));
        return command;
    }

    private static Command Settle(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<string[]> scan = Scan();
        Option<bool> json = Json();
        Option<string?> csv = Csv();
        Option<string?> plot = FileOption("--plot", "Draw what is left over time and depth to FILE, .png or .svg.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Command command = new("settle", "Let honey stand until bubbles and wax have risen. Without FILE the example is run.") { file, set, scan, json, csv, plot, report, units, force, quiet };
        command.SetAction(parsed => SettleCommand.Run(
            new SettleRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Scans = parsed.GetValue(scan) ?? [],
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

    private static Command Risk(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<string[]> scan = Scan();
        Option<string?> tolerance = Setting("--tolerance", Keys.Risk.Tolerance, "SHARE", "Chance of an overflow that is put up with");
        Option<string?> runs = Setting("--runs", Keys.Risk.Runs, "auto|N", "Runs for the chances");
        Option<string?> seed = Setting("--seed", Keys.Risk.Seed, "N", "Number that the draws come from");
        Option<string?> threads = new("--threads") { Description = "Threads at work; the answer does not depend on it.", HelpName = "N" };
        Option<bool> json = Json();
        Option<string?> csv = FileOption("--csv", "Write chance and pond over time to FILE, SI units.");
        Option<string?> plot = FileOption("--plot", "Draw pond, chance over time and drivers to FILE, .png or .svg.");
        Option<string?> map = FileOption("--map", "Draw the chance over openings and temperatures to FILE.");
        Option<string?> times = FileOption("--times", "Draw the time to strain over temperatures to FILE.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Option<bool> fail = new("--fail-above") { Description = "Return 13 when the chance is above the tolerance." };
        Command command = new("risk", "Find how likely an overflow is, and what keeps it unlikely. Without FILE for the example.") { file, set, scan, tolerance, runs, seed, threads, json, csv, plot, map, times, report, units, force, quiet, fail };
        command.SetAction(parsed => RiskCommand.Run(
            new RiskRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Scans = parsed.GetValue(scan) ?? [],
                Tolerance = parsed.GetValue(tolerance),
                Runs = parsed.GetValue(runs),
                Seed = parsed.GetValue(seed),
                Threads = parsed.GetValue(threads),
                Json = parsed.GetValue(json),
                Csv = parsed.GetValue(csv),
                Plot = parsed.GetValue(plot),
                Map = parsed.GetValue(map),
                Times = parsed.GetValue(times),
                Report = parsed.GetValue(report),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
                Quiet = parsed.GetValue(quiet),
                FailAbove = parsed.GetValue(fail),
            },
            around,
            cancellation));
        return command;
    }

    private static Command Warm(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<string[]> scan = Scan();
        Option<bool> json = Json();
        Option<string?> csv = Csv();
        Option<string?> plot = FileOption("--plot", "Draw temperatures and heater over time to FILE, .png or .svg.");
        Option<string?> map = FileOption("--map", "Draw maps of the vessel to FILE.");
        Option<string?> damage = FileOption("--damage", "Draw what the heat costs, against the limit, to FILE.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Option<bool> fail = new("--fail-on-miss") { Description = "Return 11 when the targets are not reached." };
        Command command = new("warm", "Warm, hold or cool a vessel of honey. Without FILE the example is run.") { file, set, scan, json, csv, plot, map, damage, report, units, force, quiet, fail };
        command.SetAction(parsed => WarmCommand.Run(
            new WarmRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Scans = parsed.GetValue(scan) ?? [],
                Json = parsed.GetValue(json),
                Csv = parsed.GetValue(csv),
                Plot = parsed.GetValue(plot),
                Map = parsed.GetValue(map),
                Damage = parsed.GetValue(damage),
                Report = parsed.GetValue(report),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
                Quiet = parsed.GetValue(quiet),
                FailOnMiss = parsed.GetValue(fail),
            },
            around,
            cancellation));
        return command;
    }

    private static Command Setpoint(Surroundings around, CancellationToken cancellation)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<string?> ceiling = Setting("--ceiling", Keys.Limits.Ceiling, "TEMPERATURE", "Highest setpoint and hottest honey");
        Option<bool> json = Json();
        Option<string?> plot = FileOption("--plot", "Draw damage against time over the setpoints to FILE, .png or .svg.");
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Command command = new("setpoint", "Find how warm to set the heat, within limits. Without FILE for the example.") { file, set, ceiling, json, plot, report, units, force, quiet };
        command.SetAction(parsed => SetpointCommand.Run(
            new SetpointRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Ceiling = parsed.GetValue(ceiling),
                Json = parsed.GetValue(json),
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

    private static Command Fit(Surroundings around, CancellationToken cancellation)
    {
        Argument<string[]> runs = new("RUN.csv") { Description = "Tables of timed readings, one for each run.", Arity = ArgumentArity.ZeroOrMore };
        Option<string?> batch = new("--batch") { Description = "TOML file of the kit and the honey that were run.", HelpName = "FILE" };
        Option<string[]> viscosities = new("--viscosity")
        {
            Description = "A viscosity of this honey measured by itself, as \"35 °C, 2.6 Pa.s x/ 1.06\". May be repeated.",
            HelpName = "MEASURED",
            Arity = ArgumentArity.OneOrMore,
            AllowMultipleArgumentsPerToken = false,
        };
        Option<string[]> set = Set();
        Option<bool> save = new("--save") { Description = "Put what was learnt into the batch, as its [calibration]." };
        Option<string?> saveAs = FileOption("--save-as", "Write a copy of the batch with what was learnt to FILE.");
        Option<string?> csv = FileOption("--csv", "Write every reading beside its fit to FILE, SI units.");
        Option<string?> plot = FileOption("--plot", "Draw the readings beside their fit to FILE, .png or .svg.");
        Option<string?> seed = Setting("--seed", Keys.Risk.Seed, "N", "Number that the draws come from");
        Option<bool> noSampler = new("--no-sampler") { Description = "Leave out the sampler that checks the intervals: much faster." };
        Option<bool> json = Json();
        Option<string?> report = Report();
        Option<string> units = Units();
        Option<bool> force = Force();
        Option<bool> quiet = Quiet();
        Command command = new("fit", "Learn honey and kit from timed runs of your own.") { runs, batch, viscosities, set, save, saveAs, csv, plot, seed, noSampler, json, report, units, force, quiet };
        command.SetAction(parsed => FitCommand.Run(
            new FitRequest
            {
                Runs = parsed.GetValue(runs) ?? [],
                Batch = parsed.GetValue(batch),
                Viscosities = parsed.GetValue(viscosities) ?? [],
                Settings = parsed.GetValue(set) ?? [],
                Save = parsed.GetValue(save),
                SaveAs = parsed.GetValue(saveAs),
                Csv = parsed.GetValue(csv),
                Plot = parsed.GetValue(plot),
                Seed = parsed.GetValue(seed),
                NoSampler = parsed.GetValue(noSampler),
                Json = parsed.GetValue(json),
                Report = parsed.GetValue(report),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
                Quiet = parsed.GetValue(quiet),
            },
            around,
            cancellation));
        return command;
    }

    private static Command HoneyProperties(Surroundings around)
    {
        Argument<string?> file = File();
        Option<string[]> set = Set();
        Option<bool> json = Json();
        Option<bool> table = new("--table") { Description = "Print one property over moisture and temperature." };
        Option<string> property = new("--property") { Description = "Property of the table.", DefaultValueFactory = _ => Words.Of(HoneyProperty.Viscosity), HelpName = "NAME" };
        property.AcceptOnlyFromAmong(Words.All<HoneyProperty>());
        Option<string?> plot = FileOption("--plot", "Write the viscosity curves to FILE, .png or .svg.");
        Option<string> units = Units();
        Option<bool> force = Force();
        Command command = new("honey", "Print the properties of one honey. Without FILE that of the example.") { file, set, json, table, property, plot, units, force };
        command.SetAction(parsed => HoneyCommand.Run(
            new HoneyRequest
            {
                File = parsed.GetValue(file),
                Settings = parsed.GetValue(set) ?? [],
                Json = parsed.GetValue(json),
                Table = parsed.GetValue(table),
                Property = Words.Value<HoneyProperty>(parsed.GetValue(property)!),
                Plot = parsed.GetValue(plot),
                Units = UnitsOf(parsed.GetValue(units)),
                Force = parsed.GetValue(force),
            },
            around));
        return command;
    }

    private static Command New(Surroundings around)
    {
        Argument<string> file = new("FILE") { Description = "File to write." };
        Option<bool> force = Force();
        Option<bool> day = new("--day") { Description = "Write the example of a day, for flowsim plan." };
        Command command = new("new", "Write the example file, every key explained, to start from.") { file, day, force };
        command.SetAction(parsed => NewCommand.Run(parsed.GetValue(file)!, parsed.GetValue(day), parsed.GetValue(force), around));
        return command;
    }

    private static Command Kit(Surroundings around)
    {
        Option<string> units = Units();
        Command command = new("kit", "List what a file can name: vessels, gates, cloths, jars, shapes, ways of warming, limits, rules.") { units };
        command.SetAction(parsed => KitCommand.Run(UnitsOf(parsed.GetValue(units)), around));
        return command;
    }

    private static Argument<string?> File() =>
        new("FILE") { Description = "TOML file; \"flowsim new FILE\" writes one.", Arity = ArgumentArity.ZeroOrOne };

    private static Option<string[]> Set() => new("--set")
    {
        Description = "Set one key, as in --set \"honey.temperature=40 °C\". May be repeated.",
        HelpName = SettingForm,
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
    };

    private static Option<string[]> Scan() => new("--scan")
    {
        Description = "Run with one value after the other, as in --scan gate.opening=10%..60%:11. Twice for a grid.",
        HelpName = RangeForm,
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
    };

    /// <summary>An option that sets one key.</summary>
    private static Option<string?> Setting(string name, Key key, string value, string description) =>
        new(name) { Description = $"{description}; the same as --set {key}=…", HelpName = value };

    private static Option<string> Units()
    {
        Option<string> units = new("--units") { Description = "Units of the text: metric or us (°F, gal, lb, in).", DefaultValueFactory = _ => "metric", HelpName = "metric|us" };
        units.AcceptOnlyFromAmong(Words.All<UnitChoice>());
        return units;
    }

    private static Option<bool> Json() => new("--json") { Description = "Print JSON, SI units, and nothing else." };

    private static Option<string?> Csv() => FileOption("--csv", "Write the run over time to FILE, SI units.");

    private static Option<string?> Report() => FileOption(Asked.ReportOption, "Write a run sheet to FILE, one .html page to read, print and hang up.");

    private static Option<string?> FileOption(string name, string description) => new(name) { Description = description, HelpName = "FILE" };

    private static Option<bool> Quiet() => new("--quiet", "-q") { Description = "Print the result and what to do next, nothing else." };

    private static Option<bool> Force() => new("--force") { Description = "Replace files that exist." };

    private static UnitChoice UnitsOf(string? word) => Words.Value<UnitChoice>(word!);

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
