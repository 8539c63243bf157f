using System.Globalization;
using System.Text.Json;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests.Input;

/// <summary>A <c>[calibration]</c> from its writer to its reader, and what it does in every command.</summary>
public sealed class CalibrationTableTests : IDisposable
{
    private const string Table = """

        [calibration]
        date = "2026-11-27"
        runs = ["pail.csv, 2026-11-20, 0123456789abcdef", "b.csv, undated, fedcba9876543210"]
        "honey.lot_factor" = "1.5 x/ 1.05"
        "screen.factor" = "0.7 x/ 1.1"
        debris.load = "0.1 g/kg x/ 1.5"
        correlated = ["honey.lot_factor, screen.factor, -0.9", "screen.factor, debris.load, 0.1"]

        """;

    /// <summary>The example without the heading of the section that the tests bring.</summary>
    private static readonly string s_demo = Demo.Text.Replace("\n[calibration]\n", "\n", StringComparison.Ordinal);

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("metric", "\n")]
    [InlineData("us", "\r\n")]
    public void What_is_written_reads_back(string system, string newLine)
    {
        CalibratedInputs written = InventedFit.Calibrated();
        string text = CalibrationToml.Of(written, new DateOnly(2026, 11, 27), Words.Value<UnitChoice>(system), newLine);
        Assert.Equal(newLine == "\r\n", text.Contains('\r', StringComparison.Ordinal));
        Problems problems = new();
        CalibrationTable? table = CalibrationReader.Read(TomlReader.Read(text, "table", problems), problems, new Journal(new Spot("table", 1, 1)));
        Assert.Empty(problems.All.Select(problem => problem.ToString()));
        CalibratedInputs read = table!.ToInputs()!;
        Assert.Equal(written.Runs, read.Runs);
        Assert.Equal(new DateOnly(2026, 11, 27), table.Date);
        Assert.Equal(written.Inputs.Select(input => input.Input.Name).Order(StringComparer.Ordinal), read.Inputs.Select(input => input.Input.Name).Order(StringComparer.Ordinal));
        foreach (UncertainInput input in written.Inputs)
        {
            Distribution back = read.Inputs.Single(other => other.Input == input.Input).Spread;
            double width = input.Spread.Quantile(0.84) - input.Spread.Quantile(0.16);
            foreach (double at in new[] { 0.16, 0.5, 0.84 })
                Assert.True(Math.Abs(input.Spread.Quantile(at) - back.Quantile(at)) <= (input.Input == StrainingInputs.DebrisCapture ? 1e-2 : 1e-3) * width, FormattableString.Invariant($"{input.Input.Name} at {at}: {input.Spread.Quantile(at)} {back.Quantile(at)}"));
        }

        foreach (InputCorrelation pair in written.Correlations)
            Assert.Equal(pair.Strength, read.Correlations.Single(other => other.One == pair.One && other.Other == pair.Other).Strength, 5e-5);
    }

    [Fact]
    public void Correlations_stay_possible_after_rounding()
    {
        // Three inputs that are one and the same but for 1e-6: rounded to four decimals the matrix would have no variance left.
        UncertainInput[] inputs = [.. InventedFit.Calibrated().Inputs.Take(3)];
        double tight = 1 - 1e-6;
        InputCorrelation[] pairs =
        [
            new(inputs[0].Input.Name, inputs[1].Input.Name, tight), new(inputs[0].Input.Name, inputs[2].Input.Name, -tight), new(inputs[1].Input.Name, inputs[2].Input.Name, -tight),
        ];
        IReadOnlyList<InputCorrelation> rounded = CalibrationToml.Rounded(inputs, pairs);
        Assert.Equal(3, rounded.Count);
        double[,] matrix = { { 1, rounded[0].Strength, rounded[1].Strength }, { rounded[0].Strength, 1, rounded[2].Strength }, { rounded[1].Strength, rounded[2].Strength, 1 } };
        _ = new GaussianCopula(matrix); // Throws where it is impossible.
        Assert.All(rounded, pair => Assert.InRange(Math.Abs(pair.Strength), 0.998, 0.9999));
        Assert.All(rounded, pair => Assert.Equal(Math.Round(pair.Strength, 4), pair.Strength, 1e-12));
    }

    [Fact]
    public void Strain_takes_the_medians_and_says_so()
    {
        string calibrated = _folder.Write("run.toml", s_demo + Table);
        string plain = _folder.Write("plain.toml", s_demo);
        Ran with = Ran.With("strain", calibrated, "--json");
        Assert.True(with.Code == ExitCode.Done, with.Error);
        Ran same = Ran.With("strain", plain, "--json", "--set", "honey.lot_factor=1.5", "--set", "screen.factor=0.7", "--set", "debris.load=0.1 g/kg");
        Assert.Equal(Field(same.Out, "drainSeconds"), Field(with.Out, "drainSeconds"), 1e-6);
        Assert.Equal(Field(same.Out, "peakPondM"), Field(with.Out, "peakPondM"), 1e-9);
        Assert.NotEqual(Field(Ran.With("strain", plain, "--json").Out, "drainSeconds"), Field(with.Out, "drainSeconds"), 1.0);

        string text = Flat(Ran.With("strain", calibrated).Out);
        Assert.Contains("lot factor of viscosity 1.5 by the calibration of 2026-11-27 from 2 runs, in place of what is common; the spread is 1.5 x/ 1.05 [given by you; honey.lot_factor]", text, StringComparison.Ordinal);
        Assert.Contains("as far as the calibration of 2026-11-27 from 2 runs leaves open", text, StringComparison.Ordinal);
        Assert.DoesNotContain("uses the spread", text, StringComparison.Ordinal);
        Assert.Contains("in place of 1.25 in [honey]", Flat(Ran.With("strain", _folder.Write("own.toml", s_demo.Replace("# lot_factor = 1.0", "lot_factor = 1.25", StringComparison.Ordinal) + Table)).Out), StringComparison.Ordinal);
    }

    [Fact]
    public void The_band_of_what_ifs_is_as_narrow_as_what_was_learnt()
    {
        string calibrated = _folder.Write("run.toml", s_demo + Table);
        using JsonDocument with = JsonDocument.Parse(Ran.With("strain", calibrated, "--json").Out);
        using JsonDocument same = JsonDocument.Parse(Ran.With("strain", "--json", "--set", "honey.lot_factor=1.5", "--set", "screen.factor=0.7", "--set", "debris.load=0.1 g/kg").Out);
        Assert.True(Width(with) < 0.5 * Width(same), FormattableString.Invariant($"{Width(with)} {Width(same)}"));

        static double Width(JsonDocument json) => Math.Log(json.RootElement.GetProperty("spread").GetProperty("drainHighSeconds").GetDouble() / json.RootElement.GetProperty("spread").GetProperty("drainLowSeconds").GetDouble());
    }

    [Fact]
    public void Risk_and_setpoint_take_spreads_and_what_goes_together()
    {
        RiskInput input = Loader.ReadRisk(Loader.Load(Disk.Files, _folder.Write("run.toml", s_demo + Table), []));
        var lot = (LogNormalDistribution)input.Question.Inputs!.Single(varied => varied.Input == StrainingInputs.LotFactor).Spread;
        Assert.Equal((1.5, Math.Log(1.05)), (Math.Round(lot.Median, 12), lot.LogStandardDeviation));
        Assert.Equal([("honey.lot_factor", "screen.factor", -0.9), ("screen.factor", "debris.load", 0.1)], input.Question.Correlations.Select(pair => (pair.One, pair.Other, pair.Strength)));
        Ran risk = Ran.With("risk", _folder["run.toml"], "--runs", "64");
        Assert.True(risk.Code == ExitCode.Done, risk.Error);
        Assert.Contains("1.5 x/ 1.05, by the calibration of 2026-11-27 from 2 runs [given by you; honey.lot_factor]", Flat(risk.Out), StringComparison.Ordinal);
        Assert.Contains("honey.lot_factor and screen.factor go together, correlation -0.9 [given by you; calibration.correlated]", Flat(risk.Out), StringComparison.Ordinal);
        Assert.Contains("pairs of the calibration that go together by less than 0.3: 1 [calibration.correlated]", Flat(risk.Out), StringComparison.Ordinal);

        Loaded loaded = Loader.Load(Disk.Files, _folder["run.toml"], ["limits.overflow_tolerance=1 %"]);
        SetpointInput setpoint = Loader.ReadQuestion(loaded);
        Assert.Equal(1.5, setpoint.Question.Straining.Honey.LotFactor, 1e-12);
        Assert.Contains(loaded.Journal.Spreads, spread => spread is { Key: "screen.factor", Calibrated: not null });
    }

    [Theory]
    [InlineData("warm", "--json", "--set", "until.longest=1 h")]
    [InlineData("honey", "--json")]
    [InlineData("strain", "--json", "--scan", "gate.opening=20%..30%:2")]
    public void Other_commands_read_it(params string[] arguments)
    {
        string calibrated = _folder.Write("run.toml", s_demo + Table);
        Ran with = Ran.With([arguments[0], calibrated, .. arguments.Skip(1)]);
        Assert.True(with.Code == ExitCode.Done, with.Error);
        Assert.NotEqual(Ran.With(arguments).Out, with.Out);
        Ran none = Ran.With([arguments[0], calibrated, .. arguments.Skip(1), "--set", "calibration.use=none"]);
        Assert.Equal(Ran.With(arguments).Out.Split('\n').Length, none.Out.Split('\n').Length + (arguments.Contains("--scan") ? 0 : none.Out.Contains("\"calibration.use", StringComparison.Ordinal) ? -1 : 0), 2.0);
        if (arguments[0] == "honey")
            Assert.Contains("1.5 by the calibration", with.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void For_another_lot_the_kit_alone_is_taken()
    {
        string path = _folder.Write("run.toml", s_demo + Table.Replace("runs =", "use = \"kit\"\nruns =", StringComparison.Ordinal));
        Loaded loaded = Loader.Load(Disk.Files, path, []);
        StrainingSetup setup = Loader.ReadRun(loaded).Setup;
        Assert.Equal((1.0, 0.7, 0.3), (setup.Honey.LotFactor, Math.Round(setup.Strainer.ScreenFactor, 12), Math.Round(setup.Debris.Load.PartsPerThousand, 12)));
        Assert.Empty(loaded.Journal.Calibration!.Correlations);
        Assert.Contains("only what is not of the honey is taken", string.Join('\n', loaded.Journal.Echoes), StringComparison.Ordinal);
        Assert.Equal(1.0, Loader.ReadRun(Loader.Load(Disk.Files, path, ["calibration.use=none"])).Setup.Strainer.ScreenFactor);
        Assert.Equal(1.5, Loader.ReadRun(Loader.Load(Disk.Files, path, ["calibration.use=all"])).Setup.Honey.LotFactor, 1e-12);
    }

    [Fact]
    public void An_option_wins_and_drops_what_went_together_with_it()
    {
        Loaded loaded = Loader.Load(Disk.Files, _folder.Write("run.toml", s_demo + Table), ["screen.factor=1"]);
        RiskInput input = Loader.ReadRisk(loaded);
        Assert.Equal(1, input.Question.Setup.Strainer.ScreenFactor);
        Assert.Empty(input.Question.Correlations);
        Assert.Contains("screen.factor: --set screen.factor=1 takes the place of 0.7 x/ 1.1 of the calibration of 2026-11-27 from 2 runs; what went together with it is dropped", loaded.Journal.Echoes);
    }

    [Fact]
    public void What_the_file_ties_itself_is_not_tied_twice()
    {
        string own = s_demo.Replace("\n[risk]\n", "\n[risk]\ncorrelated = [\"screen.factor, honey.lot_factor, -0.2\"]\n", StringComparison.Ordinal);
        RiskInput input = Loader.ReadRisk(Loader.Load(Disk.Files, _folder.Write("run.toml", own + Table), []));
        Assert.Equal([-0.2, 0.1], input.Question.Correlations.Select(pair => pair.Strength));
    }

    [Theory]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_facter\" = \"1.5 x/ 1.05\"", "nearest: \"honey.lot_factor\"")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = \"50 x/ 1.05\"", "honey.lot_factor: \"50 x/ 1.05\"")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = \"1.5 x/ 5000\"", "allowed: 1 to 1000")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = \"1.5 x/ 1\"", "known exactly")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = 1.5", "has no spread")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = \"1.5\"", "has no spread")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = [\"1.5 x/ 1.05\"]", "is a list, but a text in quotes is wanted")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"honey.lot_factor\" = \"1.5 x/ 1.05\"\nhoney.lot_factor = \"1.4 x/ 1.05\"", "stands twice in [calibration]")]
    [InlineData("\"honey.lot_factor\" = \"1.5 x/ 1.05\"", "\"gate.opening\" = \"30 ± 2 %\"", "is of one run and neither of honey nor kit; write it in [gate]")]
    [InlineData("\"screen.factor\" = \"0.7 x/ 1.1\"", "\"screen.factor\" = \"0.7 mm x/ 1.1\"", "plain number")]
    [InlineData("debris.load = \"0.1 g/kg x/ 1.5\"", "debris.load = \"0.1 x/ 1.5\"", "needs one")]
    [InlineData("debris.load = \"0.1 g/kg x/ 1.5\"", "", "names debris.load, which has no value in [calibration]")]
    [InlineData("\"2026-11-27\"", "\"27.11.2026\"", "write year, month and day as \"2026-11-27\"")]
    [InlineData("\"2026-11-27\"", "\"2026-02-30\"", "is not a date")]
    [InlineData("\"2026-11-27\"", "2026-11-27", "is a date or a table, but a text in quotes is wanted")]
    [InlineData("date = \"2026-11-27\"", "", "calibration.date is missing")]
    [InlineData("pail.csv, 2026-11-20, 0123456789abcdef", "pail.csv, 2026-11-20", "is not a run with its day")]
    [InlineData("pail.csv, 2026-11-20, 0123456789abcdef", "pail.csv, 2026-11-20, 0123456789abcdeg", "is not a run with its day")]
    [InlineData("pail.csv, 2026-11-20, 0123456789abcdef", "pail.csv, 2026-11-20, fedcba9876543210", "counts one run twice")]
    [InlineData("runs = [", "rums = [", "nearest: \"runs\"")]
    [InlineData("correlated = [", "use = \"kitt\"\ncorrelated = [", "nearest: \"kit\"")]
    [InlineData("screen.factor, -0.9\"", "screen.factor, -1.9\"", "not between -1 and 1")]
    [InlineData("screen.factor, -0.9\"", "screen.factor, -1\"", "not between -1 and 1")]
    [InlineData("screen.factor, -0.9\"", "screen.factor\"", "is not two keys and a correlation")]
    [InlineData("screen.factor, -0.9\"", "screen.facter, -0.9\"", "nearest: \"screen.factor\"")]
    [InlineData("screen.factor, -0.9\"", "honey.lot_factor, -0.9\"", "ties an input to itself")]
    [InlineData("\"screen.factor, debris.load, 0.1\"", "\"screen.factor, honey.lot_factor, -0.9\"", "tied already")]
    [InlineData("\"screen.factor, debris.load, 0.1\"", "\"screen.factor, debris.load, 0.9\", \"honey.lot_factor, debris.load, 0.9\"", "contradict each other; multiplied by anything below 0.55")]
    public void Hostile_tables(string text, string inPlace, string said)
    {
        Assert.Contains(text, Table, StringComparison.Ordinal);
        string path = _folder.Write("run.toml", s_demo + Table.Replace(text, inPlace, StringComparison.Ordinal));
        foreach (string command in new[] { "strain", "risk" })
        {
            Ran ran = Ran.With(command, path);
            Assert.True(ran.Code == ExitCode.BadInput, command + ": " + ran.Out);
            Assert.Empty(ran.Out);
            Assert.Contains(ran.Error.Split('\n'), line => line.StartsWith(path + ", line ", StringComparison.Ordinal) && line.Contains(said, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void One_of_another_way_of_saying_it_is_replaced_by_an_option()
    {
        string path = _folder.Write("run.toml", s_demo + Table.Replace("correlated", "\"gate.bore\" = \"37 ± 0.5 mm\"\ncorrelated", StringComparison.Ordinal));
        Assert.Equal(37, Loader.ReadRun(Loader.Load(Disk.Files, path, [])).Setup.Gate.Bore.Millimeters, 1e-9);
        Ran ran = Ran.With("strain", path, "--set", "gate.use=gate-38mm");
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        Assert.Contains("gate.bore: --set gate.use=gate-38mm takes the place of 37 ± 0.5 mm", Flat(ran.Out), StringComparison.Ordinal);
    }

    private static string Flat(string text) => text.Replace("\n  ", " ", StringComparison.Ordinal).Replace("\n", " ", StringComparison.Ordinal);

    private static double Field(string json, string name)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return document.RootElement.GetProperty(name).GetDouble();
    }
}
