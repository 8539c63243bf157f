using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>A vessel is put to warm as late as will do for its straining; somebody is there from 0 to 100 and from 200 to 310.</summary>
public class WarmingInPlansTests
{
    private static DayQuestion Day(params PlannedBatch[] batches) => Of(batches) with { People = People(2, 0, 100, 200, 310), Strainers = Strainers(3), Tanks = Tanks(3) };

    private static PlannedBatch Held(int minutes, int warm, int earliest = 0) => Vessel("one", warm: warm) with { LongestHold = Min(minutes), Earliest = Min(earliest) };

    [Fact]
    public void It_goes_in_just_in_time()
    {
        Assert.Equal((0, 30), State(Day(Held(0, 30))).Warms(Strain(0, spot: 0)));
        Assert.Equal((12, 42), State(Day(Held(0, 30, earliest: 12))).Warms(Strain(0, spot: 0)));
        Assert.Equal((50, 200), State(Day(Held(0, 150))).Warms(Strain(0, spot: 0)));
        Assert.Equal((60, 90), State(Day(Held(0, 30), Vessel("two"))).At(80, 90, Strain(1, strainer: 2, tank: 2)).Warms(Strain(0, spot: 0)));
    }

    [Theory]
    [InlineData(95, 5, 100, 200)]
    [InlineData(95, 4, 200, 295)]
    [InlineData(100, 0, 100, 200)]
    [InlineData(101, 0, 99, 200)]
    public void In_before_people_leave_if_it_may_be_held_so_long_else_when_they_come(int warm, int hold, int put, int strained) =>
        Assert.Equal((put, strained), State(Day(Held(hold, warm, earliest: 20)) with { People = [Person(0, 100, 200, 320)] }).Warms(Strain(0, spot: 0)));

    [Fact]
    public void With_a_timer_nobody_need_be_there()
    {
        DayQuestion day = Day(Held(0, 95, earliest: 20)) with { Places = Place(timer: true) };
        Assert.Equal((105, 200), State(day).Warms(Strain(0, spot: 0)));
        Assert.Equal((150, 200), State(Day(Held(0, 50, earliest: 150)) with { Places = Place(timer: true) }).Warms(Strain(0, spot: 0)));
    }

    [Theory]
    [InlineData(100, 90, 100, 200)]
    [InlineData(100, 89, 200, 210)]
    [InlineData(101, 500, 200, 210)]
    public void Honey_that_comes_as_people_leave_is_still_put_there(int earliest, int hold, int put, int strained) =>
        Assert.Equal((put, strained), State(Day(Held(hold, 10, earliest))).Warms(Strain(0, spot: 0)));

    [Fact]
    public void What_cannot_be_warm_within_the_hours_is_never_strained()
    {
        Assert.Equal((200, 300), State(Day(Held(0, 100, earliest: 110))).Warms(Strain(0, spot: 0)));
        Assert.Null(State(Day(Held(0, 101, earliest: 110))).Warms(Strain(0, spot: 0)));
        Assert.Null(State(Day(Held(0, 10, earliest: 311))).Warms(Strain(0, spot: 0)));
        Assert.Null(State(Day(Held(0, 10, earliest: 300)) with { Places = Place(timer: true) }).Warms(Strain(0, spot: 0)));
    }

