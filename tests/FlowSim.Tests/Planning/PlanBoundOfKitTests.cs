using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>The least that any plan takes, by hand: cleaning, and turns at strainers, spots and tanks.</summary>
public class PlanBoundOfKitTests
{
    private static readonly PlannedBatch s_lime = Vessel("lime"), s_limeToo = Vessel("lime too"), s_heather = Vessel("heather") with { Honey = "heather" }, s_acacia = Vessel("acacia") with { Honey = "acacia" };

    private static int Finish(DayQuestion day) => PlanBound.Of(State(day)).Finish;

    private static int Finish(PlanState state) => PlanBound.Of(state).Finish;

    /// <summary>Enough of all for as many vessels.</summary>
    private static DayQuestion Ample(params PlannedBatch[] batches) => Of(batches) with { People = People(3, 0, 1000), Strainers = Strainers(3), Tanks = Tanks(3), Places = Place(3, timer: true) };

    private static PlannedBatch[] Three(Func<string, PlannedBatch> vessel) => [vessel("a"), vessel("b"), vessel("c")];

    [Fact]
    public void Each_honey_is_cleaned_off_once_at_the_end()
    {
        DayQuestion Day(params PlannedBatch[] batches) => Of(batches) with { Strainers = Strainers(9), Tanks = Tanks(9), Cleaning = Cleans(5, 8) };
        Assert.Equal(30 + 13, Finish(Day(s_lime)));
        Assert.Equal(60 + 13, Finish(Day(s_lime, s_limeToo)));
        Assert.Equal(60 + 26, Finish(Day(s_lime, s_heather)));
        Assert.Equal(30 + 8, Finish(Day(s_lime) with { Cleaning = Cleans(0, 8) }));
        Assert.Equal(30 + 5, Finish(Day(s_lime) with { Cleaning = Cleans(5, 0) }));
        Assert.Equal(10 + 5, Finish(Day(Vessel("stays", fill: 0))));

        // What has been decided changes nothing of that, unless it is cleaned too soon.
        Assert.Equal(30 + 13, Finish(State(Day(s_lime)).Do(Strain(0))));
        Assert.Equal(30 + 13, Finish(State(Day(s_lime)).Do(Strain(0), Fill(0))));
        Assert.Equal(30 + 13, Finish(State(Day(s_lime)).Do(Strain(0), Fill(0), CleanTank())));
        Assert.Equal(60 + 13, Finish(State(Day(s_lime, s_limeToo)).Do(Strain(0))));
        Assert.Equal(60 + 26, Finish(State(Day(s_lime, s_heather)).Do(Strain(0))));
        Assert.Equal(60 + 26, Finish(State(Day(s_lime, s_limeToo)).Do(Strain(0), Fill(0), CleanStrainer(), CleanTank())));
        Assert.Equal(10 + 5, Finish(State(Day(Vessel("stays", fill: 0))).Do(Strain(0))));
    }

    [Fact]
    public void Where_kit_may_stay_dirty_as_many_honeys_as_there_is_kit_are_not_cleaned_off()
    {
        DayQuestion day = Of(s_lime, s_heather, s_acacia) with { Cleaning = Cleans(5, 8, atTheEnd: false) };
        Assert.Equal(90 + (2 * 5) + (2 * 8), Finish(day));
        Assert.Equal(90 + 5 + (2 * 8), Finish(day with { Strainers = Strainers(2) }));
        Assert.Equal(90 + (2 * 5) + 8, Finish(day with { Tanks = Tanks(2) }));
        Assert.Equal(90, Finish(day with { Strainers = Strainers(3), Tanks = Tanks(3) }));
        Assert.Equal(90, Finish(day with { Strainers = Strainers(5), Tanks = Tanks(5) }));
        Assert.Equal(90 + (2 * 5) + (2 * 8), Finish(State(day).Do(Strain(0))));
        Assert.Equal(90 + (2 * 5) + (2 * 8), Finish(State(day).Do(Strain(0), Fill(0), CleanStrainer(), CleanTank())));

        DayQuestion two = day with { Batches = [s_lime, s_limeToo, s_heather] };
        Assert.Equal(90 + 13, Finish(two));
        Assert.Equal(90 + 13, Finish(State(two).Do(Strain(0))));
    }

