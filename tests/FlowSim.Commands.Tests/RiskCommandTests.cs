using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Tests;

/// <summary>The command from its options to its files, with few runs.</summary>
public sealed class RiskCommandTests : IDisposable
{
    private static readonly string[] s_few = ["--runs", "256"];
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void It_says_what_the_library_says_on_any_number_of_threads()
    {
        using JsonDocument one = Json([.. s_few, "--threads", "1"]);
        using JsonDocument three = Json([.. s_few, "--threads", "3"]);
        Assert.Equal(one.RootElement.ToString(), three.RootElement.ToString(), StringComparer.Ordinal);
        RiskAnswer expected = RiskAnalysis.Of(Loader.ReadRisk(Loader.Load(Disk.Files, null, ["risk.runs=256"])).Question);
        Assert.Equal(expected.Overflow.Value, one.RootElement.GetProperty("overflowProbability").GetDouble());
        Assert.Equal(expected.Overflow.High, one.RootElement.GetProperty("overflowProbabilityHigh").GetDouble());
        Assert.Equal(expected.WidestOpening.Opening.DecimalFractions, one.RootElement.GetProperty("widestOpening").GetDouble());
        Assert.Equal(expected.Strain.P50!.Value.Seconds, one.RootElement.GetProperty("strainSecondsP50").GetDouble());
        Assert.Equal(expected.Runs, one.RootElement.GetProperty("runs").GetInt64());
        Assert.Equal(expected.Drivers.Drivers.Select(driver => driver.Name), one.RootElement.GetProperty("drivers").EnumerateArray().Select(driver => driver.GetProperty("name").GetString()!), StringComparer.Ordinal);
    }

    [Fact]
    public void The_options_are_the_keys()
    {
        string path = _folder.Write("run.toml", Demo.Text.Replace("\n[risk]\n", "\n[risk]\ntolerance = \"2 %\"\nruns = 256\nseed = 5\n", StringComparison.Ordinal));
        Ran file = Ran.With("risk", path, "--json");
        Ran options = Ran.With("risk", "--json", "--tolerance", "2 %", "--runs", "256", "--seed", "5");
        Assert.Equal(ExitCode.Done, file.Code);
        Assert.Equal(file.Out, options.Out);
        using JsonDocument other = Json([.. s_few, "--seed", "6"]);
        using JsonDocument same = JsonDocument.Parse(options.Out);
        Assert.NotEqual(same.RootElement.GetProperty("overflowProbability").GetDouble(), other.RootElement.GetProperty("overflowProbability").GetDouble());
    }

    [Fact]
    public void A_narrower_gate_is_less_likely_to_run_over_and_a_worse_spread_more()
    {
        double Chance(params string[] settings)
        {
            using JsonDocument json = Json([.. s_few, .. settings.SelectMany(setting => new[] { "--set", setting })]);
            return json.RootElement.GetProperty("overflowProbability").GetDouble();
        }

        double narrow = Chance("gate.opening=22%");
        double wide = Chance("gate.opening=40%");
        Assert.True(narrow < wide, FormattableString.Invariant($"{narrow} {wide}"));

        // Ten times the debris in two of three batches, where the common spread has 2.4 times.
        Assert.True(Chance("gate.opening=22%", "debris.load=0.3 g/kg x/ 10") > narrow);
    }

