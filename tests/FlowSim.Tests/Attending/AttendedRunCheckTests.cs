using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;

namespace FlowSim.Tests.Attending;

/// <summary>What may be asked of a run, and what of its readings is fitted.</summary>
public class AttendedRunCheckTests
{
    private const double Month = 30 * 86400;

    private static readonly Dictionary<string, AttendedRun> s_taken = new(StringComparer.Ordinal)
    {
        ["nothing yet"] = Plain(),
        ["least tolerance"] = Plain() with { Tolerance = Ratio.FromDecimalFractions(1e-6) },
        ["most tolerance"] = Plain() with { Tolerance = Ratio.FromPercent(50) },
        ["one thread"] = Plain() with { Threads = 1 },
        ["most threads"] = Plain() with { Threads = 1024 },
        ["a reading at the opening"] = Plain() with { Series = [Level((0, 0.11))] },
        ["a reading after a month"] = Plain() with { Series = [Level((Month, 0.01))] },
        ["two readings at once"] = Plain() with { Series = [Level((5, 0.1), (5, 0.11))] },
        ["two quantities"] = Plain() with { Series = [Level((5, 0.1)), Mass((5, 0.1))] },
        ["a move at the opening"] = Plain() with { Steps = [Gate(0, 100), Gate(Month, 0)] },
        ["a scrape at once"] = Plain() with { Steps = [Scraped(0.001)] },
        ["scrape and move at once"] = Plain() with { Steps = [Scraped(5), Gate(5, 10), Scraped(6), Gate(6, 11)] },
        ["most steps"] = Plain() with { Steps = [.. Enumerable.Range(1, 900).Select(i => Gate(i, 10))] },
    };

    public static TheoryData<string> Taken => [.. s_taken.Keys];

    [Theory]
    [MemberData(nameof(Taken))]
    public void A_limit_itself_is_taken(string what) => Assert.Null(Record.Exception(() => AttendedRunCheck.Require(s_taken[what])));