    [Fact]
    public void Strainers_take_turns()
    {
        DayQuestion day = Ample(Three(name => Vessel(name, strain: 40, stand: 30, fill: 5))) with { Strainers = Strainers(1) };
        Assert.Equal(120 + 35, Finish(day));
        Assert.Equal(60 + 35, Finish(day with { Strainers = Strainers(2) }));
        Assert.Equal(62 + 35, Finish(day with { Strainers = Strainers(2), Batches = Three(name => Vessel(name, strain: 41, stand: 30, fill: 5)) }));
        Assert.Equal(120 + 15, Finish(day with { Batches = [.. day.Batches.Take(2), Vessel("c", strain: 40, stand: 10, fill: 5)] }));
        Assert.Equal(6 + 120 + 35, Finish(day with { Batches = [day.Batches[0] with { Earliest = Min(9) }, day.Batches[1] with { Earliest = Min(6) }, day.Batches[2] with { Earliest = Min(12) }] }));
        Assert.Equal(120 + 35, Finish(State(day).Do(Strain(0))));
        Assert.Equal(60 + 80 + 35, Finish(State(day).At(20, 60, Strain(0))));
        Assert.Equal(((60 + 20 + 80) / 2) + 35, Finish(State(day with { Strainers = Strainers(2) }).At(20, 60, Strain(0))));
    }

    [Fact]
    public void Spots_take_turns()
    {
        DayQuestion day = Ample(Three(name => Vessel(name, warm: 60, stand: 5))) with { Places = Place(1, timer: true) };
        Assert.Equal(180 + 35, Finish(day));
        Assert.Equal(120 + 35, Finish(day with { Places = Place(2, timer: true) }));
        Assert.Equal(60 + 35, Finish(day with { Places = Place(3, timer: true) }));
        Assert.Equal(180 + 35, Finish(day with { Batches = Three(name => Vessel(name, warm: 50, settle: 10, stand: 5)) }));
        Assert.Equal(120 + 35, Finish(day with { Batches = [.. day.Batches.Take(2), Vessel("c", stand: 5)] }));
        Assert.Equal(120 + 35, Finish(day with { Batches = [Vessel("a", warm: 60, stand: 5), Vessel("b", warm: 40, stand: 5), Vessel("c", warm: 80, stand: 5)] }));
        Assert.Equal(120 + 10 + 25, Finish(day with { Batches = [Vessel("a", warm: 40, strain: 12, stand: 5), Vessel("b", warm: 40, strain: 10, stand: 5), Vessel("c", warm: 40, strain: 11, stand: 5)] }));
        Assert.Equal(7 + 180 + 35, Finish(day with { Batches = [.. day.Batches.Select(b => b with { Earliest = Min(7) })] }));
        Assert.Equal(500 + 60 + 60 + 35, Finish(State(day).At(500, 501, CleanTank(2))));
        Assert.Equal(HourGrid.Never, Finish(day with { People = People(3, 0, 130) }));
        Assert.Equal(120 + 35, Finish(day with { People = People(3, 0, 130), Places = Place(2, timer: true) }));
    }

    [Fact]
    public void A_spot_that_is_taken_comes_in_turn_when_it_is_free()
    {
        DayQuestion day = Ample(Three(name => Vessel(name, warm: 60, stand: 5))) with { Places = Place(2, timer: true, drained: true) };
        Assert.Equal(120 + 35, Finish(State(day).At(0, 100, Strain(0, spot: 0))));
        Assert.Equal(120 + 35, Finish(State(day).At(0, 100, Strain(0, spot: 1))));
        Assert.Equal(160 + 60 + 35, Finish(State(day with { Places = Place(1, timer: true, drained: true) }).At(0, 100, Strain(0, spot: 0))));
        Assert.Equal(100, Finish(State(day with { Batches = [day.Batches[0], Vessel("b", stand: 5)] }).At(0, 75, Strain(0, spot: 0))));
    }