    [Theory]
    [InlineData(false, 40)]
    [InlineData(true, 60)]
    public void A_spot_is_free_when_its_vessel_is_carried_away_or_drained(bool drained, int free)
    {
        DayQuestion day = Day(Vessel("one", strain: 20, warm: 40), Vessel("two", warm: 10)) with { Places = Place(drained: drained) };
        PlanState state = State(day).Do(Strain(0, spot: 0));
        Assert.Equal(free, state.SpotFree(0));
        Assert.Equal((free, free + 10), state.Warms(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1)));
    }

    [Fact]
    public void With_a_timer_it_goes_in_as_soon_as_the_spot_is_free_whoever_is_there()
    {
        DayQuestion day = Day(Vessel("one", warm: 40), Vessel("two", warm: 60)) with { Places = Place(timer: true, drained: true) };
        PlanState state = State(day);
        state.Apply(new TimedAction(Strain(0, spot: 0), 70, 150, 0));
        Assert.Equal((150, 210), state.Warms(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1)));
    }

    [Fact]
    public void What_is_strained_from_nowhere_takes_no_spot()
    {
        PlanState state = State(Day(Vessel("one"), Vessel("two", warm: 10))).Do(Strain(0));
        Assert.Equal(-HourGrid.Never, state.SpotFree(0));
        Assert.Equal((0, 10), state.Warms(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1)));
    }

    [Fact]
    public void Another_setting_waits_for_the_last_of_the_one_before()
    {
        PlannedBatch warm = Vessel("one", strain: 20, warm: 40) with { Setting = "35 °C" }, quick = Vessel("two", warm: 10);
        DayQuestion day = Day(warm, quick with { Setting = "45 °C" }) with { Places = [.. Place(2), new WarmingPlace { Name = "bath" }] };
        PlanAction second = Strain(1, spot: 1, person: 1, strainer: 1, tank: 1);
        Assert.Equal((40, 50), State(day).Do(Strain(0, spot: 0)).Warms(second));
        Assert.Equal((30, 40), State(day).Do(Strain(0, spot: 0)).Warms(second with { Spot = 2 }));
        Assert.Equal((30, 40), State(Day(warm, quick with { Setting = "35 °C" }) with { Places = Place(2) }).Do(Strain(0, spot: 0)).Warms(second));
        Assert.Equal((30, 40), State(Day(warm, quick) with { Places = Place(2) }).Do(Strain(0, spot: 0)).Warms(second));
        Assert.Equal((60, 70), State(day with { Places = Place(2, drained: true) }).Do(Strain(0, spot: 0)).Warms(second));
        Assert.Equal((30, 40), State(day with { Places = [.. Place(2), new WarmingPlace { Name = "bath" }] }).Do(Strain(0, spot: 2)).Warms(second));
    }

    [Fact]
    public void The_vessel_of_a_setting_that_leaves_last_counts()
    {
        PlannedBatch slow = Vessel("one", strain: 50, warm: 10) with { Setting = "35 °C" };
        PlannedBatch quick = Vessel("two", strain: 10, warm: 10) with { Setting = "35 °C" };
        PlannedBatch other = Vessel("three", warm: 10) with { Setting = "45 °C" };
        PlanState state = State(Day(slow, quick, other) with { Places = Place(3, drained: true), People = People(3, 0, 100) })
            .Do(Strain(0, spot: 0), Strain(1, spot: 1, person: 1, strainer: 1, tank: 1));
        Assert.Equal((60, 20), (state.SpotFree(0), state.SpotFree(1)));
        Assert.Equal(60, state.WarmNotBefore(state.Problem.Batches[2], 2));
        Assert.Equal(20, state.WarmNotBefore(state.Problem.Batches[1], 1));
        Assert.Equal(0, state.WarmNotBefore(state.Problem.Batches[1], 2));
    }

    [Theory]
    [InlineData(50, false, 50, 80)]
    [InlineData(5, false, 5, 40)]
    [InlineData(150, false, 150, 200)]
    [InlineData(150, true, 150, 200)]
    [InlineData(-20, false, 0, 40)]
    public void Put_to_warm_as_planned_it_is_strained_when_it_is_warm_and_not_before_asked(int planned, bool timer, int put, int strained)
    {
        PlanProblem problem = new(Day(Vessel("zero"), Held(0, 30)) with { Places = Place(timer: timer) }, Pace.Likely) { WarmFrom = [HourGrid.Never, planned] };
        PlanState state = new PlanState(problem).At(0, 40, Strain(0, strainer: 2, tank: 2));
        Assert.Equal((put, strained), state.Warms(Strain(1, spot: 0)));
    }

    [Theory]
    [InlineData(false, 200, 230)]
    [InlineData(true, 120, 200)]
    public void Where_the_spot_is_taken_longer_than_planned_it_goes_in_when_somebody_is_there(bool timer, int put, int strained)
    {
        DayQuestion day = Day(Vessel("one", strain: 20, warm: 40), Vessel("two", warm: 30)) with { Places = Place(timer: timer, drained: true) };
        PlanProblem problem = new(day, Pace.Likely) { WarmFrom = [0, 60] };
        PlanState state = new(problem);
        state.Apply(new TimedAction(Strain(0, spot: 0), 70, 120, 0));
        Assert.Equal((put, strained), state.Warms(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1)));
    }

    [Fact]
    public void Where_the_spot_is_taken_until_nobody_comes_any_more_it_is_never_warm()
    {
        DayQuestion day = Day(Vessel("one", warm: 40), Vessel("two", warm: 30)) with { Places = Place(drained: true) };
        foreach (int[]? planned in new[] { null, new[] { 0, 60 } })
        {
            PlanState state = new(new PlanProblem(day, Pace.Likely) { WarmFrom = planned });
            state.Apply(new TimedAction(Strain(0, spot: 0), 70, 311, 0));
            Assert.Null(state.Warms(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1)));
        }
    }
}
