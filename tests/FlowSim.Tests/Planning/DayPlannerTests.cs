using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>Which load is left out where not all go together, by hand; one person, strainer and tank, and nothing to clean.</summary>
public class DayPlannerTests
{
    private static string[] LeftOut(int minutes, params PlannedBatch[] batches)
    {
        DayPlan plan = DayPlan.Of(Of(batches) with { People = [Person(0, minutes)] });
        Assert.All(plan.Conflicts.Where(conflict => conflict.Code != "late"), conflict => Assert.Equal("too-much", conflict.Code));
        Assert.Equal(batches.Select(batch => batch.Name).Except(plan.Conflicts.Where(conflict => conflict.Code != "late").SelectMany(conflict => conflict.Batches)), plan.Ready.Select(ready => ready.Batch));
        return [.. plan.Conflicts.Where(conflict => conflict.Code != "late").Select(conflict => string.Join(',', conflict.Batches))];
    }

    [Fact]
    public void The_one_without_which_the_others_are_done_soonest()
    {
        // 30, 70 and 31 min of work for 110: without the long one the rest is done by 61.
        PlannedBatch a = Vessel("a"), b = Vessel("b", fill: 60), c = Vessel("c", fill: 21);
        Assert.Equal(["b"], LeftOut(110, a, b, c));
        Assert.Equal(["b"], LeftOut(110, b, c, a));
        Assert.Equal(["b"], LeftOut(110, c, a, b));
        Assert.Empty(LeftOut(131, a, b, c));
    }

    [Fact]
    public void Before_that_the_one_without_which_they_are_late_for_the_least()
    {
        // "a" is 25 min late whatever is done; without it 101 min are needed, without "b" only 61.
        PlannedBatch a = Vessel("a") with { Due = Min(5) }, b = Vessel("b", fill: 60), c = Vessel("c", fill: 21);
        Assert.Equal(["a"], LeftOut(110, a, b, c));
        Assert.Equal(["a"], LeftOut(110, c, b, a));
    }

    [Fact]
    public void Where_none_is_enough_the_one_that_takes_most_of_people_s_time()
    {
        // 60, 70 and 65 min for 100: no two go together. Without one of the last two the shorter is done sooner.
        PlannedBatch Half(string name) => Vessel(name, strain: 20, fill: 15) with { Joined = "x" };
        Assert.Equal(["two,and two", "three"], LeftOut(100, Vessel("one", fill: 50), Half("two"), Half("and two"), Vessel("three", fill: 55)));
        Assert.Equal(["two,and two", "three"], LeftOut(100, Vessel("three", fill: 55), Vessel("one", fill: 50), Half("two"), Half("and two")));
    }

    /// <summary>Two vessels that only one order serves, looked at by one partial plan and not proven.</summary>
    [Fact]
    public void Where_not_even_one_is_found_to_fit_nothing_is_planned()
    {
        DayQuestion day = RandomDays.Small(637, 2);
        Assert.Single(day.Batches.Select(batch => batch.Joined).Distinct());
        DayPlan brief = DayPlan.Of(day with { Effort = new PlanEffort { Breadth = 1, Proof = 0 } }), whole = DayPlan.Of(day);
        Assert.Equal(["B0", "B1"], Assert.Single(brief.Conflicts).Batches);
        Assert.Equal("too-much", brief.Conflicts[0].Code);
        Assert.Empty(brief.Entries);
        Assert.Null(brief.Finish);
        Assert.Equal(2, whole.Ready.Count);
    }
}
