using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;

namespace FlowSim.Tests.Attending;

/// <summary>What was read and done last, the run as it was before, and whether two runs say the same.</summary>
public class AttendedRunTests
{
    private static readonly AttendedRun s_run = Plain() with
    {
        Series = [Level((10, 0.1), (30, 0.09)), Mass((20, 1), (30, 1.5), (30, 1.6))],
        Steps = [Gate(5, 20), Scraped(29), Gate(30, 15), Scraped(31)],
    };

    [Fact]
    public void The_last_entry_is_what_was_read_or_done_last()
    {
        Assert.Equal(S(31), s_run.LastEntry);
        Assert.Equal(S(30), s_run.LastReading);
        Assert.Equal(S(30), (s_run with { Steps = [] }).LastEntry);
        Assert.Equal(S(30), (s_run with { Steps = [Gate(29, 1)] }).LastEntry);
        Assert.Equal(S(5), (s_run with { Series = [], Steps = [Gate(5, 20)] }).LastEntry);
        Assert.Equal(S(31), (s_run with { Series = [Level()] }).LastEntry);
        Assert.Equal(Duration.Zero, Plain().LastEntry);
        Assert.Null(Plain().LastReading);
        Assert.Null((Plain() with { Series = [Level()] }).LastReading);
        Assert.Equal(S(7), (Plain() with { Series = [Level(), Mass((7, 1))] }).LastReading);
        Assert.Equal(S(9), (Plain() with { Series = [Level((9, 0.1)), Mass((7, 1))] }).LastReading);
    }

    [Fact]
    public void Before_the_last_reading_nothing_of_its_moment_was_read_and_nothing_later_done()
    {
        AttendedRun before = s_run.BeforeLastReading();
        Assert.Equal([1, 1], before.Series.Select(series => series.Readings.Count));
        Assert.Equal([S(10), S(20)], before.Series.Select(series => series.Readings[0].At));
        Assert.Equal(s_run.Steps.Take(3), before.Steps);
        AttendedRun first = before.BeforeLastReading();
        Assert.Equal(StrainingObservable.TankLevel, Assert.Single(first.Series).Quantity);
        Assert.Equal(s_run.Steps.Take(1), first.Steps);
        AttendedRun none = first.BeforeLastReading();
        Assert.Empty(none.Series);
        Assert.Same(none, none.BeforeLastReading());
    }

    [Fact]
    public void Copies_say_the_same()
    {
        AttendedRun copy = s_run with { Series = [Level((10, 0.1), (30, 0.09)), Mass((20, 1), (30, 1.5), (30, 1.6))], Steps = [.. s_run.Steps], Threads = 3 };
        Assert.True(s_run.SaysTheSameAs(copy));
        Assert.True(copy.SaysTheSameAs(s_run));
        AttendedRun plain = Plain();
        Assert.True(plain.SaysTheSameAs(plain with { Threads = 5 }));
    }

    public static TheoryData<string> Others => [.. s_others.Keys];

    private static readonly Dictionary<string, Func<AttendedRun>> s_others = new(StringComparer.Ordinal)
    {
        ["setup"] = () => s_run with { Setup = s_run.Setup with { RoomTemperature = Temperature.FromDegreesCelsius(3) } },
        ["priors"] = () => s_run with { Priors = [.. s_run.Priors!] },
        ["earlier"] = () => s_run with { Earlier = new CalibratedInputs { Inputs = [], Correlations = [], Runs = [] } },
        ["correlations"] = () => s_run with { Correlations = new List<InputCorrelation>() },
        ["tolerance"] = () => s_run with { Tolerance = Ratio.FromPercent(2) },
        ["seed"] = () => s_run with { Seed = 2 },
        ["step"] = () => s_run with { Steps = [.. s_run.Steps.Skip(1)] },
        ["steps"] = () => s_run with { Steps = [Gate(5, 21), .. s_run.Steps.Skip(1)] },
        ["a series less"] = () => s_run with { Series = [s_run.Series[0]] },
        ["a series more"] = () => s_run with { Series = [.. s_run.Series, new TimedSeries { Quantity = StrainingObservable.PondDepth, Readings = [] }] },
        ["quantity"] = () => s_run with { Series = [s_run.Series[0] with { Quantity = StrainingObservable.PondDepth }, s_run.Series[1]] },
        ["clock"] = () => s_run with { Series = [s_run.Series[0], s_run.Series[1] with { ClockOffset = S(6) }] },
        ["reading"] = () => s_run with { Series = [s_run.Series[0], Mass((20, 1), (30, 1.5), (30, 1.61))] },
        ["readings"] = () => s_run with { Series = [s_run.Series[0], Mass((20, 1), (30, 1.5))] },
    };

    [Theory]
    [MemberData(nameof(Others))]
    public void Whatever_differs_says_something_else(string what)
    {
        Assert.False(s_run.SaysTheSameAs(s_others[what]()));
        Assert.False(s_others[what]().SaysTheSameAs(s_run));
    }
}
