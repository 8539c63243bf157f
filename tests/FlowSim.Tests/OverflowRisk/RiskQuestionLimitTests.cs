using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The limits of a question, just at them and just beyond.</summary>
public class RiskQuestionLimitTests
{
    private static readonly RiskQuestion Plain = new() { Setup = Pail(30), Runs = 64 };

    private static void Limit(string name, RiskQuestion at, RiskQuestion beyond)
    {
        Assert.Null(Record.Exception(() => RiskQuestionCheck.Require(at)));
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => RiskQuestionCheck.Require(beyond)).ParamName);
    }

    [Fact]
    public void A_limit_may_be_asked_for_and_what_is_beyond_may_not()
    {
        Limit("Tolerance", Plain with { Tolerance = Ratio.FromPercent(1e-4) }, Plain with { Tolerance = Ratio.FromPercent(0.99e-4) });
        Limit("Tolerance", Plain with { Tolerance = Ratio.FromPercent(50) }, Plain with { Tolerance = Ratio.FromPercent(50.01) });
        Limit("MassThatMatters", Plain with { MassThatMatters = Mass.Zero }, Plain with { MassThatMatters = Mass.FromKilograms(-1e-6) });
        Limit("MassThatMatters", Plain with { MassThatMatters = Mass.FromKilograms(1000) }, Plain with { MassThatMatters = Mass.FromKilograms(1001) });
        Limit("LookEvery", Plain with { LookEvery = Seconds(1) }, Plain with { LookEvery = Seconds(0.99) });
        Limit("LookEvery", Plain with { LookEvery = Duration.FromDays(30) }, Plain with { LookEvery = Duration.FromDays(30.01) });
        Limit("Runs", Plain with { Runs = 64 }, Plain with { Runs = 63 });
        Limit("Runs", Plain with { Runs = 10_000_000 }, Plain with { Runs = 10_000_001 });
        Limit("Threads", Plain with { Threads = 1 }, Plain with { Threads = 0 });
        Limit("Threads", Plain with { Threads = 1024 }, Plain with { Threads = 1025 });
    }

    [Fact]
    public void What_is_not_there_is_refused_by_name()
    {
        string? Missing(RiskQuestion? question) => Assert.Throws<ArgumentNullException>(() => RiskQuestionCheck.Require(question!)).ParamName;

        Assert.Equal("question", Missing(null));
        Assert.Equal("question.Setup", Missing(Plain with { Setup = null! }));
        Assert.Equal("question.Correlations", Missing(Plain with { Correlations = null! }));
        Assert.Null(Record.Exception(() => RiskQuestionCheck.Require(Plain with { Runs = null, Threads = null })));
        Assert.Equal("Longest", Assert.Throws<ArgumentOutOfRangeException>(() => RiskQuestionCheck.Require(Plain with { Setup = Pail(30) with { Longest = Seconds(0.5) } })).ParamName);
    }

    private static void Axis(params double[] values) => RiskQuestionCheck.Axis(values, value => value, 100, "%", "openings");

    private static string? Refused(params double[] values) => Assert.Throws<ArgumentOutOfRangeException>(() => Axis(values)).ParamName;

    [Fact]
    public void An_axis_has_one_to_a_hundred_values_that_increase_within_its_limits()
    {
        double[] hundred = [.. Enumerable.Range(0, 100).Select(i => (double)i)];
        foreach (double[] values in (double[][])[[0], [100], [0, 100], [5, 5.0001], hundred])
            Assert.Null(Record.Exception(() => Axis(values)));
        foreach (double[] values in (double[][])[[], [.. hundred, 100], [-0.001], [100.001], [5, 5], [5, 4], [1, 3, 2], [double.NaN], [0, double.NaN]])
            Assert.Equal("openings", Refused(values));
        Assert.Equal("openings", Assert.Throws<ArgumentNullException>(() => Axis(null!)).ParamName);
        ArgumentException fallen = Assert.Throws<ArgumentOutOfRangeException>(() => Axis(1, 30, 20));
        Assert.Contains("20 % follows 30 %", fallen.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Inputs_are_those_given_or_the_common_ones()
    {
        StrainingSetup setup = Pail(30);
        UncertainInput[] given = [ScreenOf(setup, 1.1).Given[0], Normal(StrainingInputs.Bore, 0.025, 0.001)];
        Assert.Same(given, RiskQuestionCheck.Inputs(given, setup));
        Assert.Equal(DefaultSpreads.For(setup).Select(input => input.Input), RiskQuestionCheck.Inputs(null, setup).Select(input => input.Input));

        // One that is missing is left for the next check to name.
        UncertainInput[] holes = [null!, given[0] with { Input = null! }];
        Assert.Same(holes, RiskQuestionCheck.Inputs(holes, setup));

        ArgumentException idle = Assert.Throws<ArgumentException>(() => RiskQuestionCheck.Inputs([given[0], Normal(StrainingInputs.ScrapePause, 60, 1)], setup));
        Assert.Equal("Inputs", idle.ParamName);
        Assert.Contains("scraping.pause", idle.Message, StringComparison.Ordinal);
        Assert.Equal(2, RiskQuestionCheck.Inputs([given[0], Normal(StrainingInputs.ScrapePause, 60, 1)], setup with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(30) } }).Count);
    }
}
