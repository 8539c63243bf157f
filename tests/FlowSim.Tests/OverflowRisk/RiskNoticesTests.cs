using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>What is said of chances, and when not.</summary>
public class RiskNoticesTests
{
    private static readonly StrainingSetup Quiet20 = Pail(20);
    private static readonly StrainingResult Middle = StrainingRun.Simulate(Quiet20, new StrainingOptions { SeriesPoints = 0 });
    private static readonly ProbabilityEstimate Low = Counted(0.001, 0, 0.002);

    /// <summary>A question of which there is nothing to say.</summary>
    private static RiskQuestion Plain(int? runs = 4096, double tolerance = 0.01) => new()
    {
        Setup = Quiet20,
        Inputs = ScreenOf(Quiet20, 1.1).Given,
        Runs = runs,
        Tolerance = Ratio.FromDecimalFractions(tolerance),
    };

    private static IReadOnlyList<Notice> Of(RiskQuestion question, ProbabilityEstimate? overflow = null, RunTally? tally = null, StrainingResult? middle = null) => RiskNotices.For(
        question,
        middle ?? Middle,
        new SpreadInputs(question.Inputs ?? DefaultSpreads.For(question.Setup), []),
        tally ?? Tally(0, 64),
        overflow ?? Low,
        new RiskEffort(question));

    private static string[] Codes(IReadOnlyList<Notice> notices) => [.. notices.Select(notice => notice.Code)];

    [Fact]
    public void Of_a_plain_answer_nothing_is_said() => Assert.Empty(Of(Plain()));

    [Fact]
    public void That_common_spreads_were_taken_is_said_with_their_names()
    {
        Notice notice = Assert.Single(Of(Plain() with { Inputs = null }));
        Assert.Equal("risk.common-spreads", notice.Code);
        foreach (UncertainInput input in DefaultSpreads.For(Quiet20))
            Assert.Contains(input.Input.Name, notice.Seen, StringComparison.Ordinal);
    }

    /// <summary>The gate at 20 %, ± so much that 1 % or 1.2 % lies beyond shut: Φ(−0.2/sd).</summary>
    [Theory]
    [InlineData(2.35, false)] // 0.94 %
    [InlineData(2.26, true)] // 1.19 %
    public void A_tail_of_more_than_a_hundredth_is_told(double deviations, bool told)
    {
        UncertainInput opening = Normal(StrainingInputs.Opening, 0.2, 0.2 / deviations);
        IReadOnlyList<Notice> notices = Of(Plain() with { Inputs = [ScreenOf(Quiet20, 1.1).Given[0], opening] });
        Assert.Equal(told ? ["risk.spread-cut"] : [], Codes(notices));
        if (told)
            Assert.Contains("1.2 % of the spread of gate.opening lies outside what it may be here, 0 to 1", notices[0].Seen, StringComparison.Ordinal);
    }

    /// <summary>Openings even from −1 % to 99 %: a hundredth of them is not more than a hundredth.</summary>
    [Fact]
    public void Just_a_hundredth_is_not_told() =>
        Assert.Empty(Of(Plain() with { Inputs = [Given(StrainingInputs.Opening, new UniformDistribution(-0.01, 0.99))] }));

    [Fact]
    public void Each_spread_that_is_cut_is_told_with_its_unit()
    {
        Notice[] cut = [.. Of(Plain() with { Inputs = [Given(StrainingInputs.Opening, new UniformDistribution(0.5, 1.5)), Given(StrainingInputs.TankLevel, new UniformDistribution(0.10, 0.20))] })];
        Assert.Equal(["risk.spread-cut", "risk.spread-cut"], Codes(cut));
        Assert.Contains("50 % of the spread of gate.opening", cut[0].Seen, StringComparison.Ordinal);
        Assert.EndsWith("0 to 1", cut[0].Seen, StringComparison.Ordinal);
        Assert.Contains("50 % of the spread of tank.level", cut[1].Seen, StringComparison.Ordinal);
        Assert.EndsWith("to 0.15 m", cut[1].Seen, StringComparison.Ordinal);
    }

