using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>Two partial plans of one mark have the same future, and of one future the same mark.</summary>
public class PlanMarkTests
{
    private static readonly PlannedBatch s_cold = Vessel("one", warm: 5) with { Setting = "35 °C" };

    private static readonly DayQuestion s_day = Of(s_cold, s_cold with { Name = "two", Setting = "45 °C" }, Vessel("three", stand: 10), Vessel("four") with { Honey = "heather" }) with
    {
        People = People(2, 0, 1000),
        Strainers = Strainers(3),
        Tanks = Tanks(4),
        Places = Place(3, drained: true),
        Cleaning = Cleans(5, 8),
    };

    [Fact]
    public void What_was_free_before_now_is_no_matter()
    {
        // "Three" strained at 5 or at 8 has stood long by 60, and nobody and nothing is at work then.
        PlanState Later(int end) => State(s_day).At(0, end, Strain(2)).At(60, 70, Strain(3, person: 1, strainer: 1, tank: 1));
        Assert.Equal(Later(5).Mark(), Later(8).Mark());
        Assert.Equal(Later(5).Mark(), Later(50).Mark());
        Assert.NotEqual(Later(5).Mark(), Later(51).Mark());
    }

    [Fact]
    public void What_is_filled_is_no_matter_any_more()
    {
        PlanState Filled(int strained) => State(s_day).At(0, strained, Strain(2)).At(40, 60, Fill(2)).At(60, 61, CleanTank());
        Assert.Equal(Filled(12).Mark(), Filled(14).Mark());
    }

    [Fact]
    public void Whatever_makes_another_future_makes_another_mark()
    {
        PlanState[] states =
        [
            State(s_day),
            State(s_day).At(0, 10, Strain(2)),
            State(s_day).At(0, 11, Strain(2)),
            State(s_day).At(1, 10, Strain(2)),
            State(s_day).At(0, 10, Strain(2, person: 1)),
            State(s_day).At(0, 10, Strain(2, strainer: 1)),
            State(s_day).At(0, 10, Strain(2, tank: 1)),
            State(s_day).At(0, 10, Strain(3)),
            State(s_day).At(0, 10, Strain(0)),
            State(s_day).At(0, 10, Strain(0, spot: 0)),
            State(s_day).At(0, 10, Strain(0, spot: 1)),
            State(s_day).At(0, 10, Strain(1, spot: 0)),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, CleanStrainer()),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, CleanTank()),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, Fill(2)),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, CleanTank(tank: 1)),
            State(s_day).At(0, 10, Strain(2)).At(0, 11, CleanTank(tank: 1)),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, CleanStrainer(strainer: 1)),
            State(s_day).At(0, 10, Strain(2)).At(0, 11, CleanStrainer(strainer: 1)),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, CleanTank(tank: 1, person: 1)),
            State(s_day).At(0, 10, Strain(2)).At(0, 10, Strain(3, strainer: 1, tank: 1)),
            State(s_day).At(0, 10, Strain(3, strainer: 1, tank: 1)).At(0, 10, Strain(0)),
        ];
        UInt128[] marks = [.. states.Select(state => state.Mark())];
        Assert.Equal(marks.Length, marks.Distinct().Count());
        Assert.Equal(State(s_day).At(0, 10, Strain(2)).Mark(), marks[1]);
    }

    [Fact]
    public void Which_vessel_of_a_load_is_through_and_which_setting_leaves_when_matter()
    {
        PlannedBatch Third(string name, int strain, string? setting = null) => Vessel(name, strain, warm: 5) with { Joined = "x", Setting = setting };
        PlanProblem joined = Problem(s_day with { Batches = [Third("one", 10), Third("two", 11), Third("three", 12)] });
        Assert.NotEqual(new PlanState(joined).At(0, 10, Strain(0)).Mark(), new PlanState(joined).At(0, 10, Strain(1)).Mark());

        // The same two strained by 20 from the same two spots: the other way round another setting is left in the place until then.
        PlanProblem set = Problem(s_day with { Batches = [Third("one", 10, "35 °C"), Third("two", 11, "45 °C"), Third("three", 12, "45 °C")] });
        Assert.NotEqual(
            new PlanState(set).At(0, 10, Strain(0, spot: 0)).At(10, 20, Strain(1, spot: 1)).Mark(),
            new PlanState(set).At(0, 10, Strain(1, spot: 0)).At(10, 20, Strain(0, spot: 1)).Mark());
    }

    /// <summary>One of two such halves would be enough for a search of some million states: of ten thousand no two may agree.</summary>
    [Fact]
    public void Each_half_of_the_mark_tells_states_apart()
    {
        PlanProblem problem = Problem(s_day);
        UInt128[] marks = [.. Enumerable.Range(0, 100).SelectMany(i => Enumerable.Range(0, 100).Select(j =>
            new PlanState(problem).At(0, i, Strain(2)).At(0, j, Strain(3, person: 1, strainer: 1, tank: 1)).Mark()))];
        Assert.Equal(10_000, marks.Select(mark => (ulong)mark).Distinct().Count());
        Assert.Equal(10_000, marks.Select(mark => (ulong)(mark >> 64)).Distinct().Count());
    }
}
