using FlowSim.HeatDamage;
using FlowSim.OverflowRisk;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>The limits of a question, just at them and just beyond.</summary>
public class SetpointLimitTests
{
    private static readonly SetpointQuestion Q = SmallBatch.Plain();
    private static readonly SetpointLimits L = Q.Limits with { Ceiling = C(45) };

    private static SetpointQuestion With(SetpointLimits limits) => Q with { Limits = limits };

    public static TheoryData<string, SetpointQuestion, SetpointQuestion> Limits => new()
    {
        { "Ceiling", With(L with { Ceiling = C(20) }) with { Lowest = C(20) }, With(L with { Ceiling = C(19.9) }) with { Lowest = C(19) } },
        { "Ceiling", With(L with { Ceiling = C(95) }), With(L with { Ceiling = C(95.1) }) },
        { "HottestWall", With(L with { HottestWall = C(20) }), With(L with { HottestWall = C(19.9) }) },
        { "HottestWall", With(L with { HottestWall = C(150) }), With(L with { HottestWall = C(150.1) }) },
        { "WarmestAtStrainer", With(L with { WarmestAtStrainer = C(20) }), With(L with { WarmestAtStrainer = C(19.9) }) },
        { "WarmestAtStrainer", With(L with { WarmestAtStrainer = C(95) }), With(L with { WarmestAtStrainer = C(95.1) }) },
        { "WarmestForHands", With(L with { WarmestForHands = C(20) }), With(L with { WarmestForHands = C(19.9) }) },
        { "WarmestForHands", With(L with { WarmestForHands = C(95) }), With(L with { WarmestForHands = C(95.1) }) },
        { "Longest", With(L with { Longest = Duration.FromHours(1) }), With(L with { Longest = Duration.FromHours(0.99) }) },
        { "Longest", With(L with { Longest = Duration.FromDays(60) }), With(L with { Longest = Duration.FromDays(60.1) }) },
        { "LongestStraining", With(L with { LongestStraining = Duration.FromMinutes(1) }), With(L with { LongestStraining = Duration.FromSeconds(59) }) },
        { "LongestStraining", With(L with { LongestStraining = Duration.FromDays(30) }), With(L with { LongestStraining = Duration.FromDays(30.1) }) },
        { "Lowest", With(L) with { Lowest = C(15) }, With(L) with { Lowest = C(14.9) } },
        { "Lowest", With(L) with { Lowest = C(45) }, With(L) with { Lowest = C(45.1) } },
        { "ColdestStraining", With(L) with { ColdestStraining = C(10) }, With(L) with { ColdestStraining = C(9.9) } },
        { "ColdestStraining", With(L) with { ColdestStraining = C(90) }, With(L) with { ColdestStraining = C(90.1) } },
        { "Confidence", With(L with { Confidence = LimitConfidence.OnlyAtTheKindEnd }), With(L with { Confidence = LimitConfidence.Broken }) },
        { "Confidence", With(L with { Confidence = LimitConfidence.AtTheBestEstimate }), With(L with { Confidence = (LimitConfidence)99 }) },
    };