    /// <summary>1000 runs tell 1 %, 992 tell 10/992 = 1.008 %.</summary>
    [Theory]
    [InlineData(1008, 0.01, false)]
    [InlineData(992, 0.01, true)]
    [InlineData(64, 0.2, false)]
    [InlineData(64, 0.15, true)]
    [InlineData(200_000, 0.0002, true)] // The advice takes 32 768 of them at most.
    [InlineData(null, 0.0004, false)] // 32 768 runs tell 0.03 %.
    [InlineData(null, 0.0003, true)]
    public void A_tolerance_finer_than_the_runs_tell_is_told(int? runs, double tolerance, bool told)
    {
        IReadOnlyList<Notice> notices = Of(Plain(runs, tolerance), Counted(0, 0, tolerance / 2));
        Assert.Equal(told ? ["risk.tolerance-too-fine"] : [], Codes(notices));
        if (!told)
            return;
        int made = Math.Min(runs ?? 32768, 32768);
        Assert.Contains(FormattableString.Invariant($"{made} runs"), notices[0].Seen, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"below {1000.0 / made:0.###} %"), notices[0].Seen, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"the tolerance is {100 * tolerance:g3} %"), notices[0].Seen, StringComparison.Ordinal);
        Assert.EndsWith(FormattableString.Invariant($"{1000.0 / made:0.###} %"), notices[0].MayMean, StringComparison.Ordinal);
        Assert.Equal(runs is null, notices[0].Helps != "ask for more runs");
    }

    /// <summary>On either side of 1 %: an end at the tolerance itself is below it.</summary>
    [Theory]
    [InlineData(0.009, 0.011, true)]
    [InlineData(0.01, 0.011, true)]
    [InlineData(0.0101, 0.02, false)]
    [InlineData(0.005, 0.01, false)]
    [InlineData(0.005, 0.0101, true)]
    public void That_it_cannot_be_told_is_told(double low, double high, bool told)
    {
        IReadOnlyList<Notice> notices = Of(Plain(), Counted((low + high) / 2, low, high));
        Assert.Equal(told ? ["risk.cannot-tell"] : [], Codes(notices));
        if (!told)
            return;
        Assert.Contains(FormattableString.Invariant($"between {100 * low:g3} and {100 * high:g3} %"), notices[0].Seen, StringComparison.Ordinal);
        Assert.Contains("tolerance of 1 %", notices[0].Seen, StringComparison.Ordinal);
        Assert.Contains("more runs", notices[0].Helps, StringComparison.Ordinal);
        Assert.DoesNotContain("more runs", Assert.Single(Of(Plain(null), Counted((low + high) / 2, low, high))).Helps, StringComparison.Ordinal);
    }

    /// <summary>Of 64 runs 16 never strain, 25 %, and 8 end at the longest time, 12.5 %.</summary>
    [Fact]
    public void Runs_that_never_strain_are_told_by_their_share()
    {
        var tally = new RunTally(0.1);
        StrainingSample never = Quiet with { StrainSeconds = double.NaN };
        tally.Add([.. Enumerable.Repeat(Quiet, 48), .. Enumerable.Repeat(never, 8), .. Enumerable.Repeat(never with { Ending = StrainingStatus.TimeLimit }, 8)]);
        Notice notice = Assert.Single(Of(Plain(), tally: tally));
        Assert.Equal("risk.never-strained", notice.Code);
        Assert.Contains("25 % of the runs never strain 95 %; 12.5 % of all end at the longest time", notice.Seen, StringComparison.Ordinal);
    }

    /// <summary>What becomes of the one run in the middle the chances say better; what is said of its setup stays.</summary>
    [Fact]
    public void The_fate_of_the_middle_run_is_left_out_and_all_else_stays()
    {
        string[] fates = ["strainer.overflow", "receiver.overfilled", "receiver.full", "run.stalled", "run.time-limit", "tank.film"];
        Notice[] said = [.. fates.Append("honey.own").Append("strainer").Select(code => new Notice(code, "seen", "may mean", "helps"))];
        Assert.Equal(["honey.own", "strainer"], Codes(Of(Plain(), middle: Middle with { Notices = said })));
    }

    [Fact]
    public void Notices_come_in_the_order_of_what_was_asked_found_and_run()
    {
        RiskQuestion question = Plain(64) with { Inputs = null, Setup = Pail(99) };
        var tally = new RunTally(0.1);
        tally.Add([.. Enumerable.Repeat(Quiet with { StrainSeconds = double.NaN }, 64)]);
        string[] codes = Codes(Of(question, Counted(0.01, 0.005, 0.02), tally, Middle with { Notices = [new Notice("honey.own", "seen", "may mean", "helps")] }));
        Assert.Equal(["risk.common-spreads", "risk.spread-cut", "risk.tolerance-too-fine", "risk.cannot-tell", "risk.never-strained", "honey.own"], codes);
    }
}
