using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Commands.Watching;
using FlowSim.Straining;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>A session with a clock that is moved by hand.</summary>
public sealed class WatchSessionTests : IDisposable
{
    private readonly Folder _folder = new();
    private readonly HandClock _clock = new();

    public void Dispose() => _folder.Dispose();

    private string Log => _folder["run.csv"];

    private string ReadShared()
    {
        using StreamReader reader = new(new FileStream(Log, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd();
    }

    private WatchSession Session(bool scripted = false, UnitChoice units = UnitChoice.Metric) => new(Disk.Files, Log, new BatchSource("run.toml", Demo.Text, []), new Display(units), _clock, scripted);

    private static Reply Kept(WatchSession session, string line)
    {
        Reply reply = session.Take(line);
        Assert.False(reply.Refused, line + ": " + reply.Said);
        return reply;
    }

    private static Reply Refused(WatchSession session, string line, string said)
    {
        Reply reply = session.Take(line);
        Assert.True(reply.Refused, line + ": " + reply.Said);
        Assert.False(reply.Changed);
        Assert.Contains(said, reply.Said, StringComparison.Ordinal);
        return reply;
    }

    [Fact]
    public void Nothing_is_written_before_the_gate_is_opened()
    {
        using WatchSession session = Session();
        Refused(session, "level 247", "the gate is not open yet");
        Assert.False(File.Exists(Log));
        Assert.Contains("gate opened at 14:03:20", Kept(session, "open").Said, StringComparison.Ordinal);
        Assert.True(File.Exists(Log));
        Refused(session, "open", "open since 14:03:20");
    }

    [Fact]
    public void Entries_are_kept_with_their_times_and_are_the_same_after_a_restart()
    {
        AttendedRun before;
        using (WatchSession session = Session())
        {
            Kept(session, "open");
            _clock.Move(30);
            Assert.Contains("kept: level 247 mm at 30", Kept(session, "level 247").Said, StringComparison.Ordinal);
            _clock.Move(30);
            Kept(session, "pond 40");
            Kept(session, "scrape");
            Kept(session, "gate 25 %");
            Kept(session, "gate 20 %");
            _clock.Move(60);
            Kept(session, "mass 3.9 kg");
            Kept(session, "note the hose slipped, \"twice\"");
            Kept(session, "level 200");
            before = session.Run;
        }

        _clock.Move(1000);
        using WatchSession again = Session();
        Assert.Null(again.SetAside);
        Assert.Equal(before.Steps, again.Run.Steps);
        Assert.Equal(before.Series.Count, again.Run.Series.Count);
        Assert.All(before.Series.Zip(again.Run.Series), pair => Assert.Equal(pair.First.Readings, pair.Second.Readings));
        Assert.Equal(1120.4, again.ElapsedS, 0.01); // The log keeps the whole second of the opening.
        TimedSeries level = again.Run.Series.Single(series => series.Quantity == StrainingObservable.TankLevel);
        Assert.Equal([0.247, 0.2], level.Readings.Select(reading => Math.Round(reading.Value, 9)));
        Assert.Equal([30.4, 120.4], level.Readings.Select(reading => Math.Round(reading.At.Seconds, 6)));

        // Two moves in the same moment lie a tenth of a second apart, so that fit can tell them.
        Assert.Equal([null, 25, 20], again.Run.Steps.Select(step => step.Opening is { } opening ? Math.Round(opening.Percent, 9) : (double?)null));
        Assert.True(again.Run.Steps[2].At > again.Run.Steps[1].At);
    }

    [Fact]
    public void What_cannot_be_is_refused_with_what_can_and_what_is_unlikely_is_kept()
    {
        using WatchSession session = Session();
        Kept(session, "open");
        Refused(session, "@0s scrape", "nothing is on the cloth");
        _clock.Move(60);
        Refused(session, "level 2470", "nearest that can be: 247 mm (a digit too many?)");
        Refused(session, "mass 500 kg", "above what the receiver holds");
        Refused(session, "pond 3 m", "above the strainer's rim");
        Refused(session, "@2:00 level 200", "still to come");
        Kept(session, "@0:30 level 240");
        Refused(session, "@0:20 level 245", "before the last entry");
        Kept(session, "level 5");
        Assert.Equal(2, session.Entries);
        Assert.Contains("taken back: 60.4,5", Kept(session, "undo").Said, StringComparison.Ordinal);
        Assert.Equal(1, session.Entries);
        Kept(session, "undo");
        Refused(session, "undo", "no entry to take back");
        Assert.Contains("# taken back: 30.0,240", ReadShared(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_clock_set_back_does_not_run_time_backwards()
    {
        using WatchSession session = Session();
        Kept(session, "open");
        _clock.Move(60);
        Kept(session, "level 200");
        _clock.Move(-3600);
        Assert.Equal(60.4, session.ElapsedS, 0.01);
        Kept(session, "level 195");
    }

    [Fact]
    public void Us_units_go_into_the_headings_of_a_new_log()
    {
        using (WatchSession session = Session(units: UnitChoice.Us))
        {
            Kept(session, "gate 20 %");
            _clock.Move(20);
            Assert.Contains("kept: level 9.7 in", Kept(session, "level 9.7").Said, StringComparison.Ordinal);
        }

        using WatchSession metric = Session();
        Assert.Equal(9.7 * 0.0254, metric.Run.Series[0].Readings[0].Value, 1e-9);
        _clock.Move(20);
        Kept(metric, "level 8.5");
        Assert.Equal(8.5 * 0.0254, metric.Run.Series[0].Readings[1].Value, 1e-9);
    }

    [Fact]
    public void A_table_of_somebody_else_is_not_gone_on_with()
    {
        const string Theirs = "time [min],tank level [mm]\n0,298\n1,250\n";
        File.WriteAllText(Log, Theirs);
        Assert.Contains("does not say when the gate was opened", Assert.Throws<FileTroubleException>(() => Session()).Message, StringComparison.Ordinal);
        File.WriteAllText(Log, "# gate opened 2026-11-29 14:03:20 UTC\n" + Theirs.Replace("time [min]", "clock", StringComparison.Ordinal).Replace("0,", "14:00,", StringComparison.Ordinal));
        Assert.ThrowsAny<Exception>(() => Session());
        File.WriteAllText(Log, Theirs);
        Assert.Equal(Theirs, File.ReadAllText(Log));
    }

    /// <summary>Whatever is typed, the log reads back to the same readings and steps.</summary>
    [Fact]
    public void Any_typing_leaves_a_log_that_reads_back_to_the_same()
    {
        string[] lines = ["level 247", "l 24.7 cm", "pond 40", "mass 3.9 kg", "m 4 lb", "scrape", "gate 40 %", "gate 7.5", "shut", "undo", "level 9999", "note two words", "@0:10 level 3", "nonsense", "", "level", "gate 140"];
        for (int seed = 0; seed < 30; seed++)
        {
            Random random = new(seed);
            File.Delete(Log);
            AttendedRun before;
            using (WatchSession session = Session())
            {
                for (int i = random.Next(40); i > 0; i--)
                {
                    _clock.Move(random.Next(3) == 0 ? 0 : 40 * random.NextDouble());
                    session.Take(random.Next(4) == 0 && !session.IsOpened ? "open" : lines[random.Next(lines.Length)]);
                }

                before = session.Run;
                if (!session.IsOpened)
                    continue;
            }

            using WatchSession again = Session();
            Assert.Equal(before.Steps, again.Run.Steps);
            Assert.All(before.Series.Zip(again.Run.Series), pair => Assert.Equal(pair.First.Readings, pair.Second.Readings));
            Assert.Equal(before.Series.Count, again.Run.Series.Count);
        }
    }
}
