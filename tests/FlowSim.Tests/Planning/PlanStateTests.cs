using FlowSim.Planning;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>When a decision can be carried out, and what it leaves behind: single decisions, by hand.</summary>
public class PlanStateTests
{
    private static readonly DayQuestion s_two = Of(Vessel("one"), Vessel("two") with { Honey = "heather" }) with { People = People(2, 0, 100, 200, 300), Strainers = Strainers(2), Tanks = Tanks(2), Cleaning = Cleans(5, 8) };

    [Fact]
    public void Straining_waits_for_hours_honey_and_settling()
    {
        Assert.Equal((0, 10), State(s_two).Times(Strain(0)));
        Assert.Equal((12, 22), State(Of(Vessel("one", settle: 5) with { Earliest = Min(7) })).Times(Strain(0)));
        Assert.Equal((90, 100), State(Of(Vessel("one") with { Earliest = Min(90) }) with { People = s_two.People }).Times(Strain(0)));
        Assert.Equal((200, 210), State(Of(Vessel("one") with { Earliest = Min(91) }) with { People = s_two.People }).Times(Strain(0)));
        Assert.Equal((290, 300), State(Of(Vessel("one") with { Earliest = Min(290) }) with { People = s_two.People }).Times(Strain(0)));
        Assert.Null(State(Of(Vessel("one") with { Earliest = Min(291) }) with { People = s_two.People }).Times(Strain(0)));
    }

    [Fact]
    public void Straining_waits_for_person_strainer_and_tank()
    {
        PlanState state = State(s_two).At(0, 30, Strain(0));
        Assert.Equal((30, 40), state.Times(Strain(1, person: 0, strainer: 1, tank: 1)));
        Assert.Equal((30, 40), state.Times(Strain(1, person: 1, strainer: 0, tank: 1)));
        Assert.Equal((30, 40), state.Times(Strain(1, person: 1, strainer: 1, tank: 0)));
        Assert.Equal((0, 10), state.Times(Strain(1, person: 1, strainer: 1, tank: 1)));
    }

    [Fact]
    public void In_order_nothing_begins_before_what_was_decided_last()
    {
        PlanState state = State(s_two).At(50, 60, Strain(0));
        Assert.Equal((50, 60), state.Times(Strain(1, person: 1, strainer: 1, tank: 1)));
        Assert.Equal((0, 10), state.Times(Strain(1, person: 1, strainer: 1, tank: 1), inOrder: false));
        Assert.Equal(50, state.Now);
        Assert.Equal(50, state.At(20, 30, Strain(1, person: 1, strainer: 1, tank: 1)).Now);
    }

    [Fact]
    public void Jars_are_filled_when_all_of_a_load_has_stood_and_may_pause()
    {
        PlannedBatch one = Vessel("one", stand: 15) with { Joined = "x" };
        DayQuestion day = Of(one, one with { Name = "two" }) with { People = s_two.People };
        PlanState state = State(day).Do(Strain(0));
        Assert.Null(state.Times(Fill(0)));
        Assert.Equal(HourGrid.Never, state.ReadyToFill(0));
        state.Do(Strain(1));
        Assert.Equal(20 + 15, state.ReadyToFill(0));
        Assert.Equal((35, 35 + 40), state.Times(Fill(0)));

        PlanState late = State(day).At(0, 10, Strain(0)).At(55, 65, Strain(1));
        Assert.Equal((80, 220), late.Times(Fill(0)));
        Assert.Equal((200, 240), State(day).At(0, 10, Strain(0)).At(80, 90, Strain(1)).Times(Fill(0)));
        Assert.Equal((260, 300), State(day).At(0, 10, Strain(0)).At(235, 245, Strain(1)).Times(Fill(0)));
        Assert.Null(State(day).At(0, 10, Strain(0)).At(236, 246, Strain(1)).Times(Fill(0)));
        Assert.Null(State(day).At(0, 10, Strain(0)).At(280, 290, Strain(1)).Times(Fill(0)));
    }

    [Fact]
    public void Kit_is_cleaned_in_one_piece_when_it_is_free()
    {
        PlanState state = State(s_two).At(0, 40, Strain(0));
        Assert.Equal((40, 45), state.Times(CleanStrainer(person: 1)));
        Assert.Equal((40, 48), state.Times(CleanTank(person: 1)));
        Assert.Equal((0, 5), state.Times(CleanStrainer(strainer: 1, person: 1)));
        Assert.Equal((40, 48), state.Times(CleanTank(tank: 1, person: 0)));
        PlanState late = State(s_two).At(80, 96, Strain(0));
        Assert.Equal((200, 205), late.Times(CleanStrainer()));
        Assert.Equal((95, 100), State(s_two).At(80, 95, Strain(0)).Times(CleanStrainer()));
        Assert.Null(State(s_two).At(280, 296, Strain(0)).Times(CleanStrainer()));
        Assert.Equal((92, 100), State(s_two).At(80, 92, Strain(0)).Times(CleanTank()));
        Assert.Null(State(s_two).At(280, 293, Strain(0)).Times(CleanTank()));
    }

