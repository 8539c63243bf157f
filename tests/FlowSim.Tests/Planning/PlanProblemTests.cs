using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>A question as whole minutes: work is rounded up, moments to the inside of the hours.</summary>
public class PlanProblemTests
{
    private static readonly PlannedBatch s_one = Vessel("one", warm: 30);
    private static readonly PlannedBatch s_other = Vessel("two", warm: 30);

    private static StepTimes Steps(double quick, double likely, double slow) => new(Min(quick), Min(likely), Min(slow));

    [Theory]
    [InlineData(2, 2)]
    [InlineData(2.0000005, 2)]
    [InlineData(2.00001, 3)]
    [InlineData(1.9, 2)]
    [InlineData(-1.9, -1)]
    public void Minutes_are_rounded_up_but_for_a_rounding_error(double minutes, int whole) => Assert.Equal(whole, PlanProblem.Up(Min(minutes)));

    [Fact]
    public void A_step_takes_its_time_at_the_pace_asked_for()
    {
        StepTimes times = Steps(1.5, 2.5, 9);
        Assert.Equal([2, 3, 9, 0], new[] { PlanProblem.Up(times, Pace.Quick), PlanProblem.Up(times, Pace.Likely), PlanProblem.Up(times, Pace.Slow), PlanProblem.Up(null, Pace.Likely) });
    }

    [Fact]
    public void A_batch_is_as_it_was_asked_in_whole_minutes()
    {
        PlannedBatch batch = Vessel("second") with
        {
            Honey = "heather",
            Steps = new PlannedSteps { Warm = Steps(10.5, 20.5, 31), Settle = Steps(2, 3.5, 7), Strain = Steps(5, 6.2, 8), Stand = Steps(1, 2.2, 3), Fill = Steps(10, 11.3, 12) },
            Setting = "45 °C",
            Earliest = Min(4.5),
            LongestHold = Min(9.9),
            Due = Min(99.9),
            Places = ["cabinet"],
        };
        PlanProblem problem = Problem(Of(Vessel("first", warm: 5) with { Setting = "35 °C" }, batch));
        BatchNumbers second = problem.Batches[1];
        Assert.Equal((1, 1, 1, 1), (second.Index, second.Load, second.Honey, second.Setting));
        Assert.True(second.NeedsPlace);
        Assert.Equal((25, 38, 9, 7, 5), (second.Ready, second.ReadySlow, second.LongestHold, second.Strain, second.Earliest));
        Assert.Equal(["cabinet"], second.Places);
        LoadNumbers load = problem.Loads[1];
        Assert.Equal((1, 1, 3, 7, 12, 99), (load.Index, load.Honey, load.Stand, load.StrainAll, load.Fill, load.Due));
        Assert.Equal(20, load.VolumeL, 1e-9);
        Assert.Equal([batch], load.Members);
        Assert.Equal((0, 5, 5, 0), (problem.Batches[0].Setting, problem.Batches[0].Ready, problem.Batches[0].ReadySlow, problem.Batches[0].LongestHold));
        Assert.Equal((HourGrid.Never, 0), (problem.Loads[0].Due, problem.Loads[0].Stand));
        Assert.Equal(2, problem.Settings);
    }

    [Fact]
    public void Without_setting_or_warming_it_goes_with_any_and_needs_no_place()
    {
        BatchNumbers batch = Problem(Of(Vessel("one", settle: 4))).Batches[0];
        Assert.Equal((-1, false, 4, 4), (batch.Setting, batch.NeedsPlace, batch.Ready, batch.ReadySlow));
        Assert.Null(batch.Places);
        Assert.Equal(0, Problem(Of(Vessel("one", settle: 4))).Settings);
    }

    [Fact]
    public void A_load_is_all_that_is_joined()
    {
        PlannedBatch first = Vessel("first", strain: 10) with { Joined = "x", Due = Min(90), Steps = new PlannedSteps { Strain = InventedDay.Min(10.2), Stand = InventedDay.Min(5), Fill = InventedDay.Min(10.4) } };
        PlannedBatch third = Vessel("third") with { Joined = "x", Due = Min(80), Steps = new PlannedSteps { Strain = InventedDay.Min(4.2), Stand = InventedDay.Min(7), Fill = InventedDay.Min(10.4) } };
        PlanProblem problem = Problem(Of(first, Vessel("second"), third));
        Assert.Equal([0, 1, 0], problem.Batches.Select(b => b.Load));
        LoadNumbers load = problem.Loads[0];
        Assert.Equal((7, 11 + 5, 21, 80), (load.Stand, load.StrainAll, load.Fill, load.Due));
        Assert.Equal(40, load.VolumeL, 1e-9);
        Assert.Equal(0, Problem(Of(Vessel("one", fill: 0))).Loads[0].Fill);
    }

    [Fact]
    public void Batches_without_a_honey_have_one_of_their_own_whatever_they_are_called()
    {
        PlanProblem problem = Problem(Of(Vessel("lime") with { Honey = null }, Vessel("two"), Vessel("three") with { Honey = null }, Vessel("four")));
        Assert.Equal([0, 1, 2, 1], problem.Batches.Select(b => b.Honey));
        Assert.Equal([0, 1, 2, 1], problem.Loads.Select(l => l.Honey));
    }

    [Fact]
    public void Joined_by_the_name_of_a_batch_is_not_joined_with_that_batch()
    {
        PlanProblem problem = Problem(Of(Vessel("x"), Vessel("two") with { Joined = "x" }));
        Assert.Equal(2, problem.Loads.Length);
    }

