using System.Globalization;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>The text of a warming run: what comes last, what it says of each ending, and advice that fits.</summary>
public class WarmTextTests
{
    [Fact]
    public void The_result_and_what_to_do_come_last()
    {
        string text = Ran.With("warm").Out;
        int assumed = text.IndexOf("\nAssumed (", StringComparison.Ordinal);
        int result = text.IndexOf("\nResult\n", StringComparison.Ordinal);
        int next = text.IndexOf("\nWhat to do next\n", StringComparison.Ordinal);
        Assert.True(0 < assumed && assumed < result && result < next);
        Assert.EndsWith(Ran.With("warm", "--quiet").Out, text, StringComparison.Ordinal);
    }

    [Fact]
    public void It_names_bounds_wall_energy_damage_limit_and_source()
    {
        string text = Said("warm");
        Assert.All(
            new[] { "if stirred", "best estimate", "conduction only", "if it is stirred all the time", "as differently as published figures do: ", "The wall gets to", "kWh", "mg/kg (", "of the diastase", "days at 20 °C", "within the limit of EU Directive", "[source read]", "on the axis" },
            said => Assert.Contains(said, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("REACHED: the mean is at 35 °C after")]
    [InlineData("REACHED: the coldest honey is at 30 °C after", "until.coldest=30 °C")]
    [InlineData("REACHED: the honey is as thin as 3.00 Pa·s after", "until.thin=3 Pa.s")]
    [InlineData("NOT REACHED within 1 h 00 min, the longest time asked for: mean 35 °C.", "until.longest=1 h")]
    [InlineData("NOT REACHED within 1 d", "until.longest=50 h", "warming.granulation=coarse", "until.no_crystals=true")]
    [InlineData("CUT OUT: the cut-out takes the heater off after", "warming.power=500 W", "thermostat.cut_out=30 °C")]
    [InlineData("TOO HOT: something is at 150 °C after", "warming.by=immersion", "warming.lower_end=50 mm", "warming.upper_end=150 mm", "warming.element_radius=8 mm", "warming.power=2 kW", "thermostat.sensor=wall")]
    [InlineData("REACHED: the mean is down to 20 °C after", "warming.from=40 °C", "thermostat.setpoint=5 °C", "until.cooled_to=20 °C")]
    [InlineData("WORKABLE for", "warming.from=40 °C", "thermostat.setpoint=5 °C", "until.thick=20 Pa.s")]
    public void Endings(string said, params string[] settings)
    {
        string text = Quiet(settings);
        Assert.StartsWith("Result " + (said.StartsWith("NOT REACHED within 1 d", StringComparison.Ordinal) ? "NOT REACHED within 2 d 2 h" : said), text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Raise the setpoint: at 34 °C the honey comes to 35 °C late or never.", "thermostat.setpoint=34 °C", "until.longest=1 d")]
    [InlineData("Raise the setpoint: these crystals are gone at 65 °C", "warming.granulation=coarse", "until.no_crystals=true", "until.longest=3 d")]
    [InlineData("Give it more time (until.longest) or a stronger heater.", "warming.power=30 W", "until.longest=5 h")]
    [InlineData("Set the cut-out higher", "warming.power=500 W", "thermostat.cut_out=30 °C")]
    [InlineData("Stir before the honey goes on", "warming.by=bath", "warming.water_level=250 mm")]
    [InlineData("A fan that moves the air past the vessel")]
    [InlineData("Lower the heat: honey gets to", "limits.ceiling=36 °C")]
    [InlineData("Do not go by the probe alone", "warming.by=jacket", "warming.upper_end=250 mm", "warming.power=300 W", "thermostat.sensor=honey")]
    [InlineData("Warm less hot or less long", "heat.hmf=39.99 mg/kg")]
    public void Advice(string said, params string[] settings) => Assert.Contains(said, Quiet(settings), StringComparison.Ordinal);

    [Fact]
    public void Cooling_is_not_advised_to_be_warmer_or_watched_at_the_wall()
    {
        string text = Quiet("warming.from=40 °C", "thermostat.setpoint=5 °C", "until.cooled_to=20 °C");
        Assert.DoesNotContain("fan", text, StringComparison.Ordinal);
        Assert.DoesNotContain("probe", text, StringComparison.Ordinal);
        Assert.DoesNotContain("flowsim setpoint", text, StringComparison.Ordinal);
        Assert.Contains("The cooling takes out", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ceiling_is_named_when_somebody_set_it()
    {
        Assert.Contains("The ceiling is 45 °C, as you set it; without that it is 50 °C.", Quiet("limits.ceiling=45 °C"), StringComparison.Ordinal);
        Assert.DoesNotContain("ceiling", Quiet(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_wait_until_the_coldest_is_there_is_the_time_of_that_target()
    {
        string text = Quiet();
        string wait = text[(text.IndexOf("warm on until ", StringComparison.Ordinal) + 14)..];
        Assert.StartsWith("REACHED: the coldest honey is at 35 °C after " + wait[..wait.IndexOf(',', StringComparison.Ordinal)], Quiet("until.coldest=35 °C")[7..], StringComparison.Ordinal);
    }

    [Fact]
    public void The_series_is_rfc_4180_with_units_in_the_header()
    {
        using Folder folder = new();
        Assert.Equal(ExitCode.Done, Ran.With("warm", "--csv", folder["warm.csv"]).Code);
        string text = File.ReadAllText(folder["warm.csv"]);
        Assert.Equal(text.Count(c => c == '\n'), text.Split("\r\n").Length - 1);
        string[][] rows = [.. text.TrimEnd().Split("\r\n").Select(line => line.Split(','))];
        Assert.All(rows, row => Assert.Equal(rows[0].Length, row.Length));
        Assert.All(rows[0], head => Assert.Matches("_(s|K|W|share|Pa_s|mg_per_kg)$", head));
        double[] times = [.. rows.Skip(1).Select(row => double.Parse(row[0], CultureInfo.InvariantCulture))];
        Assert.Equal(241, times.Length); // run.points in demo.toml
        Assert.Equal(times.Order(), times);
    }

    [Theory]
    [InlineData("--plot", "a.png")]
    [InlineData("--map", "a.svg")]
    [InlineData("--damage", "a.svg")]
    public void Figures_are_written_whole_and_never_over_another(string option, string name)
    {
        using Folder folder = new();
        Assert.Equal(ExitCode.Done, Ran.With("warm", "-q", option, folder[name]).Code);
        Assert.True(new FileInfo(folder[name]).Length > 200);
        Assert.Equal(ExitCode.FileTrouble, Ran.With("warm", "-q", option, folder[name]).Code);
        Assert.Equal(ExitCode.BadInput, Ran.With("warm", "-q", option, folder["a.pdf"]).Code);
        Assert.Equal(ExitCode.BadInput, Ran.With("warm", "--csv", folder["b.svg"], option, folder["b.svg"]).Code);
        Assert.Single(Directory.GetFiles(folder.Path));
    }

    [Theory]
    [InlineData("--csv", "a.csv")]
    [InlineData("--plot", "a.png")]
    public void What_shows_the_run_over_time_needs_a_series(string option, string name)
    {
        using Folder folder = new();
        Ran ran = Ran.With("warm", option, folder[name], "--set", "run.points=0");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("run.points is 0", ran.Error, StringComparison.Ordinal);
    }

    private static string Quiet(params string[] settings) => Said(["warm", "-q", .. settings.SelectMany(setting => new[] { "--set", setting })]);

    private static string Said(params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return string.Join(' ', ran.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }
}