    [Fact]
    public void Without_a_timer_it_is_put_there_when_somebody_comes()
    {
        DayQuestion day = Ample(Vessel("a", warm: 60, stand: 5)) with { People = People(3, 100, 1000) };
        Assert.Equal(100 + 35, Finish(day));
        Assert.Equal(160 + 35, Finish(day with { Places = Place(1) }));
        Assert.Equal(HourGrid.Never, Finish(day with { Places = Place(1), People = People(3, 100, 169) }));
    }

    [Fact]
    public void Tanks_take_turns()
    {
        DayQuestion day = Ample(Three(name => Vessel(name, stand: 50))) with { Tanks = Tanks(1) };
        Assert.Equal(3 * 80, Finish(day));
        Assert.Equal(2 * 80, Finish(day with { Tanks = Tanks(2) }));
        Assert.Equal(80, Finish(day with { Tanks = Tanks(3) }));
        Assert.Equal(2 * 80, Finish(day with { Batches = [Vessel("a", stand: 60), Vessel("b", strain: 12, stand: 50, fill: 30)] }));
        Assert.Equal(2 * 80, Finish(day with { Batches = [Vessel("b", strain: 12, stand: 50, fill: 30), Vessel("a", stand: 60)] }));
        Assert.Equal(7 + (3 * 80), Finish(day with { Batches = [.. day.Batches.Select(b => b with { Earliest = Min(7) })] }));
        Assert.Equal(270, Finish(day with { People = People(3, 0, 70, 100, 1000) }));
        Assert.Equal(280, Finish(day with { People = People(3, 0, 55, 100, 1000) }));
        Assert.Equal(HourGrid.Never, Finish(day with { People = People(3, 0, 239) }));

        PlannedBatch Half(string name, string load) => Vessel(name, stand: 50) with { Joined = load };
        Assert.Equal(2 * (20 + 50 + 40), Finish(day with { Batches = [Half("a", "x"), Half("b", "x"), Half("c", "y"), Half("d", "y")] }));
    }

    [Fact]
    public void A_tank_that_is_taken_comes_in_turn_when_it_is_empty()
    {
        DayQuestion day = Ample(Three(name => Vessel(name, stand: 50))) with { Tanks = Tanks(1) };
        Assert.Equal(3 * 80, Finish(State(day).Do(Strain(0))));
        Assert.Equal(3 * 80, Finish(State(day).Do(Strain(0), Fill(0))));
        Assert.Equal(120 + (2 * 80), Finish(State(day).Do(Strain(0)).At(100, 101, CleanStrainer(2))));
        Assert.Equal(300 + (2 * 80), Finish(State(day).Do(Strain(0), Fill(0)).At(300, 301, CleanStrainer(2))));
        Assert.Equal(2 * 80, Finish(State(day with { Tanks = Tanks(2) }).Do(Strain(0))));
        Assert.Equal(80, Finish(State(day with { Batches = [Vessel("a", stand: 50)] }).Do(Strain(0))));
    }

    [Fact]
    public void A_load_that_stays_in_the_only_tank_leaves_none_for_another()
    {
        DayQuestion day = Ample(Vessel("stays", stand: 50, fill: 0), Vessel("other", stand: 50)) with { Tanks = Tanks(1) };
        Assert.Equal(HourGrid.Never, Finish(State(day).Do(Strain(0))));
        Assert.Equal(80, Finish(State(day with { Tanks = Tanks(2) }).Do(Strain(0))));

        // Of turns nothing is known while it may go last, or into another tank.
        Assert.Equal(80, Finish(day));
    }
}
