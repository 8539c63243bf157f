using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>The least that any plan takes, by hand: a load by itself, and all work shared among people.</summary>
public class PlanBoundTests
{
    /// <summary>So much kit that people alone count.</summary>
    private static DayQuestion Roomy(params PlannedBatch[] batches) => Of(batches) with { Strainers = Strainers(9), Tanks = Tanks(9), Places = Place(9, timer: true) };

    private static (int Late, int Finish) Bound(DayQuestion day) => PlanBound.Of(State(day));

    [Fact]
    public void A_load_by_itself_is_settled_strained_stood_and_filled()
    {
        PlannedBatch one = Vessel("one", settle: 3, stand: 7) with { Earliest = Min(5), Due = Min(40) };
        Assert.Equal((5, 45), Bound(Roomy(one)));
        Assert.Equal((0, 45), Bound(Roomy(one with { Due = Min(45) })));
        Assert.Equal((0, 45), Bound(Roomy(one with { Due = Min(60) })));
        Assert.Equal((17, 57), Bound(Roomy(one) with { People = [Person(0, 17, 20, 1000)] }));
        Assert.Equal((5, 45), Bound(Roomy(one) with { People = [Person(0, 18, 25, 1000)] }));
        Assert.Equal((25, 65), Bound(Roomy(one) with { People = [Person(0, 20, 45, 1000)] }));
        Assert.Equal((35, 75), Bound(Roomy(one) with { People = [Person(0, 30, 60, 1000)] }));
        Assert.Equal((0, 25), Bound(Roomy(Vessel("one", settle: 3, stand: 7, fill: 0) with { Earliest = Min(5) })));
    }

    [Fact]
    public void Loads_are_late_each_for_itself_and_the_last_one_counts()
    {
        PlannedBatch first = Vessel("first") with { Due = Min(25) }, second = Vessel("second", strain: 60) with { Due = Min(70) };
        Assert.Equal((5 + 10, 80), Bound(Roomy(first, second) with { People = People(2, 0, 1000) }));
        Assert.Equal((5 + 10, 80), Bound(Roomy(second, first) with { People = People(2, 0, 1000) }));
    }

    [Fact]
    public void The_vessels_of_a_load_are_strained_one_after_the_other()
    {
        PlannedBatch Half(string name, int strain, int earliest = 0) => Vessel(name, strain, fill: 1) with { Joined = "x", Earliest = Min(earliest) };
        DayQuestion both = Roomy(Half("one", 10), Half("two", 15)) with { People = People(2, 0, 1000) };
        Assert.Equal((0, 27), Bound(both));
        Assert.Equal((0, 67), Bound(both with { Batches = [Half("one", 10), Half("two", 15, earliest: 50)] }));
        Assert.Equal((0, 31), Bound(both with { Batches = [Half("one", 10, earliest: 6), Half("two", 15, earliest: 4)] }));
        Assert.Equal((0, 5 + 15 + 2), PlanBound.Of(State(both).At(5, 15, Strain(0))));
        Assert.Equal((0, 60 + 2), PlanBound.Of(State(both).At(0, 60, Strain(0))));

        // In a tank already, so that only the load by itself counts.
        Assert.Equal((0, 15 + 20 + 3), PlanBound.Of(State(both with { Batches = [Half("one", 10), Half("two", 15), Half("three", 20)] }).At(0, 10, Strain(0))));
        Assert.Equal((0, 40 + 2), PlanBound.Of(State(both).At(0, 15, Strain(1)).At(30, 40, Strain(0))));
        Assert.Equal((0, 12 + 15 + 2), PlanBound.Of(State(both).At(12, 14, Strain(0))));
    }

    [Fact]
    public void Jars_come_no_sooner_than_what_was_decided_last()
    {
        DayQuestion day = Roomy(Vessel("one", stand: 5), Vessel("two")) with { People = People(2, 0, 1000) };
        Assert.Equal((0, 100), PlanBound.Of(State(day).At(0, 10, Strain(0)).At(70, 80, Strain(1, strainer: 1, tank: 1))));
        Assert.Equal((0, 70 + 20), PlanBound.Of(State(day).At(0, 10, Strain(0)).At(60, 61, Strain(1, strainer: 1, tank: 1)).At(65, 66, Fill(1, tank: 1)).At(70, 71, CleanTank(5))));
        Assert.Equal((0, 15 + 20), PlanBound.Of(State(Roomy(Vessel("one", stand: 5))).Do(Strain(0))));
        Assert.Equal((0, 70 + 30), PlanBound.Of(State(day).At(0, 10, Strain(0)).At(70, 71, CleanTank(5))));
    }

