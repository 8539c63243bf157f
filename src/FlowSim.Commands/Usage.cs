using System.CommandLine;
using System.CommandLine.Parsing;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands;

/// <summary>What is said of wrong usage, and the examples in the help.</summary>
internal static class Usage
{
    /// <summary>Reports wrong usage.</summary>
    /// <param name="parsed">Arguments as parsed.</param>
    /// <param name="arguments">Arguments as given.</param>
    /// <param name="around">Surroundings.</param>
    /// <returns>Whether there was any.</returns>
    public static bool Report(ParseResult parsed, IReadOnlyList<string> arguments, Surroundings around)
    {
        Command command = parsed.CommandResult.Command;
        string[] options = [.. OptionsOf(parsed.CommandResult)];
        string[] strange = [.. StrangeOptions(parsed, arguments, options)];
        foreach (string option in strange)
            Say(around, $"{Printable.Of(option)} is not an option of {(command is RootCommand ? "flowsim" : command.Name)}; nearest: {Spelling.Nearest(option, options)}");

        bool wrong = strange.Length > 0;
        if (!wrong && parsed.Errors.Count > 0 && parsed.Action is System.CommandLine.Invocation.ParseErrorAction)
        {
            wrong = true;
            if (command.Subcommands.Count > 0 && parsed.UnmatchedTokens.Count > 0)
                ReportStrangeCommand(command, parsed.UnmatchedTokens[0], around);
            else if (command.Subcommands.Count > 0 && parsed.UnmatchedTokens.Count == 0)
                Say(around, $"{(command is RootCommand ? "a command is missing" : command.Name + " needs a word more")}; known: {string.Join(", ", command.Subcommands.Select(sub => sub.Name))}");
            else
                ReportErrors(parsed, around);
        }

        if (wrong)
            around.Error.Write("flowsim --help shows what there is.\n");
        return wrong;
    }

