using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>Progress is shown on a terminal, after a second, on one line, and leaves nothing behind.</summary>
public class ProgressLineTests
{
    [Fact]
    public void Nothing_is_written_where_messages_are_piped()
    {
        HandClock clock = new();
        StringWriter error = new();
        using (ProgressLine line = new(new Surroundings(TextWriter.Null, error), "searching", clock))
        {
            line.Report(0.5);
            clock.Move(TimeSpan.FromSeconds(10));
        }

        Assert.Empty(error.ToString());
    }

    [Fact]
    public void A_short_run_shows_nothing()
    {
        HandClock clock = new();
        StringWriter error = new();
        using (new ProgressLine(new Surroundings(TextWriter.Null, error) { ShowsProgress = true }, "searching", clock))
            clock.Move(TimeSpan.FromSeconds(0.9));
        Assert.Empty(error.ToString());
    }

    [Fact]
    public void A_long_one_shows_one_line_and_takes_it_away()
    {
        HandClock clock = new();
        StringWriter error = new();
        using (ProgressLine line = new(new Surroundings(TextWriter.Null, error) { ShowsProgress = true }, "searching", clock))
        {
            line.Report(0.42);
            clock.Move(TimeSpan.FromSeconds(2));
            Assert.EndsWith("\rsearching, 42 %, 2 s", error.ToString(), StringComparison.Ordinal);
            line.Report(7);
            clock.Move(TimeSpan.FromSeconds(1));
            Assert.EndsWith("\rsearching, 100 %, 3 s", error.ToString(), StringComparison.Ordinal);
        }

        clock.Move(TimeSpan.FromSeconds(5));
        Assert.DoesNotContain('\n', error.ToString());
        Assert.Matches(@"\r {21}\r$", error.ToString());
    }

    [Fact]
    public void It_never_fills_a_narrow_terminal()
    {
        HandClock clock = new();
        StringWriter error = new();
        Surroundings around = new(TextWriter.Null, error) { ShowsProgress = true, Width = Surroundings.Narrowest };
        using ProgressLine line = new(around, new string('x', 100), clock);
        clock.Move(TimeSpan.FromSeconds(2));
        Assert.All(error.ToString().Split('\r'), part => Assert.InRange(part.Length, 0, Surroundings.Narrowest - 1));
    }

    /// <summary>A clock that stands until it is moved.</summary>
    private sealed class HandClock : TimeProvider
    {
        private readonly List<HandTimer> _timers = [];
        private TimeSpan _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => _now.Ticks;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            HandTimer timer = new(callback, state, _now + dueTime, period);
            _timers.Add(timer);
            return timer;
        }

        public void Move(TimeSpan by)
        {
            _now += by;
            foreach (HandTimer timer in _timers)
                timer.FireIfDue(_now);
        }
    }

    private sealed class HandTimer(TimerCallback callback, object? state, TimeSpan due, TimeSpan period) : ITimer
    {
        private TimeSpan _due = due;
        private bool _over;

        public void FireIfDue(TimeSpan now)
        {
            if (_over || now < _due)
                return;
            _due = now + period;
            callback(state);
        }

        public bool Change(TimeSpan dueTime, TimeSpan period) => false;

        public void Dispose() => _over = true;

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
