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

    private static void Limit(string name, SetpointQuestion at, SetpointQuestion beyond)
    {
        Assert.Null(Record.Exception(() => SetpointCheck.Require(at)));
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => SetpointCheck.Require(beyond)).ParamName);
    }

    [Fact]
    public void A_limit_may_be_asked_for_and_what_is_beyond_may_not()
    {
        Limit("Ceiling", With(L with { Ceiling = C(20) }) with { Lowest = C(20) }, With(L with { Ceiling = C(19.9) }) with { Lowest = C(19) });
        Limit("Ceiling", With(L with { Ceiling = C(95) }), With(L with { Ceiling = C(95.1) }));
        Limit("HottestWall", With(L with { HottestWall = C(20) }), With(L with { HottestWall = C(19.9) }));
        Limit("HottestWall", With(L with { HottestWall = C(150) }), With(L with { HottestWall = C(150.1) }));
        Limit("WarmestAtStrainer", With(L with { WarmestAtStrainer = C(20) }), With(L with { WarmestAtStrainer = C(19.9) }));
        Limit("WarmestAtStrainer", With(L with { WarmestAtStrainer = C(95) }), With(L with { WarmestAtStrainer = C(95.1) }));
        Limit("WarmestForHands", With(L with { WarmestForHands = C(20) }), With(L with { WarmestForHands = C(19.9) }));
        Limit("WarmestForHands", With(L with { WarmestForHands = C(95) }), With(L with { WarmestForHands = C(95.1) }));
        Limit("Longest", With(L with { Longest = Duration.FromHours(1) }), With(L with { Longest = Duration.FromHours(0.99) }));
        Limit("Longest", With(L with { Longest = Duration.FromDays(60) }), With(L with { Longest = Duration.FromDays(60.1) }));
        Limit("LongestStraining", With(L with { LongestStraining = Duration.FromMinutes(1) }), With(L with { LongestStraining = Duration.FromSeconds(59) }));
        Limit("LongestStraining", With(L with { LongestStraining = Duration.FromDays(30) }), With(L with { LongestStraining = Duration.FromDays(30.1) }));
        Limit("Lowest", With(L) with { Lowest = C(15) }, With(L) with { Lowest = C(14.9) });
        Limit("Lowest", With(L) with { Lowest = C(45) }, With(L) with { Lowest = C(45.1) });
        Limit("ColdestStraining", With(L) with { ColdestStraining = C(10) }, With(L) with { ColdestStraining = C(9.9) });
        Limit("ColdestStraining", With(L) with { ColdestStraining = C(90) }, With(L) with { ColdestStraining = C(90.1) });
        Limit("Confidence", With(L with { Confidence = LimitConfidence.OnlyAtTheKindEnd }), With(L with { Confidence = LimitConfidence.Broken }));
        Limit("Confidence", With(L with { Confidence = LimitConfidence.AtTheBestEstimate }), With(L with { Confidence = (LimitConfidence)99 }));
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

    /// <summary>Half a minute of the small pail: it runs over by then if it does.</summary>
    private static readonly StrainingSetup Brief = RiskParts.Pail(10) with { HoneyTemperature = C(38), Longest = Duration.FromSeconds(30) };
    private static readonly StrainingSetup Open = Brief with { Control = GateControl.LeaveAt(Ratio.FromPercent(100)) };
    private static readonly UncertainInput[] Known = [RiskParts.ScreenOf(Brief, 1.2).Given[0], RiskParts.Normal(StrainingInputs.HoneyTemperature, 309.15, 1)];
    private static readonly Ratio Fifth = Ratio.FromPercent(20);

    private static Ratio Searched(SpreadInputs known, ulong seed) =>
        new OpeningSearch(known, RiskParts.OneThread, seed, 80, StrainingInputs.HoneyTemperature).Find(Open, 0.2, default).Opening;

    /// <summary>The opening within a tolerance is that of the search by itself, with the runs rounded up to whole sixteens and the seed that was given.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void An_opening_within_a_tolerance_is_that_of_the_search_for_it(bool tied)
    {
        InputCorrelation[] ties = tied ? [new("screen.factor", "honey.temperature", 0.7)] : [];
        Assert.Equal(Searched(new SpreadInputs(Known, ties), 9), OverflowLimit.WithinTolerance(Fifth, Known, tied ? ties : null, 65, 9).WidestOpeningFor(Brief, default));
    }

    [Fact]
    public void Without_inputs_the_common_spreads_are_taken() =>
        Assert.Equal(Searched(new SpreadInputs(DefaultSpreads.For(Open), []), 1), OverflowLimit.WithinTolerance(Fifth, runs: 65).WidestOpeningFor(Brief, default));

    /// <summary>One that does nothing while the gate is left is passed over, as the depth to ride; a setup that no run would take is refused before the search.</summary>
    [Fact]
    public void What_does_nothing_is_passed_over_and_what_cannot_run_is_refused()
    {
        UncertainInput ride = RiskParts.Normal(StrainingInputs.RideDepth, 0.03, 0.001);
        StrainingSetup ridden = Brief with { Control = GateControl.RideAt(Length.FromMillimeters(30), Fifth) };
        Assert.True(OverflowLimit.WithinTolerance(Fifth, [ride, .. Known], runs: 64).WidestOpeningFor(ridden, default) > Ratio.Zero);

        StrainingSetup wrong = Brief with { Longest = Duration.FromSeconds(0.5) };
        Assert.Equal("Longest", Assert.Throws<ArgumentOutOfRangeException>(() => OverflowLimit.WithinTolerance(Fifth, Known, runs: 64).WidestOpeningFor(wrong, default)).ParamName);
        Assert.Equal("receiver", Assert.ThrowsAny<ArgumentException>(() => OverflowLimit.WithinTolerance(Fifth, runs: 64).WidestOpeningFor(Brief with { Receiver = null! }, default)).ParamName);
    }

    [Fact]
    public void Nominal_is_the_widest_at_which_nothing_runs_over()
    {
        StrainingSetup setup = RiskParts.Pail(10);
        Assert.Equal(FlowSim.OverflowRisk.WidestOpening.Find(setup), OverflowLimit.Nominal.WidestOpeningFor(setup, default));
    }
}