    [Fact]
    public void Files_are_written_whole_and_told()
    {
        Ran ran = Ran.With(["risk", "-q", .. s_few, "--csv", _folder["r.csv"], "--plot", _folder["r.svg"], "--map", _folder["m.png"], "--times", _folder["t.svg"], "--runs", "64"]);
        Assert.Equal(ExitCode.BadInput, ran.Code); // --runs twice
        ran = Ran.With(["risk", "-q", "--runs", "64", "--csv", _folder["r.csv"], "--plot", _folder["r.svg"], "--map", _folder["m.png"], "--times", _folder["t.svg"]]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Equal(["m.png", "r.csv", "r.svg", "t.svg"], Directory.GetFiles(_folder.Path).Select(Path.GetFileName).Order(StringComparer.Ordinal)!, StringComparer.Ordinal);
        Assert.StartsWith("time_s,overflow_probability_low,", File.ReadAllText(_folder["r.csv"]), StringComparison.Ordinal);
        Assert.Equal(4, ran.Error.Split('\n').Count(line => line.StartsWith("wrote ", StringComparison.Ordinal)));
    }

    [Fact]
    public void Cancelled_it_leaves_nothing()
    {
        Ran ran = Ran.On(["risk", "--json", "--csv", _folder["r.csv"], "--map", _folder["m.png"]], colour: false, cancellation: new CancellationToken(canceled: true));
        Assert.Equal(ExitCode.Cancelled, ran.Code);
        Assert.Empty(ran.Out);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Theory]
    [InlineData(ExitCode.AboveTolerance, "--fail-above", "--set", "gate.opening=50%")]
    [InlineData(ExitCode.Done, "--set", "gate.opening=50%")]
    [InlineData(ExitCode.Done, "--fail-above", "--set", "gate.opening=10%")]
    [InlineData(ExitCode.AboveTolerance, "--fail-above", "--scan", "gate.opening=10%..50%:2")]
    [InlineData(ExitCode.BadInput, "--threads", "0")]
    [InlineData(ExitCode.BadInput, "--threads", "many")]
    [InlineData(ExitCode.BadInput, "--seed", "-1")]
    [InlineData(ExitCode.BadInput, "--tolerance", "0.01")]
    [InlineData(ExitCode.BadInput, "--tolerance", "1%", "--set", "risk.tolerance=2%")]
    [InlineData(ExitCode.BadInput, "--scan", "gate.opening=10%..50%:2", "--map", "m.png")]
    [InlineData(ExitCode.HoneyRefused, "--set", "honey.form=gelling")]
    public void Codes(int code, params string[] arguments)
    {
        Ran ran = Ran.With(["risk", .. s_few, .. arguments]);
        Assert.True(code == ran.Code, FormattableString.Invariant($"{ran.Code}: {ran.Error}"));
    }

    [Theory]
    [InlineData("--tolerance 80%", "--tolerance 80%: risk.tolerance: \"80%\"")]
    [InlineData("--runs 1", "--runs 1: risk.runs: \"1\" is outside what is allowed, 64 to 10000000")]
    [InlineData("--threads 2000", "--threads 2000: is not a number of threads; allowed: a whole number, 1 to 1024")]
    [InlineData("--tolerence 1%", "nearest: --tolerance")]
    public void Mistakes_name_the_option(string line, string said) =>
        Assert.Contains(said, Ran.With(["risk", .. line.Split(' ')]).Error, StringComparison.Ordinal);

    [Fact]
    public void A_scan_of_chances_has_one_row_each()
    {
        Ran ran = Ran.With(["risk", .. s_few, "--scan", "gate.opening=15%..45%:3", "--csv", _folder["s.csv"], "--json"]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        using var json = JsonDocument.Parse(ran.Out);
        double[] chances = [.. json.RootElement.EnumerateArray().Select(row => row.GetProperty("overflowProbability").GetDouble())];
        Assert.Equal(chances.Order(), chances);
        Assert.Equal(4, File.ReadAllText(_folder["s.csv"]).TrimEnd().Split("\r\n").Length);
        using JsonDocument alone = Json([.. s_few, "--set", "gate.opening=30%"]);
        Assert.Equal(alone.RootElement.GetProperty("overflowProbability").GetDouble(), chances[1], 1 / 256.0);
    }

    private static JsonDocument Json(params string[] arguments)
    {
        Ran ran = Ran.With(["risk", "--json", .. arguments]);
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        return JsonDocument.Parse(ran.Out);
    }
}
