using System.Globalization;
using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Text, JSON, CSV and figures of a settling run, its bad input, and what straining takes from it.</summary>
public sealed class SettleCommandTests
{
    private static string[] Arguments(string first, string[] settings) => [first, .. settings.SelectMany(setting => new[] { "--set", setting })];

    private static string Quiet(params string[] settings) =>
        string.Join(' ', Ran.With([.. Arguments("settle", settings), "--quiet"]).Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static JsonElement Json(params string[] settings)
    {
        Ran ran = Ran.With([.. Arguments("settle", settings), "--json"]);
        Assert.Equal(string.Empty, ran.Error);
        using JsonDocument json = JsonDocument.Parse(ran.Out);
        return json.RootElement.Clone();
    }

    [Fact]
    public void The_result_and_what_to_do_come_last()
    {
        string text = Ran.With("settle").Out;
        int assumed = text.IndexOf("\nAssumed (", StringComparison.Ordinal);
        int result = text.IndexOf("\nResult\n", StringComparison.Ordinal);
        int next = text.IndexOf("\nWhat to do next\n", StringComparison.Ordinal);
        Assert.True(0 < assumed && assumed < result && result < next);
        Assert.EndsWith(Ran.With("settle", "--quiet").Out, text, StringComparison.Ordinal);
        Assert.All(
            new[] { "rises", "largest left", "clear depth", "all clear after", "scum on top", "left for a strainer", "g/kg", "Cover honey that stands", "settling.bubbles]", "straight from the extractor" },
            said => Assert.Contains(said, text, StringComparison.Ordinal));
    }

    /// <summary>The demo's figures are those of the same setup built by hand.</summary>
    [Fact]
    public void It_says_what_the_library_says()
    {
        SettlingSetup setup = new()
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
            Depth = Length.FromMillimeters(298),
            Temperature = TemperatureHistory.Hold(Temperature.FromDegreesCelsius(35), Duration.FromHours(1)),
        };
        SettlingResult expected = SettlingRun.Simulate(setup);
        SettlingBand band = SettlingBand.Of(setup);
        JsonElement root = Json();
        Assert.Equal("clear", root.GetProperty("status").GetString());
        Near(expected.ClearAfter!.Value.Seconds, root.GetProperty("clearAfterSeconds"));
        Near(band.Quick!.Value.Seconds, root.GetProperty("clearAfterQuickSeconds"));
        Near(band.Slow!.Value.Seconds, root.GetProperty("clearAfterSlowSeconds"));
        Near(expected.Bubbles!.Left.DecimalFractions, root.GetProperty("bubbles").GetProperty("leftShare"));
        Near(expected.Debris!.ClearAfter!.Value.Seconds, root.GetProperty("debris").GetProperty("clearAfterSeconds"));
        Near(expected.Scum.Thickness.Meters, root.GetProperty("scum").GetProperty("thicknessM"));
        Near(expected.DebrisLeft!.Load.DecimalFractions, root.GetProperty("debrisForStrainer").GetProperty("loadShare"));
        Assert.True(root.GetProperty("scum").GetProperty("honeyKg").GetDouble() > 0);

        static void Near(double value, JsonElement said) => Assert.Equal(value, said.GetDouble(), 1e-6 * Math.Abs(value));
    }

