using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>A plan carried out again: as early as it can be, or at another pace.</summary>
public class PlanReplayTests
{
    private static readonly DayQuestion s_day = Of(Vessel("one", stand: 5) with { Due = Min(30) }, Vessel("two") with { Due = Min(100) }) with { People = People(2, 0, 1000), Strainers = Strainers(2), Tanks = Tanks(2) };

    [Fact]
    public void Early_is_without_waiting_for_what_was_decided_before()
    {
        PlanAction second = Strain(1, person: 1, strainer: 1, tank: 1);
        FoundPlan early = PlanReplay.Early(Problem(s_day), Plan((50, 60, Strain(0)), (50, 60, second), (65, 85, Fill(0)), (90, 110, Fill(1, person: 1, tank: 1))));
        Assert.Equal([(0, 10), (0, 10), (15, 35), (10, 30)], early.Actions.Select(timed => (timed.Start, timed.End)));
        Assert.Equal([Strain(0), second, Fill(0), Fill(1, person: 1, tank: 1)], early.Actions.Select(timed => timed.Action));
        Assert.Equal((5, 35), (early.Late, early.Finish));
    }

    [Fact]
    public void What_the_hours_would_not_hold_stays_as_planned()
    {
        FoundPlan early = PlanReplay.Early(Problem(s_day with { People = People(2, 0, 20) }), Plan((0, 10, Strain(0)), (40, 60, Fill(0))));
        Assert.Equal([(0, 10), (40, 60)], early.Actions.Select(timed => (timed.Start, timed.End)));
        Assert.Equal((30, 60), (early.Late, early.Finish));
    }

    [Fact]
    public void Carried_out_each_load_is_ready_when_it_is_filled_or_has_stood()
    {
        DayQuestion stays = s_day with { Batches = [s_day.Batches[0], Vessel("two", stand: 9, fill: 0)] };
        PlanAction second = Strain(1, person: 1, strainer: 1, tank: 1);
        (int[] ready, int finish) = PlanReplay.Of(Problem(stays), [Strain(0), second, Fill(0)])!.Value;
        Assert.Equal([35, 19], ready);
        Assert.Equal(35, finish);
        Assert.Equal([35, 19], PlanReplay.Of(Problem(stays), [Strain(0), Fill(0), second])!.Value.Ready);
        (ready, finish) = PlanReplay.Of(Problem(s_day), [Strain(0), Strain(1, tank: 1), Fill(1, tank: 1), Fill(0)])!.Value;
        Assert.Equal([60, 40], ready);
        Assert.Equal(60, finish);
    }

    [Fact]
    public void What_does_not_fit_the_hours_is_not_carried_out()
    {
        Assert.Null(PlanReplay.Of(Problem(s_day with { People = People(2, 0, 34) }), [Strain(0), Fill(0)]));
        Assert.NotNull(PlanReplay.Of(Problem(s_day with { People = People(2, 0, 35) }), [Strain(0), Fill(0)]));
    }
}