    [Fact]
    public void Straining_leaves_honey_on_the_strainer_and_in_the_tank()
    {
        PlanState state = State(s_two);
        Assert.Equal((-1, -1, -1, -1), (state.StrainerHoney(1), state.TankHoney(1), state.TankLoad(1), state.LoadTank(1)));
        Assert.Equal((-HourGrid.Never, -HourGrid.Never), (state.Now, state.Finish));
        state.At(3, 13, Strain(1, person: 1, strainer: 1, tank: 1));
        Assert.True(state.IsStrained(1));
        Assert.False(state.IsStrained(0));
        Assert.Equal((1, 1, 1, 1), (state.StrainerHoney(1), state.TankHoney(1), state.TankLoad(1), state.LoadTank(1)));
        Assert.Equal((-1, -1, -1, -1), (state.StrainerHoney(0), state.TankHoney(0), state.TankLoad(0), state.LoadTank(0)));
        Assert.Equal((13, 13, 13, 13, -HourGrid.Never), (state.PersonFree(1), state.StrainerFree(1), state.TankFree(1), state.StrainedAt(1), state.PersonFree(0)));
        Assert.Equal((0, 1), (state.MembersLeft(1), state.MembersLeft(0)));
        Assert.Equal((3, 13, 0), (state.Now, state.Finish, state.Late));
    }

    [Fact]
    public void Filling_and_cleaning_set_a_tank_free_again()
    {
        PlanState state = State(s_two).Do(Strain(0), Fill(0));
        Assert.True(state.IsFilled(0));
        Assert.False(state.IsFilled(1));
        Assert.Equal((30, -1, 0), (state.TankFree(0), state.TankLoad(0), state.TankHoney(0)));
        state.Do(CleanTank(), CleanStrainer());
        Assert.Equal((38, -1, 43, -1), (state.TankFree(0), state.TankHoney(0), state.StrainerFree(0), state.StrainerHoney(0)));
        Assert.Equal((43, 43), (state.PersonFree(0), state.Finish));
    }

    [Fact]
    public void A_load_is_late_by_its_filling_or_if_it_is_not_filled_by_its_standing()
    {
        PlannedBatch due = Vessel("one", stand: 10) with { Due = Min(25) };
        PlanState state = State(Of(due)).Do(Strain(0));
        Assert.Equal((10, 0), (state.Finish, state.Late));
        Assert.Equal((40, 15), (state.Do(Fill(0)).Finish, state.Late));
        Assert.Equal(0, State(Of(due with { Due = Min(40) })).Do(Strain(0), Fill(0)).Late);
        Assert.Equal(0, State(Of(due with { Due = Min(400) })).Do(Strain(0), Fill(0)).Late);

        PlannedBatch stays = Vessel("one", stand: 10, fill: 0) with { Due = Min(25), Joined = "x" };
        state = State(Of(stays, stays with { Name = "two" })).Do(Strain(0));
        Assert.Equal((10, 0), (state.Finish, state.Late));
        Assert.Equal((30, 5), (state.Do(Strain(1)).Finish, state.Late));
        state = State(Of(stays with { Due = Min(95) }) with { People = People(2, 0, 1000), Strainers = Strainers(2) });
        Assert.Equal((20, 0), (state.Do(Strain(0)).Finish, state.Late));
    }

    [Fact]
    public void The_finish_is_that_of_the_last_whatever_came_before()
    {
        DayQuestion day = s_two with { Batches = [Vessel("one", fill: 0, stand: 5), Vessel("two")] };
        PlanState state = State(day).At(0, 90, Strain(1, person: 1, strainer: 1, tank: 1)).At(0, 10, Strain(0));
        Assert.Equal(90, state.Finish);
        Assert.Equal(105, State(day with { Batches = [Vessel("one", fill: 0, stand: 95), Vessel("two")] }).At(0, 90, Strain(1, person: 1, strainer: 1, tank: 1)).At(0, 10, Strain(0)).Finish);

        // The last of a load counts, in whatever order they are told.
        PlannedBatch half = Vessel("one", fill: 0, stand: 5) with { Joined = "x" };
        PlanState both = State(Of(half, half with { Name = "two" })).At(40, 50, Strain(0)).At(0, 10, Strain(1));
        Assert.Equal((50, 55), (both.StrainedAt(0), both.Finish));
    }

    [Fact]
    public void A_copy_goes_its_own_way()
    {
        PlanState state = State(s_two).Do(Strain(0));
        PlanState copy = state.Copy();
        Assert.Equal(state.Mark(), copy.Mark());
        copy.Do(Fill(0), CleanTank(), CleanStrainer(), Strain(1));
        Assert.Equal((10, 10, 10, 10), (state.PersonFree(0), state.StrainerFree(0), state.TankFree(0), state.Finish));
        Assert.Equal((0, 0, 0, 0), (state.Now, state.StrainerHoney(0), state.TankHoney(0), state.TankLoad(0)));
        Assert.False(state.IsStrained(1));
        Assert.False(state.IsFilled(0));
        Assert.Equal((-1, 1, -HourGrid.Never), (state.LoadTank(1), state.MembersLeft(1), state.StrainedAt(1)));
        Assert.Same(state.Problem, copy.Problem);
    }
}