    [Theory]
    [InlineData("CLEAR after 10 h, of 1 d 0 h")]
    [InlineData("CLEAR of bubbles after 3 h 20 min, of", "settling.clear_of=bubbles")]
    [InlineData("CLEAR of debris after", "settling.clear_of=debris")]
    [InlineData("NOT CLEAR after 4 h 00 min; it would be after 10 h.", "settling.for=4 h")]
    [InlineData("NOT CLEAR after 1 h 00 min, nor within 2 h 00 min", "settling.for=1 h", "settling.longest=2 h")]
    public void Endings(string said, params string[] settings)
    {
        string text = Quiet(settings);
        Assert.StartsWith("Result " + said.Replace("1 d 0 h", "24 h 00 min", StringComparison.Ordinal), text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Skim from 10 h on, or draw off from below and stop")]
    [InlineData("Held 5 °C warmer it is clear after", "honey.temperature=30 °C")]
    [InlineData("in place of")]
    [InlineData("Let it stand for 10 h, or draw off only the", "settling.for=4 h")]
    [InlineData("all the time: then it is clear in 8 h 00 min; that adds HMF", "settling.for=8 h")]
    [InlineData("Take a shallower layer, or more time: even at 45 °C it would not be clear in 1 h 00 min.", "settling.for=1 h")]
    [InlineData("One day more leaves", "settling.for=4 h")]
    [InlineData("flowsim strain, with the same file and debris.after = \"settling\"")]
    public void Advice(string said, params string[] settings) => Assert.Contains(said, Quiet(settings), StringComparison.Ordinal);

    [Fact]
    public void Nothing_of_debris_is_said_when_there_is_none()
    {
        string text = Ran.With("settle", "--set", "debris.load=0 g/kg").Out;
        Assert.DoesNotContain("left for a strainer", text, StringComparison.Ordinal);
        Assert.DoesNotContain("debris.after", text, StringComparison.Ordinal);
        JsonElement root = Json("settling.bubbles=0 %");
        Assert.Equal(JsonValueKind.Null, root.GetProperty("bubbles").ValueKind);
        Assert.DoesNotContain("settling.bubble_size", Ran.With("settle", "--set", "settling.bubbles=0 %").Out, StringComparison.Ordinal);
    }

    /// <summary>Sand sinks; the scum is then of bubbles alone, and the floor has a deposit.</summary>
    [Fact]
    public void What_sinks_lies_on_the_floor()
    {
        string text = Ran.With("settle", "--set", "debris.density=2650 kg/m3").Out;
        Assert.Contains("sinks", text, StringComparison.Ordinal);
        Assert.Contains("on the floor  ", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_course_of_temperatures_counts_and_a_size_is_read_as_a_size()
    {
        JsonElement held = Json("settling.clear_to=0.3 mm"), cooled = Json("settling.clear_to=0.3 mm", "settling.temperature=[\"0 h 35 °C\", \"1 h ramp 25 °C\"]"), stepped = Json("settling.clear_to=0.3 mm", "settling.temperature=[\"0 h 35 °C\", \"1 h 25 °C\"]");
        double At(JsonElement root) => root.GetProperty("clearAfterSeconds").GetDouble();
        Assert.True(At(held) < At(stepped) && At(stepped) < At(cooled));
        Assert.Contains(cooled.GetProperty("notices").EnumerateArray(), notice => notice.GetProperty("code").GetString() == "settling.stirs");
    }

    [Theory]
    [InlineData("settling.clear_to=5", "neither a share that may be left")]
    [InlineData("settling.clear_to=100 %", "settling.clear_to: \"100 %\" is outside what is allowed, 0.0001 to 99 %")]
    [InlineData("settling.clear_to=30 mm", "settling.clear_to")]
    [InlineData("settling.bubbles=15 %", "settling.bubbles: \"15 %\" is outside what is allowed, 0 to 10 %")]
    [InlineData("debris.load=5 %", "debris.load: \"5 %\" is outside what is allowed, 0 to 2 %")]
    [InlineData("settling.bubble_size=30 mm", "settling.bubble_size: \"30 mm\" is outside what is allowed, 0.001 to 20 mm")]
    [InlineData("settling.bubble_spread=3", "settling.bubble_spread")]
    [InlineData("settling.for=0 h", "settling.for")]
    [InlineData("settling.for=forever", "settling.for")]
    [InlineData("settling.longest=20 s", "settling.longest")]
    [InlineData("settling.depth=30 m", "settling.depth: \"30 m\" (30000 mm) is outside what is allowed, 1 to 20000 mm")]
    [InlineData("settling.packing=90 %", "settling.packing: \"90 %\" is outside what is allowed, 30 to 74 %")]
    [InlineData("settling.temperature=90 °C", "settling.temperature: \"90 °C\": temperature must be within 10 to 70 °C for vogel viscosity; nearest: 70 °C.")]
    [InlineData("settling.temperature=[]", "settling.temperature: is an empty list; write [\"0 h 40 °C\", \"12 h 30 °C\"]")]
    [InlineData("settling.temperature=[\"1 h 40 °C\"]", "a schedule begins at 0 s")]
    [InlineData("settling.temperature=[\"0 h 40 °C\", \"0 h 30 °C\"]", "does not come later than")]
    [InlineData("settling.temperature=[\"0 h warm\"]", "is not a time and a temperature")]
    [InlineData("settling.clear_of=wax", "nearest:")]
    [InlineData("settling.bubles=1 %", "nearest: \"bubbles\"")]
    [InlineData("tank.level=400 mm", "above the brim")]
    [InlineData("honey.temperature=90 °C", "honey.temperature: \"90 °C\": temperature must be within 10 to 70 °C for vogel viscosity; nearest: 70 °C.")]
    [InlineData("debris.after=skimming", "nearest:")]
    public void Bad_input_is_named_with_its_key(string setting, string said)
    {
        Ran ran = Ran.With("settle", "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Equal(string.Empty, ran.Out);
    }

    [Fact]
    public void With_nothing_to_settle_it_says_so()
    {
        Ran ran = Ran.With("settle", "--set", "settling.bubbles=0 %", "--set", "debris.load=0 g/kg");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("neither bubbles nor debris", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_depth_of_its_own_needs_no_tank()
    {
        using Folder folder = new();
        string path = folder.Write("run.toml", "[honey]\nmoisture = \"18 %\"\ntemperature = \"32 °C\"\n[settling]\ndepth = \"500 mm\"\nfor = \"2 d\"\n");
        Ran ran = Ran.With("settle", path);
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("500 mm deep\n", ran.Out, StringComparison.Ordinal);
        string without = folder.Write("bad.toml", "[honey]\nmoisture = \"18 %\"\ntemperature = \"32 °C\"\n");
        Assert.Contains("depth = \"300 mm\" in [settling]", Ran.With("settle", without).Error + " ", StringComparison.Ordinal);
    }

    [Fact]
    public void The_table_has_the_series()
    {
        using Folder folder = new();
        Assert.Equal(ExitCode.Done, Ran.With("settle", "--csv", folder["settle.csv"], "--plot", folder["settle.svg"], "--set", "run.points=11").Code);
        string[] lines = File.ReadAllLines(folder["settle.csv"]);
        Assert.Equal("time_s,temperature_K,viscosity_Pa_s,bubbles_left_share,bubbles_clear_m,debris_left_share,debris_clear_m", lines[0]);
        Assert.Equal(12, lines.Length);
        Assert.Equal(86400, double.Parse(lines[^1].Split(',')[0], CultureInfo.InvariantCulture));
        Assert.True(new FileInfo(folder["settle.svg"]).Length > 1000);
        Assert.Equal(ExitCode.Done, Ran.With("settle", "--csv", folder["sand.csv"], "--set", "settling.bubbles=0 %").Code);
        Assert.Equal("time_s,temperature_K,viscosity_Pa_s,debris_left_share,debris_clear_m", File.ReadLines(folder["sand.csv"]).First());
    }

    [Fact]
    public void A_scan_goes_over_temperatures()
    {
        Ran ran = Ran.With("settle", "--scan", "settling.temperature=25 °C..45 °C:3");
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("Not clear in 1 of the 3 runs: at 25 °C.", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Us_units_leave_no_metric_size()
    {
        string text = Ran.With("settle", "--units", "us", "--quiet").Out;
        Assert.DoesNotContain(" mm", text, StringComparison.Ordinal);
        Assert.DoesNotContain(" kg", text, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", text, StringComparison.Ordinal);
    }

    /// <summary>Only when the file says so does straining take what settling leaves: as if that were the debris given.</summary>
    [Fact]
    public void Straining_takes_what_settling_leaves_when_asked()
    {
        JsonElement left = Json().GetProperty("debrisForStrainer");
        string Number(string name, double factor) => (factor * left.GetProperty(name).GetDouble()).ToString("R", CultureInfo.InvariantCulture);
        Ran settled = Ran.With("strain", "--set", "gate.opening=20%", "--set", "debris.after=settling", "--json");
        Ran given = Ran.With("strain", "--set", "gate.opening=20%", "--set", $"debris.load={Number("loadShare", 1000)} g/kg", "--set", $"debris.median_size={Number("medianM", 1000)} mm", "--set", $"debris.size_spread={Number("sizeSpread", 1)}", "--json");
        Assert.Equal(string.Empty, settled.Error);
        Assert.Equal(Time(given), Time(settled), 1e-6 * Time(given));
        Assert.True(Blinded(settled) < 0.5 * Blinded(Ran.With("strain", "--set", "gate.opening=20%", "--json")));
        Assert.Contains("debris.after: of 1 g/kg, 0.011 g/kg of 0.114 mm median are left after 24 h 00 min of settling and skimming", string.Join(' ', Ran.With("strain", "--set", "debris.after=settling").Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);

        static double Blinded(Ran ran)
        {
            using JsonDocument json = JsonDocument.Parse(ran.Out);
            return json.RootElement.GetProperty("blindedShare")[0].GetDouble();
        }

        static double Time(Ran ran)
        {
            using JsonDocument json = JsonDocument.Parse(ran.Out);
            return json.RootElement.GetProperty("strainSeconds").GetDouble();
        }
    }

    [Theory]
    [InlineData("risk")]
    [InlineData("setpoint")]
    public void Other_commands_refuse_debris_before_settling(string command)
    {
        Ran ran = Ran.With(command, "--set", "debris.after=settling");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("debris.after: \"settling\" is for \"flowsim strain\" and \"flowsim settle\" alone", ran.Error, StringComparison.Ordinal);
    }

    /// <summary>A commented key of the demo that shows a default must be that default.</summary>
    [Theory]
    [InlineData("for")]
    [InlineData("depth")]
    [InlineData("clear_to")]
    [InlineData("clear_of")]
    [InlineData("bubbles")]
    [InlineData("bubble_size")]
    [InlineData("bubble_spread")]
    [InlineData("packing")]
    [InlineData("longest")]
    public void A_default_in_a_comment_is_the_default(string key)
    {
        int from = Demo.Text.IndexOf("[settling]\n", StringComparison.Ordinal);
        int at = Demo.Text.IndexOf("\n# " + key + " = ", from, StringComparison.Ordinal);
        Assert.True(at > 0, key);
        Assert.Equal(Said(Demo.Text), Said(Demo.Text.Remove(at + 1, 2)));

        static string Said(string toml)
        {
            Problems problems = new();
            SettlingSetup setup = SettlingReader.Read(TomlReader.Read(toml, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)))!.Setup;
            Assert.Empty(problems.All);
            return string.Create(CultureInfo.InvariantCulture, $"{setup.Depth.Meters:G9} {setup.StandsFor.Seconds:G9} {setup.Bubbles!.Load.Percent:G9} {setup.Bubbles.MedianSize.Meters:G9} {setup.Bubbles.SizeSpread:G9} {((ShareLeft)setup.ClearTo).AtMost.Percent:G9} {setup.ClearOf} {setup.Packing.Percent:G9} {setup.Longest.Seconds:G9}");
        }
    }
}
