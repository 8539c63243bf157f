using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests;

/// <summary>The whole way with the real fit: a table of a run whose honey and kit are known, what is learnt of it, what is kept, and what other commands make of that.</summary>
public sealed class FitOfOwnRunTests : IDisposable
{
    private static readonly string[] s_true = ["honey.lot_factor=1.25", "debris.load=0.15 g/kg", "gate.opening=20 %"];
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void What_is_learnt_and_kept_foretells_the_run()
    {
        StrainingResult truth = InventedRun.Truth(s_true);
        _folder.Write("batch.toml", Demo.Text.Replace("opening = \"30 %\" ", "opening = \"20 ± 0.2 %\" ", StringComparison.Ordinal));
        _folder.Write("pail.csv", "# date = 2026-11-20\n" + InventedRun.Csv(truth, 25, 720, seed: 3));
        Ran fit = Ran.With("fit", _folder["pail.csv"], "--batch", _folder["batch.toml"], "--no-sampler", "--save", "--json", "--csv", _folder["r.csv"]);
        Assert.True(fit.Code == ExitCode.Done, fit.Error);
        using JsonDocument json = JsonDocument.Parse(fit.Out);
        JsonElement root = json.RootElement;
        Assert.Equal("fitted", root.GetProperty("status").GetString());

        // The time is known far better than before, the opening being set by a gauge, and the true one lies within eight in ten widened to nearly all.
        double trueS = truth.Strain.To95!.Value.Seconds;
        double before = Math.Log(Of("strainSecondsBeforeP90") / Of("strainSecondsBeforeP10"));
        double after = Math.Log(Of("strainSecondsAfterP90") / Of("strainSecondsAfterP10"));
        Assert.True(after < 0.5 * before, FormattableString.Invariant($"{before} {after}"));
        Assert.InRange(Math.Log(trueS / Of("strainSecondsAfterP50")), -1.5 * after, 1.5 * after);

        // The lot factor's own interval holds what was put in.
        JsonElement lot = root.GetProperty("inputs").EnumerateArray().First(input => input.GetProperty("name").GetString() == "honey.lot_factor");
        Assert.InRange(1.25, lot.GetProperty("low").GetDouble(), lot.GetProperty("high").GetDouble());
        Assert.Equal(51, File.ReadAllText(_folder["r.csv"]).TrimEnd().Split("\r\n").Length);

        // What was kept is read by the others, and the same readings are refused.
        StrainingSetup kept = Loader.ReadRun(Loader.Load(Disk.Files, _folder["batch.toml"], [])).Setup;
        Assert.InRange(Math.Log(trueS / StrainingRun.Simulate(kept).Strain.To95!.Value.Seconds), -0.05, 0.05);
        Ran strain = Ran.With("strain", _folder["batch.toml"]);
        Assert.Contains("by the calibration of", strain.Out.Replace("\n  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, Ran.With("risk", _folder["batch.toml"], "--runs", "64").Code);
        string saved = File.ReadAllText(_folder["batch.toml"]);
        Ran again = Ran.With("fit", _folder["pail.csv"], "--batch", _folder["batch.toml"], "--no-sampler", "--save");
        Assert.Equal(ExitCode.BadInput, again.Code);
        Assert.Contains("is counted already", again.Error, StringComparison.Ordinal);
        Assert.Equal(saved, File.ReadAllText(_folder["batch.toml"]));

        double Of(string name) => root.GetProperty(name).GetDouble();
    }

    [Fact]
    public void Inches_and_pounds_teach_the_same()
    {
        StrainingResult truth = InventedRun.Truth(s_true);
        _folder.Write("batch.toml", Demo.Text);
        _folder.Write("si.csv", "# gate.opening = \"20 %\"\n" + InventedRun.Csv(truth, 12, 600, seed: 4));
        _folder.Write("us.csv", "# gate.opening = \"20 %\"\r\n" + InventedRun.Csv(truth, 12, 600, seed: 4, us: true));
        double[] si = Medians("si.csv");
        Assert.Equal(si, Medians("us.csv"), (a, b) => Math.Abs(a - b) <= 1e-4 * Math.Abs(a));

        double[] Medians(string name)
        {
            Ran fit = Ran.With("fit", _folder[name], "--batch", _folder["batch.toml"], "--no-sampler", "--json");
            Assert.True(fit.Code == ExitCode.Done, fit.Error);
            using JsonDocument json = JsonDocument.Parse(fit.Out);
            return [.. json.RootElement.GetProperty("inputs").EnumerateArray().Select(input => input.GetProperty("value").GetDouble())];
        }
    }

    /// <summary>The table that people start from.</summary>
    private const string TwelveRows = """
        # date = 2026-11-20
        # gate.opening = "20 %"
        time [min],tank level [mm],receiver mass [kg]
        0,293,0.00
        0.5,247,1.25
        1,204,3.90
        1.5,170,7.00
        2,141,9.90
        3,94,14.85
        4,61,18.60
        5,40,21.15
        6,28,22.95
        7,17,24.25
        8,12,24.95
        10,5,25.85
        """;

    [Fact]
    public void The_table_to_copy_from_serves_the_example()
    {
        _folder.Write("my-run.toml", Demo.Text);
        _folder.Write("pail.csv", TwelveRows);
        Ran fit = Ran.With("fit", _folder["pail.csv"], "--batch", _folder["my-run.toml"], "--save-as", _folder["learnt.toml"], "--plot", _folder["fit.svg"]);
        Assert.True(fit.Code == ExitCode.Done, fit.Error);
        Assert.Contains("<svg", File.ReadAllText(_folder["fit.svg"]), StringComparison.Ordinal);
        Assert.Contains("wrote " + _folder["fit.svg"], fit.Error, StringComparison.Ordinal);
        Assert.Contains("FITTED: 24 readings of 1 run are met as they scatter.", fit.Out, StringComparison.Ordinal);
        Assert.Contains("resistance of the cloth", fit.Out, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, Ran.With("strain", _folder["learnt.toml"], "--json").Code);
    }

    [Fact]
    public void A_run_of_another_kit_is_refused_where_it_says_so()
    {
        _folder.Write("batch.toml", Demo.Text);
        _folder.Write("pail.csv", "# screen.factor = 0.7\ntime [min],tank level [mm]\n0,298\n1,250\n2,200\n3,150\n");
        Ran fit = Ran.With("fit", _folder["pail.csv"], "--batch", _folder["batch.toml"], "--save");
        Assert.Equal(ExitCode.BadInput, fit.Code);
        Assert.StartsWith(_folder["pail.csv"] + ": screen.factor is 0.7 in the run pail.csv and 1 in the setup", fit.Error, StringComparison.Ordinal);
        Assert.Equal(Demo.Text, File.ReadAllText(_folder["batch.toml"]));
    }
}