    [Fact]
    public void What_lies_beyond_is_refused_by_name()
    {
        (AttendedRun Bad, string Name)[] cases =
        [
            (Plain() with { Setup = null! }, "run.Setup"),
            (Plain() with { Steps = null! }, "run.Steps"),
            (Plain() with { Series = null! }, "run.Series"),
            (Plain() with { Series = [null!] }, "series"),
            (Plain() with { Series = [new TimedSeries { Quantity = StrainingObservable.TankLevel, Readings = null! }] }, "EquipmentCheck.Present(series).Readings"),
            (Plain() with { Setup = Pail with { Longest = Duration.Zero } }, "Longest"),
            (Plain() with { Tolerance = Ratio.FromDecimalFractions(0.9e-6) }, "Tolerance"),
            (Plain() with { Tolerance = Ratio.FromPercent(50.1) }, "Tolerance"),
            (Plain() with { Threads = 0 }, "Threads"),
            (Plain() with { Threads = 1025 }, "Threads"),
            (Plain() with { Series = [Level((-0.1, 0.1))] }, "At"),
            (Plain() with { Series = [Level((Month + 1, 0.1))] }, "At"),
            (Plain() with { Series = [Level((5, 0.1)), Mass((5, 0.1)), Level((6, 0.1))] }, "Series"),
            (Plain() with { Series = [Level()] }, "Readings"),
            (Plain() with { Series = [Level((5, 0.2))] }, "Value"),
            (Plain() with { Steps = [null!] }, "step"),
            (Plain() with { Steps = [Gate(-0.1, 10)] }, "At"),
            (Plain() with { Steps = [Gate(Month + 1, 10)] }, "At"),
            (Plain() with { Steps = [Scraped(10), Gate(9, 10)] }, "Steps"),
            (Plain() with { Steps = [Gate(10, 10), Scraped(9)] }, "Steps"),
            (Plain() with { Steps = [Gate(10, 10), Scraped(10), Gate(10, 11)] }, "Steps"),
            (Plain() with { Steps = [Scraped(10), Gate(10, 10), Scraped(10)] }, "Steps"),
            (Plain() with { Steps = [Scraped(0)] }, "Steps"),
            (Plain() with { Steps = [Gate(10, 100.1)] }, "Opening"),
            (Plain() with { Steps = [Gate(10, -0.1)] }, "Opening"),
            (Plain() with { Steps = [.. Enumerable.Range(1, 901).Select(i => Gate(i, 10))] }, "Steps"),
        ];
        foreach ((AttendedRun bad, string name) in cases)
            Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(() => AttendedRunCheck.Require(bad)).ParamName);
        Assert.Equal("run", Assert.Throws<ArgumentNullException>(() => AttendedRunCheck.Require(null!)).ParamName);
    }

    [Fact]
    public void Two_scrapes_at_once_are_told_with_their_time_and_one_at_the_opening_as_that()
    {
        string Told(params NotedStep[] steps) => Assert.Throws<ArgumentOutOfRangeException>(() => AttendedRunCheck.Require(Plain() with { Steps = steps })).Message;
        Assert.Contains("10 s", Told(Scraped(10), Scraped(10)), StringComparison.Ordinal);
        Assert.DoesNotContain("0 s", Told(Scraped(0)), StringComparison.Ordinal);
        Assert.Contains("opening", Told(Scraped(0)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_question_is_about_the_run_as_it_was_noted()
    {
        InputCorrelation[] correlations = [new("honey.moisture", "honey.lot_factor", 0.5)];
        AttendedRun run = Plain() with { Steps = [Gate(10, 20)], Series = [Level((5, 0.1))], Correlations = correlations, Seed = 7, Threads = 2 };
        CalibrationQuestion question = AttendedRunCheck.QuestionOf(run);
        Assert.Equal(RunPlans.AsNoted(run).Control.GetType(), question.Setup.Control.GetType());
        TimedRun only = Assert.Single(question.Runs);
        Assert.Same(question.Setup, only.Setup);
        Assert.Equal(run.Series[0].Readings, Assert.Single(only.Series).Readings);
        Assert.Same(run.Priors, question.Priors);
        Assert.Same(correlations, question.Correlations);
        Assert.Equal((false, 7ul, 2), (question.Sample, question.Seed, question.Threads));
        Assert.Equal(CalibrationPriors.For(Pail).Select(prior => prior.Input.Name), AttendedRunCheck.QuestionOf(run with { Priors = null }).Priors!.Select(prior => prior.Input.Name));
    }

    [Theory]
    [InlineData(199)]
    [InlineData(200)]
    [InlineData(201)]
    [InlineData(1000)]
    public void Of_a_long_series_two_hundred_are_fitted_evenly_chosen_with_the_first_and_the_last(int count)
    {
        TimedSeries series = Level([.. Enumerable.Range(0, count).Select(i => ((double)i, 0.1))]);
        IReadOnlyList<TimedReading> fitted = AttendedRunCheck.QuestionOf(Plain() with { Series = [series] }).Runs[0].Series[0].Readings;
        Assert.Equal(Math.Min(count, 200), fitted.Count);
        Assert.Equal((series.Readings[0], series.Readings[^1]), (fitted[0], fitted[^1]));
        double[] gaps = [.. fitted.Zip(fitted.Skip(1), (one, next) => next.At.Seconds - one.At.Seconds)];
        Assert.True(gaps.Max() - gaps.Min() <= 1 && gaps.Min() >= 1);
    }

    [Fact]
    public void Few_readings_are_taken_to_scatter_at_least_as_is_common()
    {
        // A rule's scatter is 1.5 mm: what a resolution of √12 times as much makes; from six readings on half of it is the least.
        double Resolution(int count, double? own = null) => AttendedRunCheck.QuestionOf(Plain() with { Series = [Level([.. Enumerable.Range(0, count).Select(i => ((double)i, 0.1))]) with { Resolution = own }] }).Runs[0].Series[0].Resolution!.Value;
        Assert.Equal(0.0015 * Math.Sqrt(12), Resolution(5), 1e-9);
        Assert.Equal(0.00075, Resolution(6), 1e-12);
        Assert.Equal(0.02, Resolution(5, own: 0.02), 1e-12);
        Assert.Equal(0.002, Resolution(6, own: 0.002), 1e-12);
        Assert.Equal(0.0015 * Math.Sqrt(12), Resolution(1, own: 0.001), 1e-9);
    }
}
