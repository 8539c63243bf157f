using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>The command on lines that are piped in, and on a table that is there.</summary>
public sealed class WatchCommandTests : IDisposable
{
    // Invented, and near what the demo's batch would do.
    private const string Script = "open\n@0:10 level 285\n@0:20 level 268\n@0:30 level 252\n@0:40 pond 38\n@0:45 level 230\n@1:00 mass 2.9 kg\n@1:10 scrape\n@1:20 gate 20 %\n@1:30 level 175\n";

    private readonly Folder _folder = new();
    private readonly HandClock _clock = new();

    public void Dispose() => _folder.Dispose();

    private Ran Watch(string input, Func<WatchRequest, WatchRequest>? with = null, CancellationToken cancellation = default)
    {
        if (!File.Exists(_folder["batch.toml"]))
            _folder.Write("batch.toml", Demo.Text);
        StringWriter output = new(), error = new();
        WatchRequest request = new() { File = _folder["batch.toml"], Log = _folder["run.csv"] };
        int code = WatchCommand.Run(with?.Invoke(request) ?? request, new Surroundings(output, error) { Files = Disk.Files, Input = new StringReader(input), Clock = _clock }, cancellation);
        return new Ran(code, output.ToString(), error.ToString());
    }

    [Fact]
    public void Lines_are_kept_the_outlook_is_told_and_fit_reads_the_log()
    {
        Ran ran = Watch(Script);
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("kept: level 285 mm at 10 s", ran.Out, StringComparison.Ordinal);
        Assert.Contains("1 min 30 s since the gate was opened", ran.Out, StringComparison.Ordinal);
        Assert.Contains("An open gate makes no sound", ran.Out, StringComparison.Ordinal);
        Assert.Contains("somebody stays with an open gate", ran.Out, StringComparison.Ordinal);
        Assert.Contains("read  level 175 mm at 1 min 30 s: ", ran.Out, StringComparison.Ordinal);
        Assert.Contains("done  95 % through in ", ran.Out, StringComparison.Ordinal);
        Assert.Contains($"Go on with: flowsim watch {_folder["batch.toml"]} --log {_folder["run.csv"]}", ran.Error, StringComparison.Ordinal);
        Assert.All(ran.Out.Split('\n'), line => Assert.InRange(line.Length, 0, Surroundings.Widest));

        // Two readings of the pond and one of the mass are too few for a fit, which leaves them out and says so.
        Ran fit = Ran.With("fit", _folder["run.csv"], "--batch", _folder["batch.toml"], "--no-sampler");
        Assert.Equal(ExitCode.Done, fit.Code);
        string flat = fit.Out.Replace("\n  ", " ", StringComparison.Ordinal);
        Assert.Contains("\"pond depth [mm]\" has 1 readings", flat, StringComparison.Ordinal);
        Assert.Contains("scraped as noted, after 1 min 10 s", flat, StringComparison.Ordinal);
        Assert.Contains("20 % from 1 min 20 s", flat, StringComparison.Ordinal);
    }

    [Fact]
    public void Going_on_gives_the_same_outlook_as_one_sitting()
    {
        string[] lines = Script.TrimEnd().Split('\n');
        Watch(string.Join('\n', lines[..5]), request => request with { Json = true });
        Ran parted = Watch(string.Join('\n', lines[5..]), request => request with { Json = true });
        File.Move(_folder["run.csv"], _folder["parted.csv"]);
        Ran whole = Watch(Script, request => request with { Json = true });
        Assert.Equal(File.ReadAllText(_folder["parted.csv"]), File.ReadAllText(_folder["run.csv"]));
        Assert.Equal(whole.Out, parted.Out);
        using JsonDocument json = JsonDocument.Parse(whole.Out);
        Assert.Equal(90, json.RootElement.GetProperty("nowSeconds").GetDouble(), 1e-6);
        Assert.True(json.RootElement.GetProperty("fitted").GetBoolean());
        Assert.Equal("shut-when-done", json.RootElement.GetProperty("nextActions").EnumerateArray().Last().GetProperty("what").GetString());
    }

    [Fact]
    public void A_line_that_is_refused_is_told_with_its_number_and_the_rest_is_kept()
    {
        Ran ran = Watch("open\n@0:10 levle 285\n@0:20 level 2680\n@0:30 level 252\nquit\n@0:40 level 240\n");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("line 2: \"levle 285\" is not understood; nearest: \"level\"", ran.Error, StringComparison.Ordinal);
        Assert.Contains("line 3: 2.68 m is above the tank's brim", ran.Error, StringComparison.Ordinal);
        Assert.Contains("1 entry is kept", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_moment_of_a_table_is_looked_at_without_writing()
    {
        const string Table = "time [min],tank level [mm]\n0,298\n0.5,252\n1,211\n1.5,175\n9,20\n";
        _folder.Write("run.csv", Table);
        Ran ran = Watch(string.Empty, request => request with { At = "1.6 min" });
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.Contains("read  level 175 mm at 1 min 30 s", ran.Out, StringComparison.Ordinal);
        Assert.Contains("Learnt from the readings so far", ran.Out, StringComparison.Ordinal);
        Assert.Equal(Table, File.ReadAllText(_folder["run.csv"]));
        Assert.Equal(ExitCode.FileTrouble, Ran.With("watch", "--log", _folder["none.csv"], "--at", "1 min").Code);
    }

    [Theory]
    [InlineData("watch", "--log: is missing")]
    [InlineData("watch --log run.csv --at soon", "--at soon: ")]
    [InlineData("watch --log run.csv --at 99d", "allowed: 0 s to 30 d")]
    public void Bad_usage_is_refused(string command, string said)
    {
        Ran ran = Ran.With(command.Split(' '));
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
        Assert.False(File.Exists("run.csv"));
    }

    [Fact]
    public void What_is_said_of_going_on_leaves_nothing_out()
    {
        Ran ran = Watch("open\n", request => request with { Settings = ["gate.opening=15 %"], Units = UnitChoice.Us });
        Assert.Contains($"--log {_folder["run.csv"]} --set \"gate.opening=15 %\" --units us\n", ran.Error, StringComparison.Ordinal);
        Assert.Contains("pond depth [in]", File.ReadAllText(_folder["run.csv"]), StringComparison.Ordinal);
    }

    [Fact]
    public void The_log_may_not_be_the_batch()
    {
        BadInputException refused = Assert.Throws<BadInputException>(() => Watch(string.Empty, request => request with { Log = request.File }));
        Assert.Contains("the batch", refused.Problems.All[0].ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Ctrl_C_ends_in_good_order()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Ran ran = Watch(Script, cancellation: stop.Token);
        Assert.Equal(ExitCode.Cancelled, ran.Code);
        Assert.Contains("The gate was not opened", ran.Error, StringComparison.Ordinal);
    }
}