    /// <summary>Examples of a command, ready to be shown under its help; empty when there are none.</summary>
    /// <param name="command">Name of the command.</param>
    public static string Examples(string command) => command switch
    {
        "strain" => """
            Examples:
              flowsim strain
              flowsim strain run.toml --set "honey.temperature=95 F" --units us
              flowsim strain run.toml --set gate.opening=25% --csv run.csv --plot run.svg
              flowsim strain run.toml --json --fail-on-overflow
              flowsim strain run.toml --report run.html
              flowsim strain run.toml --scan gate.opening=10%..60%:11 --csv scan.csv


            """,
        "settle" => """
            Examples:
              flowsim settle
              flowsim settle run.toml --set settling.for=48h --set "settling.clear_to=0.3 mm" --plot settle.svg
              flowsim settle run.toml --set "settling.temperature=[\"0 h 40 °C\", \"12 h ramp 28 °C\"]"
              flowsim settle run.toml --scan "settling.temperature=25 °C..45 °C:5"


            """,
        "risk" => """
            Examples:
              flowsim risk
              flowsim risk run.toml --tolerance 1% --plot risk.svg
              flowsim risk run.toml --set "honey.moisture=17.8 ± 0.2 %" --set "debris.load=0.3 g/kg x/ 3"
              flowsim risk run.toml --json --fail-above


            """,
        "warm" => """
            Examples:
              flowsim warm
              flowsim warm run.toml --set "thermostat.setpoint=45 °C" --plot warm.svg
              flowsim warm run.toml --set warming.granulation=fine --set until.no_crystals=true
              flowsim warm run.toml --set "until.coldest=95 F" --units us --fail-on-miss
              flowsim warm run.toml --scan "thermostat.setpoint=38 °C..48 °C:6"


            """,
        "setpoint" => """
            Examples:
              flowsim setpoint
              flowsim setpoint run.toml --ceiling "45 °C" --plot setpoint.svg
              flowsim setpoint run.toml --set "limits.hmf=10 mg/kg" --json


            """,
        "plan" => """
            Examples:
              flowsim plan
              flowsim new --day day.toml
              flowsim plan day.toml --plot day.svg --csv day.csv
              flowsim plan day.toml --pace slow --quiet


            """,
        "fit" => """
            Examples:
              flowsim fit pail.csv --batch my-run.toml
              flowsim fit pail.csv drum.csv --batch my-run.toml --save
              flowsim fit pail.csv --batch my-run.toml --viscosity "35 °C, 2.6 Pa.s x/ 1.06"
              flowsim fit pail.csv --batch my-run.toml --save-as learnt.toml --csv residuals.csv
            A table has a line of headings such as "time [min],tank level [mm],note".


            """,
        "fill" => """
            Examples:
              flowsim fill
              flowsim fill run.toml --set "filling.jar=jar-1lb" --set "filling.rule=us" --units us
              flowsim fill run.toml --set "bottling_tank.fill=40 kg" --csv jars.csv --plot fill.svg


            """,
        "shelf" => """
            Examples:
              flowsim shelf run.toml
              flowsim shelf --set "honey.moisture=18.4 %" --set "shelf.yeasts=50" --set "shelf.glucose=34 %"


            """,
        "watch" => """
            Examples:
              flowsim watch my-run.toml --log today.csv
              flowsim watch my-run.toml --log today.csv --sound --units us
              flowsim watch my-run.toml --log pail.csv --at "3 min"
            Then type what you read and do: level 247, pond 40, mass 3.9, scrape, gate 40 %, shut.


            """,
        "honey" => """
            Examples:
              flowsim honey --set honey.moisture=18.5%
              flowsim honey --table --property density
              flowsim honey run.toml --plot viscosity.png


            """,
        "measure" => """
            Examples:
              flowsim measure ball --help
              flowsim measure ball --ball "3 mm" --jar "50 mm" --distance "100 mm" --time "10.9 s" --temperature "35 °C" --moisture 17.8%


            """,
        "ball" => """
            Examples:
              flowsim measure ball --ball "3 mm" --jar "50 mm" --distance "100 mm" --time "10.9 s" --temperature "35 °C" --moisture 17.8%
              flowsim measure ball --ball "3 ± 0.01 mm" --jar "50 mm" --distance "100 mm" --time "10.9 s" --time "11.2 s" --time "10.7 s" --temperature "35 ± 0.2 °C" --batch run.toml


            """,
        "bubble" => """
            Examples:
              flowsim measure bubble --time "21 s" --temperature "35 °C" --moisture 17.8%
              flowsim measure bubble --time "14 s" --constant "1.5 ± 0.05" --temperature "35 °C" --moisture 17.8%


            """,
        "jar" => """
            Examples:
              flowsim measure jar --net-weight "3 kg" --time "22 s" --head "250 mm" --bore "38 mm" --tube-length "40 mm" --opening 20% --temperature "35 °C" --moisture 17.8%
              flowsim measure jar --net-weight "5 kg" --time "35 s" --level "298 mm" --opening 20% --temperature "35 °C" --batch run.toml


            """,
        "refractometer" => """
            Examples:
              flowsim measure refractometer --percent 17.6 --percent 17.8 --percent 17.7 --compensated
              flowsim measure refractometer --index 1.4921 --temperature "24 °C"


            """,
        "cup" => """
            Example:
              flowsim measure cup --cup ford-5 --time "62 s" --temperature "46 °C" --moisture 18.5%


            """,
        "new" => """
            Example:
              flowsim new run.toml


            """,
        "completion" => """
            Examples:
              source <(flowsim completion bash)
              flowsim completion fish | source


            """,
        _ => string.Empty,
    };

    private static IEnumerable<string> OptionsOf(CommandResult result)
    {
        foreach (Option option in result.Command.Options)
        {
            yield return option.Name;
            foreach (string alias in option.Aliases)
                yield return alias;
        }

        if (result.Command is not RootCommand)
            yield return "--help";
    }

    /// <summary>Words that look like options but were taken for a file or for nothing.</summary>
    private static IEnumerable<string> StrangeOptions(ParseResult parsed, IReadOnlyList<string> arguments, string[] options)
    {
        HashSet<string> taken = [.. parsed.UnmatchedTokens];
        foreach (SymbolResult child in parsed.CommandResult.Children.OfType<ArgumentResult>())
            taken.UnionWith(child.Tokens.Select(token => token.Value));
        bool verbatim = false;
        foreach (string argument in arguments)
        {
            verbatim |= argument == "--";
            if (!verbatim && argument.StartsWith('-') && argument.Length > 1 && taken.Contains(argument) && !options.Contains(argument, StringComparer.Ordinal))
                yield return argument;
        }
    }

    private static void ReportStrangeCommand(Command command, string word, Surroundings around)
    {
        string[] names = [.. command.Subcommands.Select(sub => sub.Name)];
        Say(around, $"{Printable.Of(word)} is not a command; nearest: {Spelling.Nearest(word, names)}; known: {string.Join(", ", names)}");
    }

    private static void Say(Surroundings around, string what)
    {
        around.Wrong?.Add(new Problem(new Spot("arguments", 0, 0), what));
        around.Error.Write($"flowsim: {what}\n");
    }

    private static void ReportErrors(ParseResult parsed, Surroundings around)
    {
        foreach (ParseError error in parsed.Errors)
            Say(around, $"{Printable.Of(string.Join(' ', error.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), 300)}");
    }
}
