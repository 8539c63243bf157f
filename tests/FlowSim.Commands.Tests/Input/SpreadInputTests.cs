using FlowSim.Commands.Input;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Tests.Input;

/// <summary>Spreads in a file: who takes them, who takes the middle, and what becomes of them in a question.</summary>
public class SpreadInputTests
{
    [Theory]
    [InlineData("strain")]
    [InlineData("warm")]
    [InlineData("honey")]
    public void Other_commands_take_the_middle_and_say_so(string command)
    {
        Ran plain = Ran.With(command, "--json", "--set", "honey.moisture=17.8 %");
        Ran spread = Ran.With(command, "--json", "--set", "honey.moisture=17.6 to 18.0 %");
        Assert.Equal(ExitCode.Done, spread.Code);
        string[] added = [.. spread.Out.Split('\n').Select(line => line.Trim()).Except(plain.Out.Split('\n').Select(line => line.Trim()), StringComparer.Ordinal)];
        Assert.Contains(added, line => line.Contains("honey.moisture: taken at 17.8 %; \\\"flowsim risk\\\" uses the spread \\\"17.6 to 18.0 %\\\"", StringComparison.Ordinal));
        Assert.Contains("uses the spread", Ran.With(command, "--set", "honey.moisture=17.6 to 18.0 %").Out.Replace("\n  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
        if (command == "strain")
            Assert.Equal(Field(plain.Out, "drainSeconds"), Field(spread.Out, "drainSeconds"), 1e-6);
    }

    [Fact]
    public void Every_input_that_can_be_varied_is_a_key_that_takes_a_spread()
    {
        // The rim is a key of the forms of a strainer, which the library's list of them names.
        Assert.Contains(ScreenShapes.All, form => form.Parameters.Any(parameter => "screen." + parameter.Key == StrainingInputs.RimHeight.Name));
        Assert.All(StrainingInputs.All.Where(input => input != StrainingInputs.RimHeight), input => Assert.Contains(Keys.All, key => key.ToString() == input.Name && key.Kind is KeyKind.Quantity or KeyKind.Number or KeyKind.QuantityOrList));
        Assert.Contains(SpreadKeys.List, Ran.With("kit").Out.Replace("\n  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("screen.diameter=240 ± 2 mm", "is a spread, and one value is wanted here; keys that take a spread: honey.moisture")]
    [InlineData("tank.fill=19 ± 1 L", "write level = \"298 ± 5 mm\" in place of it")]
    [InlineData("gate.opening=[\"0 min 30 ± 2 %\"]", "is a spread")]
    [InlineData("run.tolerance=1 x/ 2", "is a spread")]
    [InlineData("honey.moisture=17.8 ± 0.2", "needs one: %")]
    [InlineData("honey.moisture=30 ± 0.2 %", "13.5 to 21.5 %")]
    public void Refused(string setting, string said)
    {
        Ran ran = Ran.With("strain", "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--set " + setting, ran.Error, StringComparison.Ordinal);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_rim_of_a_strainer_takes_a_spread()
    {
        Ran ran = Ran.With("strain", "--json", "--set", "screen.rim_height=100 ± 3 mm");
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Equal(0.1, Field(ran.Out, "rimM"), 1e-12);
        Assert.Contains("screen.rim_height: taken at 100 mm", ran.Out, StringComparison.Ordinal);
        Assert.Contains("below what a length can be", Ran.With("strain", "--set", "screen.rim_height=-100 ± 3 mm").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mistake_is_shown_where_it_stands()
    {
        using Folder folder = new();
        string path = folder.Write("run.toml", Demo.Text.Replace("moisture = \"17.8 %\"", "moisture = \"17.8 % ± 0.2 mm\"", StringComparison.Ordinal));
        int line = 1 + File.ReadAllText(path).Split('\n').ToList().FindIndex(text => text.StartsWith("moisture = ", StringComparison.Ordinal));
        string error = Ran.With("risk", path).Error;

        // moisture = "17.8 % ± 0.2 mm": counted by hand, the unit stands in column 26.
        Assert.Contains(FormattableString.Invariant($"line {line}, column 26: honey.moisture: "), error, StringComparison.Ordinal);
        Assert.Contains("is a length, but a share is wanted", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_spread_the_common_ones_are_asked_for_as_such()
    {
        RiskInput input = Read();
        Assert.Null(input.Question.Inputs);
        Assert.Equal(DefaultSpreads.For(input.Question.Setup).Select(common => common.Input.Name), input.Inputs.Select(varied => varied.Uncertain.Input.Name), StringComparer.Ordinal);
        Assert.All(input.Inputs, varied => Assert.Null(varied.Written));
    }

    [Fact]
    public void A_spread_takes_the_place_of_the_common_one_and_others_are_added()
    {
        RiskInput input = Read("honey.moisture=17.8 ± 0.1 %", "gate.bore=38 ± 0.5 mm");
        string[] common = [.. DefaultSpreads.For(input.Question.Setup).Select(spread => spread.Input.Name)];
        Assert.Equal([.. common, "gate.bore"], input.Question.Inputs!.Select(spread => spread.Input.Name), StringComparer.Ordinal);
        UncertainInput moisture = input.Question.Inputs!.Single(spread => spread.Input == StrainingInputs.Moisture);
        Assert.Equal(0.001, moisture.Spread.StandardDeviation, 1e-12);
        Assert.Equal(Standing.GivenByUser, moisture.Source.Standing);
        Assert.Equal(17.8, input.Question.Setup.Honey.Moisture.Percent, 1e-9);
    }

    [Fact]
    public void What_is_exact_has_no_spread_at_all()
    {
        RiskInput input = Read("honey.moisture=17.8 ± 0 %");
        Assert.DoesNotContain(input.Question.Inputs!, spread => spread.Input == StrainingInputs.Moisture);
        Assert.Contains(input.Question.Inputs!, spread => spread.Input == StrainingInputs.DebrisLoad);
    }

    [Fact]
    public void Without_the_common_ones_only_what_was_given_is_varied()
    {
        RiskInput input = Read("risk.defaults=false", "honey.moisture=17.8 ± 0.2 %");
        Assert.Equal(["honey.moisture"], input.Question.Inputs!.Select(spread => spread.Input.Name), StringComparer.Ordinal);
        Ran none = Ran.With("risk", "--set", "risk.defaults=false");
        Assert.Equal(ExitCode.BadInput, none.Code);
        Assert.Contains("nothing is uncertain here", none.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mass_in_the_receiver_is_spread_as_the_volume_it_is()
    {
        RiskInput input = Read("receiver.already_in=2 ± 0.1 kg");
        StrainingSetup setup = input.Question.Setup;
        double density = HoneyProperties.Of(setup.Honey).DensityAt(setup.HoneyTemperature).KilogramsPerCubicMeter;
        Distribution spread = input.Question.Inputs!.Single(given => given.Input == StrainingInputs.AlreadyIn).Spread;
        Assert.Equal(2 / density, spread.Median, 1e-9 / density);
        Assert.Equal(0.1 / density, spread.StandardDeviation, 1e-9 / density);
        Assert.Equal(2 / density, setup.Receiver.AlreadyIn.CubicMeters, 1e-9 / density);
    }

    [Fact]
    public void An_input_that_does_nothing_is_left_out_and_that_is_said()
    {
        Loaded loaded = Loader.Load(Disk.Files, null, ["scraping.recovery=70 ± 10 %"]);
        RiskInput input = Loader.ReadRisk(loaded);
        Assert.DoesNotContain(input.Inputs, varied => varied.Uncertain.Input == StrainingInputs.ScrapeRecovery);
        Assert.Contains(loaded.Journal.Echoes, echo => echo.StartsWith("scraping.recovery does nothing", StringComparison.Ordinal));
    }

    [Fact]
    public void The_section_is_read()
    {
        RiskQuestion question = Read(
            "risk.tolerance=0.1 %", "risk.mass_that_matters=1 kg", "risk.look_every=5 min", "risk.runs=4096", "risk.seed=18446744073709551615",
            "risk.correlated=[\"honey.moisture, honey.lot_factor, -0.3\", \"debris.load,debris.median_size,0.5\"]").Question;
        Assert.Equal(0.001, question.Tolerance.DecimalFractions, 1e-12);
        Assert.Equal(1, question.MassThatMatters.Kilograms, 1e-12);
        Assert.Equal(300, question.LookEvery.Seconds, 1e-9);
        Assert.Equal(4096, question.Runs);
        Assert.Equal(ulong.MaxValue, question.Seed);
        Assert.Equal([new("honey.moisture", "honey.lot_factor", -0.3), new InputCorrelation("debris.load", "debris.median_size", 0.5)], question.Correlations);
        Assert.Null(Read("risk.runs=auto").Question.Runs);
    }

    [Theory]
    [InlineData("risk.runs=10", "64 to 10000000")]
    [InlineData("risk.runs=many", "neither \"auto\" nor a whole number")]
    [InlineData("risk.runs=100.5", "neither \"auto\" nor a whole number")]
    [InlineData("risk.seed=-1", "whole number, 0 or more")]
    [InlineData("risk.tolerance=80 %", "0.0001 to 50 %")]
    [InlineData("risk.tolerance=0.01", "needs one: %")]
    [InlineData("risk.look_every=0 s", "1 to 2592000 s")]
    [InlineData("risk.mass_that_matters=2 t", "0 to 1000 kg")]
    [InlineData("risk.correlated=[\"honey.moisture, debris.laod, 0.5\"]", "nearest: \"debris.load\"")]
    [InlineData("risk.correlated=[\"honey.moisture, debris.load\"]", "two keys and a correlation from -1 to 1")]
    [InlineData("risk.correlated=[\"honey.moisture, debris.load, 1.5\"]", "between -1 and 1")]
    [InlineData("risk.correlated=[\"honey.moisture, gate.bore, 0.5\"]", "no spread")]
    [InlineData("risk.tolerence=1 %", "nearest: \"tolerance\"")]
    public void Refused_of_the_section(string setting, string said)
    {
        Ran ran = Ran.With("risk", "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--set " + setting, ran.Error, StringComparison.Ordinal);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tolerance")]
    [InlineData("mass_that_matters")]
    [InlineData("look_every")]
    [InlineData("runs")]
    [InlineData("seed")]
    [InlineData("defaults")]
    public void A_default_in_a_comment_is_the_default(string key)
    {
        int from = Demo.Text.IndexOf("\n[risk]", StringComparison.Ordinal);
        int at = Demo.Text.IndexOf("\n# " + key + " = ", from, StringComparison.Ordinal);
        Assert.True(at > 0, key);
        Assert.Equal(Question(Demo.Text), Question(Demo.Text.Remove(at + 1, 2)));

        static (double, double, double, int?, ulong, int, bool) Question(string toml)
        {
            Problems problems = new();
            RiskInput? input = RiskReader.Read(TomlReader.Read(toml, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)));
            Assert.Empty(problems.All);
            RiskQuestion question = input!.Question;
            return (question.Tolerance.DecimalFractions, Math.Round(question.MassThatMatters.Kilograms, 9), question.LookEvery.Seconds, question.Runs, question.Seed, input.Inputs.Count, question.Inputs is null);
        }
    }

    [Fact]
    public void A_setpoint_is_searched_with_a_chance_if_one_is_set()
    {
        Assert.Same(Setpoints.OverflowLimit.Nominal, Loader.ReadQuestion(Loader.Load(Disk.Files, null, [])).Question.Limits.Overflow);
        SetpointInput set = Loader.ReadQuestion(Loader.Load(Disk.Files, null, ["limits.overflow_tolerance=1 %", "honey.moisture=17.8 ± 0.1 %"]));
        Assert.NotSame(Setpoints.OverflowLimit.Nominal, set.Question.Limits.Overflow);
        Assert.Equal(Ratio.FromPercent(1).DecimalFractions, set.Limits.OverflowTolerance!.Value.DecimalFractions, 1e-12);
        Ran refused = Ran.With("setpoint", "--set", "limits.overflow_tolerance=80 %");
        Assert.Equal(ExitCode.BadInput, refused.Code);
        Assert.StartsWith("--set limits.overflow_tolerance=80 %: limits.overflow_tolerance: \"80 %\"", refused.Error, StringComparison.Ordinal);
    }

    private static double Field(string json, string name) =>
        System.Text.Json.JsonDocument.Parse(json).RootElement.GetProperty(name).GetDouble();

    private static RiskInput Read(params string[] settings) => Loader.ReadRisk(Loader.Load(Disk.Files, null, settings));
}
