using System.Text;
using System.Text.Json;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Console;

namespace FlowSim.Commands.Tests;

/// <summary>The command around the fit, with invented answers: what is asked, shown, kept and refused.</summary>
public sealed class FitCommandTests : IDisposable
{
    private const string Csv = "# date = 2026-11-20\ntime [min],tank level [mm],note\n0,298,\n1,250,\n2,200,gate 25 %\n3,150,\n4,120,\n";

    private static readonly DateOnly s_today = new(2026, 11, 27);
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void One_screen_says_what_was_learnt_and_what_it_changes()
    {
        Ran ran = Fit(request => request with { Quiet = true });
        Assert.Equal(ExitCode.Done, ran.Code);
        string[] lines = ran.Out.TrimEnd().Split('\n');
        Assert.InRange(lines.Length, 8, 24);
        Assert.All(lines, line => Assert.InRange(line.Length, 0, Surroundings.Widest));
        Assert.Contains("FITTED: 5 readings of 1 run are met as they scatter.", ran.Out, StringComparison.Ordinal);
        Assert.Contains("  lot factor of viscosity  1 → 1.12 (1.02 to 1.24) settled", ran.Out, StringComparison.Ordinal);
        Assert.Contains("  moisture                 17.8 → 17.8 % (17.6 to 18.1 %) narrowed", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Not shown by these runs: debris.", ran.Out, StringComparison.Ordinal);
        Assert.Contains("only their product shows", ran.Out, StringComparison.Ordinal);
        Assert.Contains("412 independent draws at least", ran.Out, StringComparison.Ordinal);
        Assert.Contains("31 in 100 → 1 in 83", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Another run at 40 °C", ran.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("Fourth", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_whole_page_tells_how_the_readings_are_met_and_the_table_to_copy()
    {
        Ran ran = Fit();
        string flat = ran.Out.Replace("\n  ", " ", StringComparison.Ordinal);
        Assert.Contains("tank level [mm]: 5 readings, scatter 1.2 mm, 1 further off than three times that", flat, StringComparison.Ordinal);
        Assert.Contains("Clock −3 s ± 1 s against the opening of the gate; zero +1.1 mm ± 0.4 mm", flat, StringComparison.Ordinal);
        Assert.Contains("the variance counts 1.6 times for it", flat, StringComparison.Ordinal);
        Assert.Contains("Nothing was fitted – these figures are invented – do not use them", flat, StringComparison.Ordinal);
        Assert.Contains("the gate follows the notes: 30 % from 0 s, 25 % from 2 min 00 s", flat, StringComparison.Ordinal);
        Assert.Contains("level in the tank", ran.Out, StringComparison.Ordinal);
        string table = ran.Out[ran.Out.IndexOf("[calibration]\n", StringComparison.Ordinal)..];
        Assert.Equal(ExitCode.Done, Ran.With("strain", _folder.Write("copied.toml", Demo.Text.Replace("\n[calibration]\n", "\n# ", StringComparison.Ordinal) + "\n" + table)).Code);
        Assert.Equal(Demo.Text, File.ReadAllText(_folder["batch.toml"]));
    }

    [Fact]
    public void Intervals_that_no_sampler_checked_are_said_to_be_so() =>
        Assert.Contains("no sampler has checked them", Fit(request => request with { NoSampler = true, Quiet = true }).Out, StringComparison.Ordinal);

    [Theory]
    [InlineData(CalibrationStatus.Fitted, "FITTED: ", ExitCode.Done)]
    [InlineData(CalibrationStatus.FittedPoorly, "FITTED POORLY: ", ExitCode.Done)]
    [InlineData(CalibrationStatus.NotFound, "NO FIT: ", ExitCode.NoFit)]
    public void The_outcome_is_said_plainly(CalibrationStatus status, string said, int code)
    {
        Ran ran = Fit(request => request with { Save = true, Csv = _folder["r.csv"], Plot = status == CalibrationStatus.NotFound ? _folder["f.svg"] : null }, status);
        Assert.Equal(code, ran.Code);
        Assert.Contains(said, ran.Out, StringComparison.Ordinal);
        bool kept = code == ExitCode.Done;
        Assert.Equal(kept, File.ReadAllText(_folder["batch.toml"]) != Demo.Text);
        Assert.Equal(kept, File.Exists(_folder["r.csv"]));
        Assert.False(File.Exists(_folder["f.svg"]));
        Assert.Equal(kept, !ran.Out.Contains("Nothing is to be kept", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("\n", false)]
    [InlineData("\r\n", true)]
    public void Saving_adds_the_table_and_leaves_every_other_byte(string newLine, bool mark)
    {
        // Without a section of that name, the end of the last line left open.
        string before = (mark ? "\uFEFF" : string.Empty) + Demo.Text[..Demo.Text.IndexOf("[fit]", StringComparison.Ordinal)].TrimEnd().Replace("\n", newLine, StringComparison.Ordinal);
        Ran ran = Fit(request => request with { Save = true }, batch: before);
        string after = Text("batch.toml");
        Assert.StartsWith(before, after, StringComparison.Ordinal);
        Assert.StartsWith(newLine + newLine + "[calibration]" + newLine, after[before.Length..], StringComparison.Ordinal);
        Assert.Equal(newLine == "\r\n", !after.Replace("\r\n", string.Empty, StringComparison.Ordinal).Contains('\n', StringComparison.Ordinal));
        Assert.Contains("wrote " + _folder["batch.toml"], ran.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, Ran.With("strain", _folder["batch.toml"]).Code);
        Assert.Equal(["batch.toml", "pail.csv"], Directory.GetFiles(_folder.Path).Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Saving_again_replaces_the_table_alone()
    {
        string earlier = "[calibration] # of last year\r\ndate = \"2025-11-01\"\r\nruns = [\r\n  \"old.csv, undated, 00000000000000aa\", # [x]\r\n]\r\n\"honey.lot_factor\" = \"1.3 x/ 1.2\" # gone\r\n# stays\r\n\r\n[run] # stays too\r\npoints = 11\r\n";
        string head = "# \U0001F41D ×/÷ é, so that characters, code units and bytes differ\n";
        head += Demo.Text[..Demo.Text.IndexOf("[fit]", StringComparison.Ordinal)];
        head = head.Replace("\n", "\r\n", StringComparison.Ordinal);
        Fit(request => request with { Save = true }, batch: head + earlier);
        string after = Text("batch.toml");
        Assert.StartsWith(head + "[calibration]\r\ndate = \"2026-11-27\"\r\n", after, StringComparison.Ordinal);
        Assert.EndsWith("]\r\n# stays\r\n\r\n[run] # stays too\r\npoints = 11\r\n", after, StringComparison.Ordinal);
        Assert.DoesNotContain("1.3 x/ 1.2", after, StringComparison.Ordinal);
        Assert.Contains("old.csv, undated, 00000000000000aa", after, StringComparison.Ordinal);
        Assert.Single(after.Split("[calibration]").Skip(1));
    }

    [Fact]
    public void The_example_that_new_writes_can_be_saved_into()
    {
        Fit(request => request with { Save = true });
        string after = Text("batch.toml");
        int at = Demo.Text.IndexOf("[calibration]", StringComparison.Ordinal);
        Assert.StartsWith(Demo.Text[..at] + "[calibration]\ndate", after, StringComparison.Ordinal);
        Assert.EndsWith(Demo.Text[(at + "[calibration]".Length)..], after, StringComparison.Ordinal);
        Assert.Equal(1.123, Loader.ReadRun(Loader.Load(Disk.Files, _folder["batch.toml"], [])).Setup.Honey.LotFactor, 1e-3);
    }

    [Fact]
    public void A_copy_leaves_the_batch_as_it_is()
    {
        Fit(request => request with { SaveAs = _folder["learnt.toml"] });
        Assert.Equal(Demo.Text, Text("batch.toml"));
        Assert.Equal(ExitCode.Done, Ran.With("strain", _folder["learnt.toml"]).Code);
        Assert.Contains("exists already", Assert.Throws<FileTroubleException>(() => Fit(request => request with { SaveAs = _folder["learnt.toml"] })).Message, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, Fit(request => request with { SaveAs = _folder["learnt.toml"], Force = true }).Code);
        Assert.Throws<BadInputException>(() => Fit(request => request with { SaveAs = _folder["pail.csv"], Force = true }));
        Assert.Throws<BadInputException>(() => Fit(request => request with { SaveAs = _folder["batch.toml"], Force = true }));
        Assert.Equal(Csv, Text("pail.csv"));
    }

    [Fact]
    public void A_batch_that_changed_meanwhile_is_left_alone()
    {
        string changed = Demo.Text + "\n# tea\n";
        var trouble = Assert.Throws<FileTroubleException>(() => Fit(request => request with { Save = true }, meanwhile: () => File.WriteAllText(_folder["batch.toml"], changed)));
        Assert.Contains("has changed while the fit was made; nothing is written", trouble.Message, StringComparison.Ordinal);
        Assert.Equal(changed, Text("batch.toml"));
        Assert.Equal(["batch.toml", "pail.csv"], Directory.GetFileSystemEntries(_folder.Path).Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Who_may_read_the_batch_stays_as_it_was()
    {
        if (OperatingSystem.IsWindows())
            return;
        _folder.Write("batch.toml", Demo.Text);
        File.SetUnixFileMode(_folder["batch.toml"], UnixFileMode.UserRead | UnixFileMode.UserWrite);
        File.CreateSymbolicLink(_folder["link.toml"], _folder["batch.toml"]);
        Fit(request => request with { Save = true, File = _folder["link.toml"] }, batch: null);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_folder["batch.toml"]));
        Assert.NotNull(File.ResolveLinkTarget(_folder["link.toml"], returnFinalTarget: false));
        Assert.Contains("\n[calibration]\ndate", Text("batch.toml"), StringComparison.Ordinal);
    }

    [Fact]
    public void An_earlier_calibration_is_carried_on_and_its_runs_count_once()
    {
        CalibrationQuestion? asked = null;
        Fit(request => request with { Save = true }, seen: question => asked = question);
        Assert.Null(asked!.Earlier);
        string saved = Text("batch.toml");

        // The same readings under another name.
        _folder.Write("again.csv", Csv.Replace("0,298,", "0,298.0,", StringComparison.Ordinal));
        var again = Assert.Throws<BadInputException>(() => Fit(request => request with { Runs = [_folder["again.csv"]], Save = true }, batch: saved));
        Assert.Contains("is counted already: its readings are those of \"pail.csv\"", again.Problems.All.Single().What, StringComparison.Ordinal);
        Assert.Equal(saved, Text("batch.toml"));

        _folder.Write("more.csv", Csv.Replace("0,298", "0,297", StringComparison.Ordinal));
        Fit(request => request with { Runs = [_folder["more.csv"]], Save = true }, batch: saved, seen: question => asked = question);
        Assert.Equal("pail.csv", asked!.Earlier!.Runs.Single().Name);
        Assert.Equal(1.123, asked.Earlier.Inputs.Single(input => input.Input == Straining.StrainingInputs.LotFactor).Spread.Median, 1e-3);
        Assert.Equal(1, asked.Setup.Honey.LotFactor);
        Assert.Equal(["pail.csv", "more.csv"], CalibrationOf("batch.toml").Runs.Select(run => run.Name));

        // Of another lot, the kit alone; left out, none.
        Fit(request => request with { Runs = [_folder["more.csv"]], Settings = ["calibration.use=kit"] }, batch: saved, seen: question => asked = question);
        Assert.DoesNotContain(asked.Earlier!.Inputs, input => input.Input.Name.StartsWith("honey.", StringComparison.Ordinal));
        Fit(request => request with { Settings = ["calibration.use=none"] }, batch: saved, seen: question => asked = question);
        Assert.Null(asked.Earlier);
    }

    [Fact]
    public void The_batch_its_options_and_the_runs_own_keys_make_the_question()
    {
        CalibrationQuestion? asked = null;
        _folder.Write("own.csv", "# honey.temperature = \"33 °C\"\n# fit.clock = \"20 s\"\n" + Csv);
        Fit(
            request => request with { Runs = [_folder["own.csv"]], Settings = ["honey.temperature=40 °C", "honey.moisture=17.8 ± 0.1 %", "risk.correlated=honey.moisture, honey.lot_factor, -0.3"], Viscosities = ["35 °C, 2.6 Pa.s x/ 1.06", "95 F, 26 P"], Seed = "7", NoSampler = true },
            seen: question => asked = question);
        Assert.Equal((40d, 33d), (Math.Round(asked!.Setup.HoneyTemperature.DegreesCelsius, 9), Math.Round(asked.Runs[0].Setup.HoneyTemperature.DegreesCelsius, 9)));
        Assert.Equal(20, asked.Runs[0].Series[0].ClockOffset.Seconds);
        Assert.Equal(0.001, asked.Priors!.Single(input => input.Input == Straining.StrainingInputs.Moisture).Spread.StandardDeviation, 1e-12);
        Assert.Equal(-0.3, asked.Correlations.Single().Strength);
        Assert.Equal((7ul, false), (asked.Seed, asked.Sample));
        Assert.Equal([(2.6, Math.Log(1.06)), (2.6, 0.1)], asked.Viscosities.Select(spot => (Math.Round(spot.Viscosity.PascalSeconds, 12), spot.LogStandardDeviation)));
        Assert.Equal(35, asked.Viscosities[1].Temperature.DegreesCelsius, 1e-9);
        Assert.Equal(new DateOnly(2026, 11, 20), asked.Runs[0].Date);
        Fit(seen: question => asked = question);
        Assert.Null(asked.Priors);
        Assert.True(asked.Sample);
    }

    [Theory]
    // What the library says goes to the run or measurement it is of, or to the key of the batch.
    [InlineData(nameof(CalibrationQuestion.Runs), "honey.lot_factor is 1.2 in the run pail.csv and 1 in the setup", "pail.csv: honey.lot_factor is 1.2")]
    [InlineData(nameof(ViscositySpot.Temperature), "Temperature must be within 5 to 80 °C", "--viscosity: ")]
    [InlineData(nameof(TimedSeries.ClockOffset), "ClockOffset is 7200 s; it must be within 0 to 3600 s.", "batch.toml, line ")]
    [InlineData(nameof(TimedSeries.ClockOffset), "ClockOffset is 7200 s; it must be within 0 to 3600 s.", "fit.clock: ")]
    public void What_the_library_refuses_is_laid_where_it_belongs(string argument, string said, string shown)
    {
        _folder.Write("pail.csv", Csv);
        _folder.Write("batch.toml", Demo.Text.Replace("# clock = \"5 s\"", "clock = \"2 h\"", StringComparison.Ordinal));
        FitRequest request = new() { Runs = [_folder["pail.csv"]], File = _folder["batch.toml"], Viscosities = ["35 °C, 2.6 Pa.s"], Save = true };
        var bad = Assert.Throws<BadInputException>(() => FitCommand.Run(request, new Surroundings(TextWriter.Null, TextWriter.Null) { Files = Disk.Files }, (_, _) => throw new ArgumentException(said, argument), default));
        Assert.Contains(shown, bad.Problems.All.Single().ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_honey_that_was_measured_is_one_honey_in_all_runs()
    {
        CalibrationQuestion? asked = null;
        Fit(request => request with { Settings = ["honey.measured=[\"30 °C, 5.1 Pa.s\", \"40 °C, 1.9 Pa.s\"]", "risk.correlated=[\"honey.temperature, room.temperature, 0.5\"]"] }, seen: question => asked = question);
        Assert.NotNull(asked!.Setup.Honey.Viscosity);
        Assert.Same(asked.Setup.Honey.Viscosity, asked.Runs.Single().Setup.Honey.Viscosity);
        Assert.Empty(asked.Correlations);
    }

    [Fact]
    public void Json_has_stable_keys_and_residuals_are_a_table()
    {
        Ran ran = Fit(request => request with { Json = true, Csv = _folder["r.csv"], Save = true });
        using JsonDocument json = JsonDocument.Parse(ran.Out);
        JsonElement root = json.RootElement;
        Assert.Equal("fitted", root.GetProperty("status").GetString());
        Assert.Equal(_folder["batch.toml"], root.GetProperty("saved").GetString());
        JsonElement lot = root.GetProperty("inputs")[0];
        Assert.Equal("honey.lot_factor", lot.GetProperty("name").GetString());
        Assert.Equal(1.1234567, lot.GetProperty("value").GetDouble(), 1e-9);
        Assert.Equal(3, root.GetProperty("correlations").GetArrayLength());
        Assert.Equal(-0.2, root.GetProperty("correlations")[2].GetProperty("strength").GetDouble());
        Assert.Equal(1100, root.GetProperty("strainSecondsAfterP50").GetDouble());
        Assert.Equal(0.012, root.GetProperty("overflowProbabilityAfter").GetDouble());
        Assert.Equal(4, root.GetProperty("measureNext").GetArrayLength());
        Assert.Equal(16, root.GetProperty("runs")[0].GetProperty("fingerprint").GetString()!.Length);
        Assert.Empty(ran.Error);
        string[] rows = File.ReadAllText(_folder["r.csv"]).TrimEnd().Split("\r\n");
        Assert.Equal("run,quantity,time_s,read,fitted,residual_in_scatters,outlier", rows[0]);
        Assert.Equal("pail.csv,tank-level,60,0.25,0.251,-3.5,yes", rows[2]);
    }

    [Fact]
    public void In_us_units_the_page_and_the_table_are_us()
    {
        Ran ran = Fit(request => request with { Units = UnitChoice.Us });
        Assert.Contains("11.7 → 11.7 in", ran.Out, StringComparison.Ordinal);
        Assert.Contains("\"receiver.spacer\" = \"1.18504 ± 0.06693 in\"", ran.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("fit pail.csv", "--batch: is missing: a calibration is of somebody's own kit")]
    [InlineData("fit --batch batch.toml", "RUN.csv: is missing")]
    [InlineData("fit pail.csv --batch batch.toml --save --save-as x.toml", "--save-as: stands beside --save")]
    [InlineData("fit pail.csv --batch batch.toml --plot x.gif", "--plot x.gif: ends neither in .png nor in .svg")]
    [InlineData("fit pail.csv --batch batch.toml --plat x.png", "--plat is not an option of fit")]
    [InlineData("fit pail.csv --batch batch.toml --viscosity 35", "one comma between, as in \"35 °C, 2.6 Pa.s x/ 1.06\"")]
    [InlineData("fit pail.csv --batch batch.toml --viscosity 35,2", "has no unit")]
    [InlineData("fit pail.csv --batch batch.toml --viscosity 35C,2mm", "is a length, but a viscosity is wanted")]
    [InlineData("fit pail.csv --batch batch.toml --viscosity 35C,2Pa.sx/100", "outside what is allowed, x/ 1.001 to x/ 7.39")]
    [InlineData("fit pail.csv --batch batch.toml --viscosity 35C,0Pa.s", "it is above 0")]
    [InlineData("fit pail.csv --batch batch.toml --seed -1", "is not a whole number")]
    [InlineData("fit pail.csv pail.csv --batch batch.toml", "holds the same readings as")]
    [InlineData("fit pail.csv --batch pail.csv", "pail.csv, line ")]
    [InlineData("fit pail.csv --batch batch.toml --set gate.bore=1mm", "gate.bore: \"1mm\"")]
    [InlineData("fit pail.csv --batch batch.toml --set fit.clok=1s", "nearest: \"clock\"")]
    public void Wrong_usage(string line, string said)
    {
        _folder.Write("batch.toml", Demo.Text);
        _folder.Write("pail.csv", Csv);
        Ran ran = Ran.With([.. line.Split(' ').Select(word => File.Exists(_folder[word]) ? _folder[word] : word)]);
        Assert.True(ran.Code == ExitCode.BadInput, ran.Error);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.Empty(ran.Out);
        Assert.Equal(Demo.Text, Text("batch.toml"));
    }

    private Ran Fit(
        Func<FitRequest, FitRequest>? with = null, CalibrationStatus status = CalibrationStatus.Fitted, string? batch = "demo", Action? meanwhile = null, Action<CalibrationQuestion>? seen = null)
    {
        if (batch is not null)
            _folder.Write("batch.toml", batch == "demo" ? Demo.Text : batch);
        _folder.Write("pail.csv", Csv);
        FitRequest request = new() { Runs = [_folder["pail.csv"]], File = _folder["batch.toml"], Today = s_today };
        StringWriter output = new();
        StringWriter error = new();
        int code = FitCommand.Run(
            with?.Invoke(request) ?? request,
            new Surroundings(output, error) { Files = Disk.Files, Figures = new Figures() },
            (question, cancellation) =>
            {
                meanwhile?.Invoke();
                seen?.Invoke(question);
                return InventedFit.Of(status)(question, cancellation);
            },
            default);
        return new Ran(code, output.ToString(), error.ToString());
    }

    /// <summary>The text of a file, its byte-order mark included.</summary>
    private string Text(string name) => new UTF8Encoding(false).GetString(File.ReadAllBytes(_folder[name]));

    private CalibrationTable CalibrationOf(string name)
    {
        Problems problems = new();
        return CalibrationReader.Read(TomlReader.Read(Text(name), name, problems), problems, new Journal(new Spot(name, 1, 1)))!;
    }
}
