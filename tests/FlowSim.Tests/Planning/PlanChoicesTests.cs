using FlowSim.Planning;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>What can be decided next, by hand; of what is alike only the first.</summary>
public class PlanChoicesTests
{
    private static readonly PlannedBatch s_lime = Vessel("lime"), s_later = Vessel("later", strain: 11), s_heather = Vessel("heather") with { Honey = "heather" };

    private static PlanAction[] Next(PlanState state) => [.. PlanChoices.Of(state).Select(choice => choice.Action)];

    [Fact]
    public void Of_people_who_are_alike_the_first()
    {
        DayQuestion day = Of(s_lime, s_later) with { People = People(3, 0, 1000), Strainers = Strainers(2), Tanks = Tanks(2) };
        Assert.Equal([Strain(0), Strain(1)], Next(State(day)));
        Assert.Equal([Strain(0), Strain(0, person: 1), Strain(1), Strain(1, person: 1)], Next(State(day with { People = [Person(0, 1000), Person(0, 999) with { Name = "B" }, Person(0, 1000) with { Name = "C" }] })));

        // Busy until 10 the first is not like the others; both are alike again for what begins later.
        Assert.Equal([0, 1], Next(State(day).At(0, 10, CleanTank(1))).Select(action => action.Person).Distinct());
        Assert.Equal([0], Next(State(day).At(0, 10, CleanTank(1)).At(10, 10, CleanTank(1, person: 1))).Select(action => action.Person).Distinct());
    }

    [Fact]
    public void Of_strainers_spots_and_tanks_that_are_alike_the_first()
    {
        DayQuestion day = Of(Vessel("one", warm: 5)) with { Strainers = Strainers(3), Tanks = Tanks(3), Places = Place(3) };
        Assert.Equal([Strain(0, spot: 0)], Next(State(day)));
        Assert.Equal([Strain(0, spot: 0), Strain(0, spot: 3)], Next(State(day with { Places = [.. Place(3), new WarmingPlace { Name = "bath" }] })));
        Assert.Equal([Strain(0, spot: 3)], Next(State(day with { Places = [.. Place(3), new WarmingPlace { Name = "bath" }], Batches = [day.Batches[0] with { Places = ["bath"] }] })));
        BottlingTank[] unlike = [.. Tanks(2), new BottlingTank { Name = "larger", Capacity = Volume.FromLiters(61) }, new BottlingTank { Name = "fuller", Capacity = Volume.FromLiters(60), KeptFree = Volume.FromLiters(1) }, new BottlingTank { Name = "small", Capacity = Volume.FromLiters(1) }];
        Assert.Equal([0, 2, 3], Next(State(day with { Tanks = unlike })).Select(action => action.Tank));
        Assert.Equal([1], Next(State(day with { Tanks = [unlike[4], unlike[0]] })).Select(action => action.Tank));
    }

    [Fact]
    public void Kit_that_is_free_later_is_another()
    {
        DayQuestion day = Of(Vessel("one", warm: 5), Vessel("two", warm: 5, strain: 11)) with { Strainers = Strainers(3), Tanks = Tanks(3), Places = Place(3, drained: true), Cleaning = Cleans(5, 8, atTheEnd: false) };
        PlanState state = State(day).Do(Strain(0, spot: 0, strainer: 1));
        PlanAction[] strains = [.. Next(state).Where(action => action.Kind == ActionKind.Strain)];
        Assert.All(strains, action => Assert.Equal(1, action.Item));
        Assert.Equal([0, 1], strains.Select(action => action.Spot).Distinct());
        Assert.Equal([0, 1], strains.Select(action => action.Strainer).Distinct());
        Assert.Equal([1], strains.Select(action => action.Tank).Distinct());
        Assert.Equal(4, strains.Length);
    }