    [Theory]
    [MemberData(nameof(Limits), DisableDiscoveryEnumeration = true)]
    public void A_limit_may_be_asked_for_and_what_is_beyond_may_not(string name, SetpointQuestion at, SetpointQuestion beyond)
    {
        Assert.Null(Record.Exception(() => SetpointCheck.Require(at)));
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => SetpointCheck.Require(beyond)).ParamName);
    }

    [Fact]
    public void What_is_not_there_is_refused_by_name()
    {
        string? Missing(SetpointQuestion? question) => Assert.Throws<ArgumentNullException>(() => SetpointCheck.Require(question!)).ParamName;

        Assert.Equal("question", Missing(null));
        Assert.Equal("question.Warming", Missing(Q with { Warming = null! }));
        Assert.Equal("question.Straining", Missing(Q with { Straining = null! }));
        Assert.Equal("question.Options", Missing(Q with { Options = null! }));
        Assert.Equal("question.Limits", Missing(Q with { Limits = null! }));
        Assert.Equal("limits.Heat", Missing(With(L with { Heat = null! })));
        Assert.Equal("limits.Overflow", Missing(With(L with { Overflow = null! })));
    }

    [Fact]
    public void A_tolerance_and_its_runs_have_limits_too()
    {
        string? Refused(double percent, int runs) => Assert.Throws<ArgumentOutOfRangeException>(() => OverflowLimit.WithinTolerance(Ratio.FromPercent(percent), runs: runs)).ParamName;

        Assert.Equal(("runs", "runs"), (Refused(1, 63), Refused(1, 131_073)));
        Assert.Equal(("tolerance", "tolerance"), (Refused(0.99e-4, 64), Refused(50.1, 64)));
        Assert.NotNull(OverflowLimit.WithinTolerance(Ratio.FromPercent(1e-4), runs: 64));
        Assert.NotNull(OverflowLimit.WithinTolerance(Ratio.FromPercent(50), runs: 131_072));
        UncertainInput lot = RiskParts.Normal(StrainingInputs.LotFactor, 1, 0.1);
        Assert.Equal("Inputs", Assert.Throws<ArgumentException>(() => OverflowLimit.WithinTolerance(Ratio.FromPercent(1), [])).ParamName);
        Assert.Equal("Correlations", Assert.Throws<ArgumentException>(() => OverflowLimit.WithinTolerance(Ratio.FromPercent(1), [lot], [new InputCorrelation("honey.lot_factor", "gate.bore", 0.5)])).ParamName);
    }

    /// <summary>The opening within a tolerance is that of the search by itself, with the runs rounded up to whole sixteens and the seed that was given.</summary>
    [Fact]
    public void An_opening_within_a_tolerance_is_that_of_the_search_for_it()
    {
        StrainingSetup setup = RiskParts.Pail(10) with { HoneyTemperature = C(38) };
        StrainingSetup open = setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(100)) };
        UncertainInput[] inputs = [RiskParts.ScreenOf(setup, 1.2).Given[0], RiskParts.Normal(StrainingInputs.HoneyTemperature, 309.15, 1)];
        InputCorrelation[] tied = [new("screen.factor", "honey.temperature", 0.7)];
        Ratio Searched(SpreadInputs known, ulong seed) =>
            new OpeningSearch(known, new EnsembleOptions(), seed, 80, StrainingInputs.HoneyTemperature).Find(open, 0.2, default).Opening;

        Ratio tolerance = Ratio.FromPercent(20);
        Assert.Equal(Searched(new SpreadInputs(inputs, []), 9), OverflowLimit.WithinTolerance(tolerance, inputs, runs: 65, seed: 9).WidestOpeningFor(setup, default));
        Assert.Equal(Searched(new SpreadInputs(inputs, tied), 9), OverflowLimit.WithinTolerance(tolerance, inputs, tied, 65, 9).WidestOpeningFor(setup, default));
        Assert.Equal(Searched(new SpreadInputs(DefaultSpreads.For(open), []), 1), OverflowLimit.WithinTolerance(tolerance, runs: 65).WidestOpeningFor(setup, default));

        // One that does nothing while the gate is left is passed over, as the depth to ride.
        UncertainInput ride = RiskParts.Normal(StrainingInputs.RideDepth, 0.03, 0.001);
        Assert.True(OverflowLimit.WithinTolerance(tolerance, [ride, .. inputs], runs: 64).WidestOpeningFor(setup with { Control = GateControl.RideAt(Length.FromMillimeters(30), tolerance) }, default) > Ratio.Zero);

        // A setup that no run would take is refused before the search.
        StrainingSetup wrong = setup with { Longest = Duration.FromSeconds(0.5) };
        Assert.Equal("Longest", Assert.Throws<ArgumentOutOfRangeException>(() => OverflowLimit.WithinTolerance(tolerance, inputs, runs: 64).WidestOpeningFor(wrong, default)).ParamName);
    }

    [Fact]
    public void Nominal_is_the_widest_at_which_nothing_runs_over()
    {
        StrainingSetup setup = RiskParts.Pail(10);
        Assert.Equal(FlowSim.OverflowRisk.WidestOpening.Find(setup), OverflowLimit.Nominal.WidestOpeningFor(setup, default));
    }
}