    [Fact]
    public void What_does_not_fit_the_hours_is_never_done()
    {
        Assert.Equal(HourGrid.Never, Bound(Roomy(Vessel("one", strain: 30)) with { People = [Person(0, 29, 40, 69, 70, 99)] }).Finish);
        Assert.Equal(150, Bound(Roomy(Vessel("one", strain: 29)) with { People = [Person(0, 29, 40, 50, 140, 151)] }).Finish);
        Assert.Equal(HourGrid.Never, Bound(Roomy(Vessel("one", strain: 29)) with { People = [Person(0, 29)] }).Finish);
        Assert.Equal(HourGrid.Never, Bound(Roomy(Vessel("one", strain: 29)) with { People = [Person(0, 48)] }).Finish);
        Assert.Equal(49, Bound(Roomy(Vessel("one", strain: 29)) with { People = [Person(0, 49)] }).Finish);
    }

    [Fact]
    public void Work_is_shared_among_people()
    {
        DayQuestion four = Roomy(Vessel("a"), Vessel("b"), Vessel("c"), Vessel("d"));
        Assert.Equal(120, Bound(four).Finish);
        Assert.Equal(60, Bound(four with { People = People(2, 0, 1000) }).Finish);
        Assert.Equal(40, Bound(four with { People = People(3, 0, 1000) }).Finish);
        Assert.Equal(60, Bound(four with { People = People(2, 0, 60) }).Finish);
        Assert.Equal(HourGrid.Never, Bound(four with { People = People(2, 0, 59) }).Finish);
        Assert.Equal(100, Bound(four with { People = [Person(0, 1000), Person(0, 20) with { Name = "B" }] }).Finish);
        Assert.Equal(120 - 300, Bound(four with { Batches = [.. four.Batches.Select(b => b with { Earliest = Min(-400) })], People = [Person(-300, 1000)] }).Finish);
    }

    [Fact]
    public void Time_that_people_have_had_is_gone_used_or_not()
    {
        DayQuestion four = Roomy(Vessel("a"), Vessel("b"), Vessel("c"), Vessel("d")) with { People = People(2, 0, 1000) };
        Assert.Equal(60, PlanBound.Of(State(four).Do(Strain(0))).Finish);
        Assert.Equal((40 + 50 + 110) / 2, PlanBound.Of(State(four).At(40, 50, Strain(0))).Finish);
        Assert.Equal(60, PlanBound.Of(State(four).Do(Strain(0), Strain(1, person: 1, strainer: 1, tank: 1))).Finish);
        Assert.Equal(HourGrid.Never, PlanBound.Of(State(four with { People = People(2, 0, 60) }).At(5, 15, Strain(0))).Finish);
        Assert.Equal((50 + 10 + 110) / 2, PlanBound.Of(State(four).At(0, 50, CleanTank(8)).At(0, 10, Strain(0, person: 1))).Finish);
    }

    [Fact]
    public void When_all_work_is_done_the_bound_is_the_finish()
    {
        Assert.Equal((0, 30), PlanBound.Of(State(Roomy(Vessel("a"))).Do(Strain(0), Fill(0))));
        Assert.Equal((7, 30), PlanBound.Of(State(Roomy(Vessel("a") with { Due = Min(23) })).Do(Strain(0), Fill(0))));
        Assert.Equal((0, 500), PlanBound.Of(State(Roomy(Vessel("a")) with { People = People(2, 0, 1000) }).At(0, 500, CleanTank(8)).At(1, 11, Strain(0, person: 1)).At(20, 40, Fill(0, person: 1))));
    }

    [Fact]
    public void Idle_is_what_people_waited_before_their_last()
    {
        DayQuestion two = Roomy(Vessel("a"), Vessel("b")) with { People = People(2, 0, 20, 50, 1000) };
        Assert.Equal(0, PlanBound.Idle(State(two)));
        Assert.Equal(0, PlanBound.Idle(State(two).At(0, 10, Strain(0))));
        Assert.Equal(7, PlanBound.Idle(State(two).At(7, 17, Strain(0))));
        Assert.Equal(7 + 5, PlanBound.Idle(State(two).At(7, 17, Strain(0)).At(52, 72, Fill(0))));
        Assert.Equal(7 + 30, PlanBound.Idle(State(two).At(7, 17, Strain(0)).At(60, 70, Strain(1, person: 1, strainer: 1, tank: 1))));
    }
}
