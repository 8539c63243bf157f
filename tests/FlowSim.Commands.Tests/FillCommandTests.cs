using System.Globalization;
using System.Text.Json;

namespace FlowSim.Commands.Tests;

/// <summary><c>flowsim fill</c>: text, JSON, files, what a file may leave out, and bad input.</summary>
public sealed class FillCommandTests : IDisposable
{
    /// <summary>An invented packer who bottles from a tank of his own and has no strainer in the file.</summary>
    private const string Own = """
        [honey]
        moisture = "17.2 %"
        temperature = "38 °C"

        [bottling_tank]
        use = "tank-50l"
        fill = "50 kg"
        gate_height = "25 mm"
        held = true

        [bottling_gate]
        bore = "38 mm"
        tube_length = "40 mm"
        opening = "30 %"

        [filling]
        jar = "jar-500g"
        """;

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static JsonElement Json(params string[] arguments)
    {
        Ran ran = Ran.With(["fill", .. arguments, "--json"]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return JsonDocument.Parse(ran.Out).RootElement;
    }

    private string File() => _folder.Write("own.toml", Own);

    [Fact]
    public void The_example_fills_what_was_strained()
    {
        JsonElement fill = Json();
        JsonElement strain = JsonDocument.Parse(Ran.With("strain", "--json").Out).RootElement;
        Assert.Equal(strain.GetProperty("strainedKg").GetDouble() + strain.GetProperty("bypassedKg").GetDouble(), fill.GetProperty("startKg").GetDouble(), 1e-6);
        Assert.True(fill.GetProperty("jars").GetInt32() > 40);
        Assert.Contains(fill.GetProperty("assumptions").EnumerateArray(), a => a.GetProperty("key").GetString() == "bottling_tank.fill");
        Assert.DoesNotContain(fill.GetProperty("assumptions").EnumerateArray(), a => a.GetProperty("key").GetString()!.StartsWith("debris", StringComparison.Ordinal));
    }

    [Fact]
    public void The_figures_hang_together()
    {
        JsonElement fill = Json(File());
        double Number(string name) => fill.GetProperty(name).GetDouble();
        Assert.Equal(50, Number("startKg"), 1e-9);
        Assert.Equal(fill.GetProperty("jars").GetInt32() * Number("targetKg"), Number("inJarsKg"), 1e-9);
        Assert.Equal(Number("startKg"), Number("inJarsKg") + Number("dripsKg") + Number("filmKg") + Number("restKg") + Number("heelKg"), 1e-9);
        Assert.Equal(fill.GetProperty("jars").GetInt32(), 12 * fill.GetProperty("cases").GetInt32() + fill.GetProperty("looseJars").GetInt32());
        Assert.True(Number("elapsedQuickSeconds") < Number("elapsedSeconds") && Number("elapsedSeconds") < Number("elapsedSlowSeconds"));
        Assert.True(Number("firstFillSeconds") <= Number("medianFillSeconds") && Number("medianFillSeconds") <= Number("lastFillSeconds"));
        Assert.InRange(Number("targetKg"), 0.5, 0.502);
        Assert.Equal("fits", fill.GetProperty("headspace").GetString());
        Assert.Equal("500 g", fill.GetProperty("labelMetric").GetString());
        Assert.Equal(JsonValueKind.Null, fill.GetProperty("leakKgPerHour").ValueKind);
        JsonElement cut = fill.GetProperty("cutOffFirst");
        Assert.Equal(cut.GetProperty("leadKg").GetDouble(), cut.GetProperty("inTheAirKg").GetDouble() + cut.GetProperty("whileClosingKg").GetDouble(), 1e-12);
    }

    [Fact]
    public void The_result_comes_last_and_never_calls_anything_harmless()
    {
        string text = Ran.With("fill").Out;
        int result = text.IndexOf("\nResult\n", StringComparison.Ordinal), next = text.IndexOf("\nWhat to do next\n", StringComparison.Ordinal);
        Assert.True(0 < result && result < next);
        Assert.EndsWith(Ran.With("fill", "--quiet").Out, text, StringComparison.Ordinal);
        Assert.DoesNotContain("safe", text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("complian", text, StringComparison.OrdinalIgnoreCase);
        Assert.All(
            new[] { "FILLS ", "within the limit you set", "local law decides", "shut early by", "on a scale by", "let it drip for", "Given away: ", "weights-and-measures law", "not for infants", "Begin to shut when the scale shows", "in jars" },
            said => Assert.Contains(said, Plain(text), StringComparison.Ordinal));
    }

    /// <summary>Lines are folded; a sentence is looked for as one.</summary>
    private static string Plain(string text) => string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    [Theory]
    [InlineData("DOES NOT GO IN: the jar holds 946 mL", "filling.jar=volume-quart", "filling.net_weight=3 lb")]
    [InlineData("TOO SLOW: ", "filling.longest_fill=8 s")]
    [InlineData("FILLS 7 jars of 500 g in ", "filling.jars=7")]
    [InlineData("FILLS 1 jar of 500 g in ", "filling.jars=1")]
    public void Endings(string said, params string[] settings)
    {
        Ran ran = Ran.With(["fill", File(), "--quiet", .. settings.SelectMany(setting => new[] { "--set", setting })]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Contains(said, Plain(ran.Out), StringComparison.Ordinal);
    }

    [Fact]
    public void A_loose_blade_is_told()
    {
        JsonElement fill = Json(File(), "--set", "filling.clearance=0.1 mm");
        Assert.Equal(fill.GetProperty("leakOverNightKg").GetDouble(), 12 * fill.GetProperty("leakKgPerHour").GetDouble(), 1e-9);
        Assert.Equal(fill.GetProperty("leakOverNightKg").GetDouble() / 8, fill.GetProperty("leakOverNightTightenedKg").GetDouble(), 1e-12);
        Assert.Contains("leak when shut", Ran.With("fill", File(), "--set", "filling.clearance=0.1 mm").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void In_us_units_nothing_stays_metric_but_the_label()
    {
        string text = Ran.With("fill", "--units", "us", "--set", "filling.jar=jar-1lb", "--set", "filling.rule=us").Out;
        Assert.Contains("jars of 16 oz", Plain(text), StringComparison.Ordinal);
        Assert.Contains("453 g, 16 oz (1 lb), rounded down", Plain(text), StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d (kg|mm|mL)\b", text);
    }

    [Fact]
    public void Csv_and_figure_are_written_and_not_replaced()
    {
        string csv = _folder["jars.csv"], plot = _folder["fill.png"];
        Ran ran = Ran.With("fill", File(), "--csv", csv, "--plot", plot);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        string[] lines = System.IO.File.ReadAllLines(csv);
        Assert.Equal("jar,start_s,fill_s,wait_s,tank_level_m,flow_kg_per_s,temperature_K", lines[0]);
        Assert.Equal(Json(File()).GetProperty("jars").GetInt32(), lines.Length - 1);
        Assert.True(new FileInfo(plot).Length > 10_000);
        Assert.Equal(ExitCode.FileTrouble, Ran.With("fill", File(), "--csv", csv).Code);
    }

    [Fact]
    public void A_run_sheet_for_the_honey_house()
    {
        string sheet = _folder["sheet.html"];
        Ran ran = Ran.With("fill", File(), "--report", sheet, "--quiet");
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        string html = System.IO.File.ReadAllText(sheet);
        Assert.All(new[] { "Keep in sight", "Aim for", "Begin to shut at", "Let it drip for", "<svg" }, said => Assert.Contains(said, html, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("filling.jar=jar-501g", "own.toml", "nearest: \"jar-500g\"")]
    [InlineData("filling.rule=mars", "filling.rule", "known: eu, us")]
    [InlineData("filling.scatter=200 g", "filling.scatter", "0 to 100 g")]
    [InlineData("filling.per_case=0", "filling.per_case", "1 to 1000")]
    [InlineData("filling.per_case=2.5", "filling.per_case", "is not a whole number")]
    [InlineData("filling.confidence=20 %", "filling.confidence", "50 to 99.99 %")]
    [InlineData("filling.hottest=120 °C", "filling.hottest", "0 to 80 °C")]
    [InlineData("filling.fall=0 mm", "filling.fall", "0.001 to 3 m")]
    [InlineData("filling.net_weight=2 g", "filling.net_weight", "5 to 45000 g")]
    [InlineData("filling.clearance=1 cm", "filling.clearance", "1 to 5000 µm")]
    [InlineData("bottling_tank.fill=900 kg", "bottling_tank.fill", "do not fit")]
    [InlineData("bottling_tank.level=5 m", "bottling_tank", "0.45 m")]
    [InlineData("bottling_gate.opening=0.5 %", "bottling_gate.opening", "1 to 100 %")]
    [InlineData("bottling_gate.bore=1 mm", "bottling_gate.bore", "3 to 200 mm")]
    [InlineData("filling.speed=3", "filling.speed", "nearest")]
    [InlineData("filling.closing=3", "filling.closing", "unit")]
    public void Bad_values_are_laid_at_their_key(string setting, string where, string said)
    {
        Ran ran = Ran.With("fill", File(), "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Empty(ran.Out);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.True(ran.Error.Contains(where, StringComparison.Ordinal) || ran.Error.Contains(setting.Split('=')[0], StringComparison.Ordinal), ran.Error);
    }

    [Theory]
    [InlineData("jar = \"jar-500g\"", "", "filling.jar is missing")]
    [InlineData("jar = \"jar-500g\"", "jar = \"volume-pint\"", "filling.net_weight is missing")]
    [InlineData("use = \"tank-50l\"", "", "bottling_tank.use is missing")]
    [InlineData("fill = \"50 kg\"", "", "bottling_tank.level is missing")]
    [InlineData("bore = \"38 mm\"", "", "bottling_gate.bore is missing")]
    public void What_is_missing_is_named(string line, string instead, string said)
    {
        string path = _folder.Write("part.toml", Own.Replace(line, instead, StringComparison.Ordinal));
        Ran ran = Ran.With("fill", path);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Honey_that_is_no_liquid_is_refused() =>
        Assert.Equal(ExitCode.HoneyRefused, Ran.With("fill", File(), "--set", "honey.form=gelling").Code);

    /// <summary>What a comment of the example shows as the value taken without it is that value.</summary>
    [Theory]
    [InlineData("fall")]
    [InlineData("closing")]
    [InlineData("change_over")]
    [InlineData("lip")]
    [InlineData("drip_limit")]
    [InlineData("longest_wait")]
    [InlineData("scatter")]
    [InlineData("rule")]
    [InlineData("confidence")]
    [InlineData("hottest")]
    [InlineData("headspace")]
    [InlineData("per_case")]
    [InlineData("longest_fill")]
    [InlineData("work_day")]
    [InlineData("net_weight")]
    [InlineData("temperature")]
    public void A_default_in_a_comment_is_the_default(string key)
    {
        string demo = FlowSim.Commands.Input.Demo.Text;
        int section = demo.IndexOf("\n[filling]", StringComparison.Ordinal), at = demo.IndexOf("\n# " + key + " = ", section, StringComparison.Ordinal);
        Assert.True(at > section, key);
        string path = _folder.Write("with.toml", demo[..at] + "\n" + demo[(at + 3)..]);
        string with = Ran.With("fill", path, "--json").Out, without = Json().ToString();
        foreach (string name in new[] { "jars", "elapsedSeconds", "targetKg", "headspaceShareAtHottest", "dripsKg", "casesPerHour", "givenAwayPerDayKg", "mostKg" })
        {
            double one = JsonDocument.Parse(with).RootElement.GetProperty(name).GetDouble(), other = JsonDocument.Parse(without).RootElement.GetProperty(name).GetDouble();
            Assert.True(Math.Abs(one - other) <= 1e-9 * Math.Abs(other), string.Create(CultureInfo.InvariantCulture, $"{name}: {one} against {other}"));
        }
    }
}
