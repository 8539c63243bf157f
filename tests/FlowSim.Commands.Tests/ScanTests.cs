using System.Globalization;
using System.Text.Json;

namespace FlowSim.Commands.Tests;

/// <summary>One value after the other: what a row says is what the run alone says.</summary>
public sealed class ScanTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Each_row_is_the_run_with_that_value()
    {
        using JsonDocument scan = Json("strain", "--scan", "gate.opening=10%..40%:4");
        JsonElement[] rows = [.. scan.RootElement.EnumerateArray()];

        // 10 to 40 % in four values: 10, 20, 30, 40 %.
        Assert.Equal([0.1, 0.2, 0.3, 0.4], rows.Select(row => Math.Round(row.GetProperty("scan").GetProperty("gate.opening").GetDouble(), 12)));
        foreach (JsonElement row in rows)
        {
            string percent = (100 * row.GetProperty("scan").GetProperty("gate.opening").GetDouble()).ToString("G12", CultureInfo.InvariantCulture);
            using JsonDocument alone = Json("strain", "--set", $"gate.opening={percent}%");
            foreach (JsonProperty told in row.EnumerateObject().Where(told => told.Name != "scan"))
                Same(alone.RootElement.GetProperty(told.Name), told.Value, told.Name);
        }
    }

    [Fact]
    public void Each_row_of_a_warming_is_the_run_with_that_value()
    {
        using JsonDocument scan = Json("warm", "--scan", "thermostat.setpoint=104 F..45 °C:2");
        JsonElement[] rows = [.. scan.RootElement.EnumerateArray()];
        Assert.Equal([313.15, 318.15], rows.Select(row => Math.Round(row.GetProperty("scan").GetProperty("thermostat.setpoint").GetDouble(), 9))); // 104 °F is 40 °C
        using JsonDocument alone = Json("warm", "--set", "thermostat.setpoint=45 °C");
        foreach (JsonProperty told in rows[1].EnumerateObject().Where(told => told.Name != "scan"))
            Same(alone.RootElement.GetProperty(told.Name), told.Value, told.Name);
    }

    [Fact]
    public void Two_keys_make_a_grid_with_the_second_fastest()
    {
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--scan", "gate.opening=10..20 %:2", "--scan", "honey.temperature=30..40 °C:3", "--csv", _folder["g.csv"]).Code);
        string[][] rows = Csv("g.csv");
        Assert.Equal(["gate_opening_share", "honey_temperature_K"], rows[0].Take(2), StringComparer.Ordinal);
        Assert.Equal(1 + 6, rows.Length);
        Assert.Equal([303.15, 308.15, 313.15, 303.15, 308.15, 313.15], rows.Skip(1).Select(row => Math.Round(double.Parse(row[1], CultureInfo.InvariantCulture), 9)));
    }

    [Fact]
    public void The_rows_have_stable_names_with_units_and_the_same_length()
    {
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--scan", "screen.rim_height=60..120 mm:3", "--csv", _folder["s.csv"]).Code);
        string[][] rows = Csv("s.csv");
        Assert.Equal(
            ["screen_rim_height_m", "drain_s", "strain_s", "peak_pond_m", "first_overflow_s", "status", "ending", "elapsed_s", "rim_m", "receiver_full_s", "start_kg", "strained_kg", "bypassed_kg", "spilled_kg", "held_kg", "viscosity_Pa_s"],
            rows[0], StringComparer.Ordinal);
        Assert.All(rows, row => Assert.Equal(rows[0].Length, row.Length));
        int rim = Array.IndexOf(rows[0], "rim_m");
        Assert.Equal(["0.06", "0.09", "0.12"], rows.Skip(1).Select(row => row[rim]), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("honey.lot_factor=0.5..2:4")]
    [InlineData("receiver.spacer=-20 mm..30 mm:3")]
    [InlineData("tank.fill=10 kg..12 kg:2")]
    [InlineData("tank.fill=8..9 L:2")]
    [InlineData("run.points=2..10:2")]
    [InlineData("debris.load=0.03..1 g/kg:3")]
    [InlineData("gate.opening=30%..10%:3")]
    public void Any_number_can_be_scanned(string scan)
    {
        Ran ran = Ran.With("strain", "--scan", scan);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
    }

    [Theory]
    [InlineData("gate.opning=1..2:3", "is not a key; nearest that can be scanned: gate.opening")]
    [InlineData("gate.blade=1..2:3", "is not a number and cannot be scanned")]
    [InlineData("scraping.times=1..2 s:3", "is not a number and cannot be scanned")]
    [InlineData("gate.opening", "is not key=from..to:n")]
    [InlineData("gate.opening=10%:3", "is not key=from..to:n")]
    [InlineData("gate.opening=10%..20%", "is not key=from..to:n")]
    [InlineData("gate.opening=10%..20%:1", "2 to 1000, nearest 2")]
    [InlineData("gate.opening=10%..20%:-4", "2 to 1000, nearest 2")]
    [InlineData("gate.opening=10%..20%:1001", "2 to 1000, nearest 1000")]
    [InlineData("gate.opening=10%..20%:99999999999", "2 to 1000, nearest 1000")]
    [InlineData("gate.opening=10%..20%:x", "2 to 1000, nearest 2")]
    [InlineData("gate.opening=10..20:3", "needs one: %")]
    [InlineData("gate.opening=10 mm..20%:3", "is a length, but a share is wanted")]
    [InlineData("gate.opening=10%..10%:3", "begins and ends with the same value")]
    [InlineData("honey.lot_factor=a..2:3", "does not begin with a number")]
    [InlineData("gate.opening=50%..150%:3", "gate.opening: \"150 %\" is outside what is allowed, 0 to 100 %")]
    [InlineData("honey.moisture=17..30 %:14", "13.5 to 21.5 %")]
    public void Refused(string scan, string said)
    {
        Ran ran = Ran.With("strain", "--scan", scan, "--csv", _folder["none.csv"]);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--scan " + scan, ran.Error, StringComparison.Ordinal);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Theory]
    [InlineData("a second time", "strain", "--scan", "gate.opening=1%..2%:2", "--scan", "gate.opening=1%..2%:2")]
    [InlineData("a second time", "strain", "--scan", "gate.opening=1%..2%:2", "--set", "gate.opening=3%")]
    [InlineData("one or two keys", "strain", "--scan", "gate.opening=1%..2%:2", "--scan", "gate.bore=10..20 mm:2", "--scan", "tank.level=100..200 mm:2")]
    [InlineData("so here at most 10", "strain", "--scan", "gate.opening=1%..2%:1000", "--scan", "gate.bore=10..20 mm:11")]
    [InlineData("--map: shows a single run", "warm", "--scan", "thermostat.setpoint=40..45 °C:2", "--map", "m.svg")]
    [InlineData("at most 5 values", "strain", "--scan", "gate.opening=10%..20%:2", "--scan", "gate.bore=30..40 mm:6", "--plot", "p.svg")]
    public void Refused_together(string said, params string[] arguments)
    {
        Ran ran = Ran.With(arguments);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_text_is_a_short_table_and_a_verdict()
    {
        string text = Ran.With("strain", "--scan", "gate.opening=10%..40%:301").Out;
        string[] lines = text.TrimEnd().Split('\n');
        Assert.InRange(lines.Length, 20, 40);
        Assert.All(lines, line => Assert.InRange(line.Length, 0, 80));
        Assert.Contains("  10 % ", text, StringComparison.Ordinal);
        Assert.Contains("  40 % ", text, StringComparison.Ordinal);
        Assert.Contains("25 of them are shown", text, StringComparison.Ordinal);
        Assert.Matches(@"Strainer or receiver runs over in \d+ of the 301 runs: first at 2\d\.\d %, last\s+at\s+40 %\.", text);
        Assert.Equal("Result\nStrainer or receiver runs over in none of the 2 runs.\n", Ran.With("strain", "-q", "--scan", "gate.opening=10%..11%:2").Out);
    }

    [Theory]
    [InlineData(ExitCode.Done, "gate.opening=10%..20%:2")]
    [InlineData(ExitCode.RanOver, "gate.opening=20%..60%:2")]
    public void A_run_that_ends_badly_can_be_told_by_the_code(int code, string scan) =>
        Assert.Equal(code, Ran.With("strain", "--fail-on-overflow", "--scan", scan).Code);

    [Fact]
    public void Figures_files_and_cancelling()
    {
        string mine = _folder.Write("s.csv", "mine");
        Assert.Equal(ExitCode.FileTrouble, Ran.With("strain", "--scan", "gate.opening=10%..20%:2", "--csv", mine).Code);
        Assert.Equal(ExitCode.Done, Ran.With("strain", "--scan", "gate.opening=10%..30%:5", "--scan", "honey.temperature=35..40 °C:2", "--plot", _folder["p.svg"]).Code);
        Assert.StartsWith("<", File.ReadAllText(_folder["p.svg"]), StringComparison.Ordinal);
        Ran cancelled = Ran.On(["strain", "--scan", "gate.opening=10%..20%:2", "--csv", _folder["c.csv"]], colour: false, cancellation: new CancellationToken(canceled: true));
        Assert.Equal(ExitCode.Cancelled, cancelled.Code);
        Assert.False(File.Exists(_folder["c.csv"]));
        Assert.Equal("mine", File.ReadAllText(mine));
    }

    private static void Same(JsonElement alone, JsonElement scanned, string name)
    {
        Assert.True(alone.ValueKind == scanned.ValueKind, name);

        // The value goes through a conversion and back: its last places may differ.
        if (alone.ValueKind == JsonValueKind.Number)
            Assert.True(Math.Abs(alone.GetDouble() - scanned.GetDouble()) <= 1e-6 * Math.Abs(alone.GetDouble()) + 1e-9, name);
        else
            Assert.Equal(alone.ToString(), scanned.ToString(), StringComparer.Ordinal);
    }

    private string[][] Csv(string name) => [.. File.ReadAllText(_folder[name]).TrimEnd().Split("\r\n").Select(line => line.Split(','))];

    private static JsonDocument Json(params string[] arguments)
    {
        Ran ran = Ran.With([.. arguments, "--json"]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return JsonDocument.Parse(ran.Out);
    }
}
