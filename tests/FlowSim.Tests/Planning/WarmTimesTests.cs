using FlowSim.Planning;
using FlowSim.WholeJob;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>When a vessel is put to warm: as much sooner as it may take longer, where spot, hold and people allow.</summary>
public class WarmTimesTests
{
    private static readonly StepTimes s_uncertain = new(Min(20), Min(30), Min(50));

    private static PlannedBatch Uncertain(int hold = 500, int earliest = -1000) => Vessel("one") with { Steps = new PlannedSteps { Warm = s_uncertain, Strain = InventedDay.Min(10), Fill = InventedDay.Min(20) }, LongestHold = Min(hold), Earliest = Min(earliest) };

    /// <summary>Put to warm at 100 by the plan, strained from 130, or later if it says so.</summary>
    private static int[] Warm(DayQuestion day, int start = 130, params (int Start, int End, PlanAction Action)[] before) =>
        WarmTimes.Of(Problem(day), new FoundPlan([.. Plan(before).Actions, new TimedAction(Strain(0, spot: 0), start, start + 10, 100)], 0, 0));

    [Fact]
    public void With_a_timer_it_goes_in_as_much_sooner_as_slow_takes_longer()
    {
        DayQuestion day = Of(Uncertain()) with { Places = Place(timer: true) };
        Assert.Equal([80], Warm(day));
        Assert.Equal([95], Warm(day with { Batches = [Uncertain(hold: 5)] }));
        Assert.Equal([100], Warm(day with { Batches = [Uncertain(hold: 0)] }));
        Assert.Equal([88], Warm(day with { Batches = [Uncertain(hold: 20)] }, start: 138));
        Assert.Equal([90], Warm(day with { Batches = [Uncertain(earliest: 90)] }));
        Assert.Equal([100], Warm(day with { Batches = [Uncertain(earliest: 100)] }));
        Assert.Equal([100], Warm(day with { Batches = [Uncertain(hold: 0)] }, start: 150));
        Assert.Equal([100], Warm(day with { Pace = Pace.Slow }));
    }

    [Fact]
    public void A_spot_that_is_taken_is_waited_for()
    {
        DayQuestion day = Of(Uncertain(), Vessel("two", warm: 5)) with { Places = Place(timer: true, drained: true), Strainers = Strainers(2), Tanks = Tanks(2) };
        Assert.Equal(85, Warm(day, before: [(75, 85, Strain(1, spot: 0, strainer: 1, tank: 1))])[0]);
    }

    [Fact]
    public void What_is_not_warmed_is_never_put_there()
    {
        DayQuestion day = Of(Vessel("one"), Uncertain() with { Name = "two" });
        FoundPlan plan = Plan((0, 10, Strain(0)), (10, 30, Fill(0)));
        Assert.Equal([HourGrid.Never, HourGrid.Never], WarmTimes.Of(Problem(day), plan));
    }

    [Fact]
    public void Without_a_timer_it_goes_in_when_somebody_has_a_hand_free()
    {
        DayQuestion day = Of(Uncertain(), Vessel("two"), Vessel("three") with { Honey = "heather" });
        Assert.Equal([80], Warm(day).Take(1));

        // At a gate from 70 to 90: the first free hand is there when that is done.
        PlanAction two = Strain(1), clean = CleanStrainer();
        Assert.Equal(90, Warm(day, before: [(70, 90, two)])[0]);
        Assert.Equal(80, Warm(day, before: [(70, 80, two)])[0]);
        Assert.Equal(80, Warm(day, before: [(80, 99, two)])[0]);
        Assert.Equal(92, Warm(day, before: [(70, 90, two), (85, 92, clean)])[0]);
        Assert.Equal(100, Warm(day, before: [(70, 101, two)])[0]);
        Assert.Equal(80, Warm(day with { People = People(2, 0, 1000) }, before: [(70, 101, two)])[0]);

        // Nobody in the house until 86.
        Assert.Equal(86, Warm(day with { People = [Person(0, 40, 86, 1000)] })[0]);
        Assert.Equal(100, Warm(day with { People = [Person(0, 40, 101, 1000)] })[0]);
        Assert.Equal(100, Warm(day with { People = [Person(0, 79, 100, 1000)] })[0]);
    }

    [Theory]
    [InlineData(5, true)]
    [InlineData(10, true)]
    [InlineData(11, false)]
    [InlineData(19, false)]
    [InlineData(20, true)]
    [InlineData(40, true)]
    [InlineData(41, false)]
    [InlineData(-1, false)]
    public void A_hand_is_free_in_the_hours_between_two_works(int moment, bool free)
    {
        DayQuestion day = Of(Vessel("one")) with { People = [Person(0, 40)] };
        Assert.Equal(free, WarmTimes.SomebodyIsFree(Problem(day), Plan((10, 20, Strain(0))), moment));
        Assert.True(WarmTimes.SomebodyIsFree(Problem(day with { People = People(2, -1, 41) }), Plan((10, 20, Strain(0))), moment));
    }
}