    [Fact]
    public void Some_loads_keep_their_numbers_in_the_question()
    {
        PlanProblem some = new(Of(Vessel("a"), Vessel("b", strain: 11), Vessel("c", strain: 12)), Pace.Likely, [2, 1]);
        Assert.Equal([(1, 0), (2, 1)], some.Batches.Select(b => (b.Index, b.Load)));
        Assert.Equal([11, 12], some.Loads.Select(l => l.StrainAll));
        Assert.Equal([0, 1], some.Loads.Select(l => l.Index));
    }

    [Fact]
    public void Hours_are_rounded_to_their_inside_and_cut_to_those_of_the_house()
    {
        DayQuestion day = Of(s_one) with { People = [Person(0, 100, 200, 300), Person(250, 400)], Open = [new WorkSpan(Min(10.4), Min(280.6))] };
        PlanProblem problem = Problem(day);
        Assert.Equal([(11, 100), (200, 280)], problem.Hours[0].Spans);
        Assert.Equal([(250, 280)], problem.Hours[1].Spans);
        Assert.Equal([(11, 100), (200, 280)], problem.Anybody.Spans);
        Assert.Equal([(0, 100), (200, 400)], Problem(day with { Open = null }).Anybody.Spans);
        Assert.Equal(2, problem.People);
        Assert.Equal([(1, 2)], Problem(day with { Open = [new WorkSpan(Min(1.0000001), Min(1.9999999))] }).Hours[0].Spans);
    }

    [Fact]
    public void Spots_are_those_of_the_places_in_order()
    {
        DayQuestion day = Of(s_one) with { Places = [.. Place(2), new WarmingPlace { Name = "bath" }], Cleaning = Cleans(7, 9), Strainers = Strainers(2), Tanks = Tanks(3) };
        PlanProblem problem = Problem(day);
        Assert.Equal([0, 0, 1], problem.SpotPlaces);
        Assert.Equal((7, 9, 2, 3), (problem.CleanStrainer, problem.CleanTank, problem.Strainers, problem.Tanks));
    }

    [Theory]
    [InlineData(20, 0, true)]
    [InlineData(19.99, 0, false)]
    [InlineData(19.9999995, 0, true)]
    [InlineData(30, 10, true)]
    [InlineData(30, 10.1, false)]
    public void A_tank_takes_what_fits_below_what_is_kept_free(double litres, double keptFree, bool takes)
    {
        DayQuestion day = Of(s_one) with { Tanks = [.. Tanks(1), new BottlingTank { Name = "t", Capacity = Volume.FromLiters(litres), KeptFree = Volume.FromLiters(keptFree) }] };
        Assert.Equal(takes, Problem(day).TankTakes(1, 0));
        Assert.True(Problem(day).TankTakes(0, 0));
    }

    [Fact]
    public void Of_batches_that_are_alike_each_has_the_last_one_before_it_as_twin()
    {
        PlannedBatch third = s_one with { Name = "three" };
        Assert.Equal([-1, 0, 1], Problem(Of(s_one, s_other, third)).Batches.Select(b => b.Twin));
        Assert.Equal([-1, -1, 0, 1], Problem(Of(s_one, Vessel("other"), s_other, Vessel("its twin"))).Batches.Select(b => b.Twin));
        Assert.Equal([-1, 0], Problem(Of(s_one with { Joined = "x" }, s_other with { Joined = "x" })).Batches.Select(b => b.Twin));
        Assert.Equal([-1, 0], Problem(Of(s_one with { Places = ["cabinet"] }, s_other with { Places = ["Cabinet"] })).Batches.Select(b => b.Twin));
    }

    [Fact]
    public void Whatever_differs_makes_them_unlike()
    {
        PlannedBatch[] unlike =
        [
            s_other with { Honey = "heather" },
            s_other with { Setting = "45 °C" },
            Vessel("two", warm: 31),
            Vessel("two", settle: 30),
            s_other with { LongestHold = Min(1) },
            Vessel("two", warm: 30, strain: 11),
            s_other with { Earliest = Min(1) },
            Vessel("two", warm: 30, stand: 1),
            Vessel("two", warm: 30, fill: 21),
            s_other with { Due = Min(99) },
            s_other with { Volume = Volume.FromLiters(21) },
            s_other with { Places = ["cabinet"] },
            s_other with { Places = [] },
        ];
        foreach (PlannedBatch other in unlike)
            Assert.Equal(-1, Problem(Of(s_one, other)).Batches[1].Twin);
        Assert.Equal(-1, Problem(Of(s_one with { Places = ["cabinet"] }, s_other)).Batches[1].Twin);
        Assert.Equal(-1, Problem(Of(s_one with { Joined = "x" }, Vessel("two", warm: 30, strain: 11) with { Joined = "x" })).Batches[1].Twin);
    }

    [Fact]
    public void One_of_several_in_a_tank_is_not_like_one_alone()
    {
        // Filled in 20 min and 20 L either way, but the one is two vessels.
        PlannedBatch Half(string name) => Vessel(name, fill: 10) with { Joined = "x", Volume = Volume.FromLiters(10) };
        Assert.Equal([-1, 0, -1], Problem(Of(Half("one"), Half("two"), Vessel("alone"))).Batches.Select(b => b.Twin));
        Assert.Equal([-1, -1, 1], Problem(Of(Vessel("alone"), Half("one"), Half("two"))).Batches.Select(b => b.Twin));
    }
}