    [Fact]
    public void Strainers_are_alike_by_honey_and_by_when_they_are_free()
    {
        DayQuestion day = Of(s_lime, s_later, Vessel("third", strain: 12)) with { Strainers = Strainers(2), Tanks = Tanks(3), People = People(2, 0, 1000) };
        int[] Offered(PlanState state) => [.. Next(state).Where(action => action.Kind == ActionKind.Strain).Select(action => action.Strainer).Distinct()];
        Assert.Equal([0, 1], Offered(State(day).At(0, 10, Strain(0, strainer: 1)).At(15, 16, CleanTank(2))));
        Assert.Equal([0, 1], Offered(State(day).At(0, 10, Strain(0)).At(15, 45, Strain(1, person: 1, strainer: 1, tank: 1)).At(15, 16, Fill(0))));
        Assert.Equal([0], Offered(State(day).At(0, 10, Strain(0)).At(0, 11, Strain(1, person: 1, strainer: 1, tank: 1)).At(15, 16, Fill(0)).At(15, 16, Fill(1, tank: 1))));
    }

    [Fact]
    public void Tanks_that_were_free_before_now_are_alike()
    {
        DayQuestion day = Of(s_lime) with { Tanks = Tanks(2) };
        Assert.Equal([0], Next(State(day).At(0, 5, CleanTank(1)).At(9, 9, CleanStrainer())).Select(action => action.Tank));
        Assert.Equal([0, 1], Next(State(day).At(0, 15, CleanTank(1)).At(9, 9, CleanStrainer())).Select(action => action.Tank));
    }

    [Fact]
    public void Of_twins_the_first_goes_first()
    {
        DayQuestion day = Of(s_lime, s_lime with { Name = "twin" }, s_later) with { Strainers = Strainers(1), Tanks = Tanks(3) };
        Assert.Equal([0, 2], Next(State(day)).Select(action => action.Item));
        Assert.Equal([1, 2], Next(State(day).Do(Strain(0))).Where(action => action.Kind == ActionKind.Strain).Select(action => action.Item));
    }

    [Fact]
    public void What_is_strained_is_filled_and_what_is_filled_is_done()
    {
        DayQuestion day = Of(s_lime);
        Assert.Equal([Fill(0)], Next(State(day).Do(Strain(0))));
        Assert.Equal([Fill(0, tank: 2)], Next(State(day with { Tanks = Tanks(3) }).Do(Strain(0, tank: 2))));
        Assert.Empty(Next(State(day).Do(Strain(0), Fill(0))));
        Assert.Empty(Next(State(day with { Batches = [Vessel("stays", fill: 0)] }).Do(Strain(0))));
        Assert.Empty(Next(State(day with { People = [Person(0, 29)] }).Do(Strain(0))));

        PlannedBatch half = s_lime with { Joined = "x" };
        Assert.Equal([Strain(1)], Next(State(day with { Batches = [half, half with { Name = "other" }] }).Do(Strain(0))));
    }

    [Theory]
    [InlineData(29, true)]
    [InlineData(30, false)]
    public void What_begins_when_a_filling_could_be_over_waits_for_it(int earliest, bool offered)
    {
        DayQuestion day = Of(s_lime, s_later with { Earliest = Min(earliest) }) with { People = People(2, 0, 1000), Tanks = Tanks(2) };
        PlanState state = State(day).Do(Strain(0));
        Assert.Equal(offered, Next(state).Any(action => action.Kind == ActionKind.Strain && action.Person == 1));
        Assert.Contains(Fill(0), Next(state));
    }

    [Fact]
    public void The_soonest_filling_counts()
    {
        // The one is filled by 30, the other by 410.
        DayQuestion day = Of(s_lime, s_later with { Earliest = Min(100) }, Vessel("long", fill: 400)) with { People = People(2, 0, 1000), Strainers = Strainers(2), Tanks = Tanks(3) };
        PlanState state = State(day).At(0, 10, Strain(0)).At(0, 10, Strain(2, person: 1, strainer: 1, tank: 2));
        Assert.DoesNotContain(Next(state), action => action.Kind == ActionKind.Strain);
        Assert.Equal([Fill(0), Fill(2, tank: 2)], Next(state));
    }

