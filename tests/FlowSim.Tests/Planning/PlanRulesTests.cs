using FlowSim.Planning;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>What goes onto which kit, what has to be cleaned, and when all is done.</summary>
public class PlanRulesTests
{
    private static readonly DayQuestion s_day = Of(Vessel("one"), Vessel("two") with { Honey = "heather" }, Vessel("three")) with { Strainers = Strainers(2), Tanks = Tanks(2), Cleaning = Cleans(5, 8) };

    [Fact]
    public void A_strainer_takes_its_own_honey_until_it_is_clean()
    {
        PlanState state = State(s_day);
        Assert.True(state.StrainerSuits(0, 1));
        state.Do(Strain(0));
        Assert.True(state.StrainerSuits(0, 0));
        Assert.False(state.StrainerSuits(0, 1));
        Assert.True(state.StrainerSuits(1, 1));
        Assert.True(state.Do(CleanStrainer()).StrainerSuits(0, 1));
        Assert.True(State(s_day with { Cleaning = Cleans(0, 8) }).Do(Strain(0)).StrainerSuits(0, 1));
        Assert.False(State(s_day with { Cleaning = Cleans(5, 0) }).Do(Strain(0)).StrainerSuits(0, 1));
    }

    [Fact]
    public void A_tank_takes_one_load_at_a_time_and_its_own_honey_until_it_is_clean()
    {
        PlanState state = State(s_day);
        Assert.True(state.TankSuits(0, 0));
        state.Do(Strain(0));
        Assert.True(state.TankSuits(0, 0));
        Assert.False(state.TankSuits(1, 0));
        Assert.False(state.TankSuits(0, 2));
        Assert.True(state.TankSuits(1, 1));
        state.Do(Fill(0));
        Assert.True(state.TankSuits(0, 2));
        Assert.False(state.TankSuits(0, 1));
        Assert.True(state.Do(CleanTank()).TankSuits(0, 1));
        Assert.True(State(s_day with { Cleaning = Cleans(5, 0) }).Do(Strain(0), Fill(0)).TankSuits(0, 1));
        Assert.False(State(s_day with { Cleaning = Cleans(0, 8) }).Do(Strain(0), Fill(0)).TankSuits(0, 1));
    }

    [Fact]
    public void A_tank_takes_no_more_than_it_holds()
    {
        PlanState state = State(s_day with { Tanks = [.. Tanks(1), new BottlingTank { Name = "small", Capacity = Volume.FromLiters(19) }] });
        Assert.True(state.TankSuits(0, 0));
        Assert.False(state.TankSuits(1, 0));
    }

    [Fact]
    public void A_place_suits_what_names_it_or_none()
    {
        DayQuestion day = s_day with { Places = [.. Place(2), new WarmingPlace { Name = "Bath" }], Batches = [Vessel("one", warm: 5) with { Places = ["bath"] }, Vessel("two", warm: 5) with { Places = ["bath", "cabinet"] }, Vessel("three", warm: 5), Vessel("four", warm: 5) with { Places = [] }] };
        PlanState state = State(day);
        Assert.Equal([false, false, true], Enumerable.Range(0, 3).Select(spot => state.PlaceSuits(spot, state.Problem.Batches[0])));
        foreach (int batch in new[] { 1, 2 })
            Assert.All(Enumerable.Range(0, 3), spot => Assert.True(state.PlaceSuits(spot, state.Problem.Batches[batch])));
        Assert.All(Enumerable.Range(0, 3), spot => Assert.False(state.PlaceSuits(spot, state.Problem.Batches[3])));
    }

    [Fact]
    public void Dirty_is_what_carries_honey_and_takes_time_to_clean()
    {
        PlanState state = State(s_day);
        Assert.Equal((0, 0), (state.DirtyStrainers, state.DirtyTanks));
        state.Do(Strain(0), Strain(1, strainer: 1, tank: 1));
        Assert.Equal((2, 2), (state.DirtyStrainers, state.DirtyTanks));
        state.Do(Fill(0), CleanTank(), CleanStrainer(1));
        Assert.Equal((1, 1), (state.DirtyStrainers, state.DirtyTanks));
        Assert.Equal((0, 1), Dirty(s_day with { Cleaning = Cleans(0, 8) }));
        Assert.Equal((1, 0), Dirty(s_day with { Cleaning = Cleans(5, 0) }));

        // A tank that honey stays in is not cleaned.
        Assert.Equal((1, 0), Dirty(s_day with { Batches = [Vessel("one", fill: 0)] }));

        static (int, int) Dirty(DayQuestion day)
        {
            PlanState strained = State(day).Do(Strain(0));
            return (strained.DirtyStrainers, strained.DirtyTanks);
        }
    }

    [Fact]
    public void All_is_done_when_it_is_strained_filled_and_where_asked_clean()
    {
        DayQuestion one = s_day with { Batches = [Vessel("one")] };
        PlanState state = State(one);
        Assert.False(state.IsDone);
        Assert.False(state.Do(Strain(0)).IsDone);
        Assert.False(state.Do(Fill(0)).IsDone);
        PlanState tankLeft = state.Copy().Do(CleanStrainer()), strainerLeft = state.Copy().Do(CleanTank());
        Assert.False(tankLeft.IsDone);
        Assert.False(strainerLeft.IsDone);
        Assert.True(tankLeft.Do(CleanTank()).IsDone);
        Assert.True(strainerLeft.Do(CleanStrainer()).IsDone);

        Assert.True(State(one with { Cleaning = Cleans(5, 8, atTheEnd: false) }).Do(Strain(0), Fill(0)).IsDone);
        Assert.False(State(one with { Cleaning = Cleans(5, 8, atTheEnd: false) }).Do(Strain(0)).IsDone);
        Assert.True(State(one with { Batches = [Vessel("one", fill: 0)] }).Do(Strain(0), CleanStrainer()).IsDone);
        Assert.False(State(one with { Batches = [Vessel("one", fill: 0)] }).IsDone);
        Assert.False(State(one with { Batches = [Vessel("one"), Vessel("two")], Cleaning = Cleans(0, 0) }).Do(Strain(0), Fill(0)).IsDone);
    }
}
