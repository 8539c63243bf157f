using System.Collections.Concurrent;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Commands.Watching;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>The watch with keys and a clock of the test's own.</summary>
public sealed class LiveWatchTests : IDisposable
{
    private readonly Folder _folder = new();
    private readonly HandClock _clock = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task The_bell_rings_once_for_what_is_due(bool sound)
    {
        using WatchSession session = new(Disk.Files, _folder["run.csv"], new BatchSource("run.toml", Demo.Text, []), new Display(UnitChoice.Metric), _clock, scripted: false);
        Assert.True(session.Take("open").Changed);
        _clock.Move(3600); // By then all is due.
        StringWriter written = new();
        TextWriter output = TextWriter.Synchronized(written);
        using Forecaster forecaster = new(CancellationToken.None);
        using BlockingCollection<ConsoleKeyInfo?> keys = [];
        LiveWatch watch = new(session, forecaster, new LiveScreen(output, colour: false, () => (80, 40)), new Display(UnitChoice.Metric), sound);
        Task<int> run = Task.Run(() => watch.Run(keys, [], CancellationToken.None));
        Assert.True(SpinWait.SpinUntil(() => forecaster.Latest is not null, TimeSpan.FromMinutes(2)));
        await Task.Delay(1000); // Five turns of the loop.
        foreach (char c in "quit")
            keys.Add(new ConsoleKeyInfo(c, ConsoleKey.None, false, false, false));
        keys.Add(new ConsoleKeyInfo('\r', ConsoleKey.Enter, false, false, false));
        Assert.Equal(ExitCode.Done, await run.WaitAsync(TimeSpan.FromMinutes(1)));
        string all = written.ToString();
        int due = forecaster.Latest!.At(UnitsNet.Duration.FromSeconds(session.ElapsedS)).NextActions.Select(action => (action.Kind, (long)action.At.Seconds)).Distinct().Count();
        Assert.True(due > 0);
        Assert.Equal(sound ? due : 0, all.Count(c => c == '\a'));
        Assert.Contains("NOW   ", all, StringComparison.Ordinal);
        Assert.Contains("1 h 00 min since the gate was opened", all, StringComparison.Ordinal);
    }

    [Fact]
    public void The_end_of_the_keys_and_Ctrl_C_end_it()
    {
        foreach (bool cancelled in new[] { true, false })
        {
            using WatchSession session = new(Disk.Files, _folder[$"{cancelled}.csv"], new BatchSource("run.toml", Demo.Text, []), new Display(UnitChoice.Metric), _clock, scripted: false);
            using CancellationTokenSource stop = new();
            using Forecaster forecaster = new(stop.Token);
            using BlockingCollection<ConsoleKeyInfo?> keys = [];
            if (cancelled)
                stop.Cancel();
            else
                keys.Add(null);
            LiveWatch watch = new(session, forecaster, new LiveScreen(TextWriter.Null, colour: true, () => (40, 20)), new Display(UnitChoice.Us), sound: true);
            Assert.Equal(cancelled ? ExitCode.Cancelled : ExitCode.Done, watch.Run(keys, [], stop.Token));
            Assert.False(session.IsOpened);
        }
    }
}