    [Fact]
    public void A_strainer_is_cleaned_where_that_helps()
    {
        PlanAction[] Cleanings(bool atTheEnd, int strainers, params PlannedBatch[] batches) =>
            [.. Next(State(Of(batches) with { Cleaning = Cleans(5, 0, atTheEnd), Strainers = Strainers(strainers), Tanks = Tanks(2) }).Do(Strain(0))).Where(action => action.Kind == ActionKind.CleanStrainer)];
        Assert.Equal([CleanStrainer()], Cleanings(false, 1, s_lime, s_heather));
        Assert.Empty(Cleanings(false, 1, s_lime, s_later));
        Assert.Empty(Cleanings(true, 1, s_lime, s_later));
        Assert.Equal([CleanStrainer()], Cleanings(true, 2, s_lime, s_later));
        Assert.Empty(Cleanings(false, 2, s_lime, s_later));
        Assert.Equal([CleanStrainer()], Cleanings(true, 1, s_lime));
        Assert.Empty(Cleanings(false, 1, s_lime));
        Assert.DoesNotContain(Next(State(Of(s_lime, s_heather) with { Cleaning = Cleans(0, 0) }).Do(Strain(0), Fill(0))), action => action.Kind is ActionKind.CleanStrainer or ActionKind.CleanTank);
        Assert.DoesNotContain(Next(State(Of(s_lime) with { Cleaning = Cleans(5, 8) })), action => action.Kind != ActionKind.Strain);
    }

    [Fact]
    public void A_tank_is_cleaned_where_that_helps_when_it_is_empty()
    {
        PlanState Filled(bool atTheEnd, int tanks, params PlannedBatch[] batches) => State(Of(batches) with { Cleaning = Cleans(0, 8, atTheEnd), Strainers = Strainers(2), Tanks = Tanks(tanks) }).Do(Strain(0), Fill(0));
        PlanAction[] Cleanings(PlanState state) => [.. Next(state).Where(action => action.Kind == ActionKind.CleanTank)];
        Assert.Equal([CleanTank()], Cleanings(Filled(false, 1, s_lime, s_heather)));
        Assert.Empty(Cleanings(Filled(false, 1, s_lime, s_later)));
        Assert.Empty(Cleanings(Filled(true, 1, s_lime, s_later)));
        Assert.Equal([CleanTank()], Cleanings(Filled(true, 2, s_lime, s_later)));
        Assert.Empty(Cleanings(Filled(false, 2, s_lime, s_later)));
        Assert.Equal([CleanTank()], Cleanings(Filled(true, 1, s_lime)));
        Assert.Empty(Cleanings(Filled(false, 1, s_lime)));
        Assert.Empty(Cleanings(State(Of(s_lime, s_heather) with { Cleaning = Cleans(0, 8) }).Do(Strain(0))));

        // The other honey has its tank already: cleaning this one is left to the end.
        DayQuestion both = Of(s_lime, s_heather) with { Cleaning = Cleans(0, 8, atTheEnd: false), Tanks = Tanks(2) };
        Assert.Empty(Cleanings(State(both).Do(Strain(0), Strain(1, tank: 1), Fill(0))));
        Assert.Equal([CleanTank()], Cleanings(State(both with { Cleaning = Cleans(0, 8) }).Do(Strain(0), Strain(1, tank: 1), Fill(0))));
    }

    [Fact]
    public void Whoever_can_does_the_cleaning()
    {
        DayQuestion day = Of(s_lime) with { People = [Person(0, 1000), Person(0, 12) with { Name = "B" }, Person(0, 999) with { Name = "C" }], Cleaning = Cleans(5, 0) };
        Assert.Equal([CleanStrainer(person: 0), CleanStrainer(person: 2)], Next(State(day).Do(Strain(0))).Where(action => action.Kind == ActionKind.CleanStrainer));
    }
}
