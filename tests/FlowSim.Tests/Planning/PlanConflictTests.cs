using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;
using static FlowSim.Tests.Planning.InventedDay;

namespace FlowSim.Tests.Planning;

/// <summary>What cannot be is named, and the rest is planned.</summary>
public class PlanConflictTests
{
    private static readonly PlannedBatch s_good = Batch("good");

    public static TheoryData<string> Codes => [.. s_cases.Keys];

    private static readonly Dictionary<string, (Func<DayQuestion> Day, string Said)> s_cases = new(StringComparer.Ordinal)
    {
        ["tank-too-small"] = (() => Of(s_good, Batch("bad") with { Volume = Volume.FromLiters(61) }), "gives 61 L, and no bottling tank takes more than 60 L"),
        ["no-warming-place"] = (() => Of(s_good.With(s => s with { Warm = null }), Batch("bad")) with { Places = [] }, "there is no warming place"),
        ["straining-too-long"] = (() => Of(s_good, Batch("bad").With(s => s with { Strain = Min(541) })), "straining takes 9 h 01 min with somebody at the gate, and nobody is there longer than 9 h in one go"),
        ["hold-too-short"] = (() => Of(s_good.With(s => s with { Warm = null }), Batch("bad").With(s => s with { Warm = Min(11 * 60) }) with { LongestHold = Duration.FromHours(2) }) with { People = [new Worker { Name = "A", Hours = [Hours(8, 17), Hours(32, 41)] }] }, "kept warm for longer than is allowed"),
        ["hours-too-short"] = (() => Of(s_good, Batch("bad").With(s => s with { Warm = Min(30 * 60) })), "within the hours given"),
        ["too-much"] = (() => Of(s_good.With(s => s with { Strain = Min(200) }), Batch("bad").With(s => s with { Strain = Min(280) })), "do not fit the hours and the kit (10 h of straining and filling, 9 h of people's time; 1 other load remains)"),
    };

    [Theory]
    [MemberData(nameof(Codes))]
    public void It_is_named_with_what_would_help_and_the_others_are_planned(string code)
    {
        DayPlan plan = DayPlan.Of(s_cases[code].Day());
        PlanConflict conflict = Assert.Single(plan.Conflicts);
        Assert.Equal(code, conflict.Code);
        Assert.Equal(["bad"], conflict.Batches);
        Assert.Contains(s_cases[code].Said, conflict.ToString(), StringComparison.Ordinal);
        Assert.NotEmpty(conflict.Helps);
        Assert.Equal(["good"], plan.Ready.Select(r => r.Batch));
        new DayPlanRules(plan, code).Check();
    }

    [Fact]
    public void Nobody_there_or_nobody_long_enough_to_clean_leaves_nothing()
    {
        foreach ((DayQuestion day, string code) in new[]
        {
            (Of(s_good) with { Open = [Hours(18, 20)] }, "nobody-there"),
            (Of(s_good) with { Cleaning = new Cleaning { Tank = Duration.FromHours(10) } }, "cleaning-too-long"),
        })
        {
            DayPlan plan = DayPlan.Of(day);
            Assert.Equal(code, Assert.Single(plan.Conflicts).Code);
            Assert.Empty(plan.Entries);
            Assert.Null(plan.Finish);
        }
    }

    [Fact]
    public void What_is_late_is_planned_and_named()
    {
        DayPlan plan = DayPlan.Of(Of(s_good with { Due = Duration.FromHours(10) }));
        PlanConflict conflict = Assert.Single(plan.Conflicts);
        Assert.Equal("late", conflict.Code);
        Assert.Contains("ready 1 h 30 min too late", conflict.What, StringComparison.Ordinal);
        Assert.Equal("11:30", Clock(plan.Ready.Single().At));
    }

    [Fact]
    public void A_batch_that_is_due_goes_first()
    {
        PlannedBatch[] two = [Batch("a").With(s => s with { Warm = null }), Batch("b").With(s => s with { Warm = null }) with { Due = Duration.FromHours(10.5) }];
        DayPlan plan = DayPlan.Of(Of(two));
        Assert.Empty(plan.Conflicts);
        Assert.Equal("10:30", Clock(plan.Ready.Single(r => r.Batch == "b").At));
    }

    [Fact]
    public void Slow_steps_that_do_not_fit_are_told()
    {
        StepTimes fill = new(Duration.FromHours(1), Duration.FromHours(4), Duration.FromHours(9));
        DayPlan plan = DayPlan.Of(Of(s_good.With(s => s with { Fill = fill }) with { Due = Duration.FromHours(15) }));
        Assert.Null(plan.FinishSlow);
        Assert.Null(plan.Ready.Single().Slow);
        Assert.Equal(["slow-does-not-fit", "late-if-slow"], plan.Notices.Select(n => n.Code));
    }

    [Fact]
    public void Nobody_leaves_an_open_gate_to_put_a_vessel_to_warm_unnoticed()
    {
        // Jacketed tanks drained in place, one spot: the second vessel can be put there only when the first is through.
        DayQuestion day = Of(s_good.With(s => s with { Warm = null, Strain = Min(300), Stand = null, Fill = Min(10) }), Batch("cold").With(s => s with { Warm = Min(120) }) with { Earliest = Duration.FromHours(9) }) with
        {
            Tanks = [.. new[] { "one", "two" }.Select(name => new BottlingTank { Name = name, Capacity = Volume.FromLiters(30) })],
            Cleaning = new Cleaning { Strainer = Duration.Zero, Tank = Duration.Zero },
        };
        DayPlan plan = DayPlan.Of(day);
        PlanEntry warm = plan.Entries.Single(e => e.Task == PlanTask.Warm);
        bool busy = plan.Entries.Any(e => e.IsAttended && e.From < warm.From && warm.From < e.To);
        Assert.Equal(busy, plan.Notices.Any(n => n.Code == "no-free-hand"));
        Assert.True(busy);
    }

    [Fact]
    public void What_stays_in_a_tank_takes_it()
    {
        DayQuestion day = Of(s_good.With(s => s with { Fill = null }), Batch("second").With(s => s with { Fill = null }));
        DayPlan plan = DayPlan.Of(day);
        Assert.Equal("too-much", Assert.Single(plan.Conflicts).Code);
        Assert.Contains(plan.Notices, n => n.Code == "stays-in-tank");
    }

    [Fact]
    public void Bad_questions_are_refused_by_name()
    {
        DayQuestion day = Of(s_good);
        (DayQuestion Bad, string Name)[] cases =
        [
            (day with { Batches = [] }, "Batches"),
            (day with { Batches = [s_good, s_good] }, "Batches"),
            (day with { Batches = [s_good with { Name = " " }] }, "Batches"),
            (day with { Batches = [s_good with { Volume = Volume.Zero }] }, "Batch.Volume"),
            (day with { Batches = [s_good with { Earliest = Duration.FromDays(-1000) }] }, "Batch.Earliest"),
            (day with { Batches = [s_good with { Due = Duration.FromDays(15) }] }, "Batch.Due"),
            (day with { Batches = [s_good with { LongestHold = Duration.FromHours(-1) }] }, "Batch.LongestHold"),
            (day with { Batches = [s_good with { Places = ["cellar"] }] }, "name"),
            (day with { Batches = [s_good.With(s => s with { Strain = Min(0) })] }, "Steps.Strain"),
            (day with { Batches = [s_good.With(s => s with { Fill = new StepTimes(Duration.FromHours(2), Duration.FromHours(1), Duration.FromHours(3)) })] }, "Steps.Fill"),
            (day with { Batches = [s_good with { Joined = "x" }, Batch("other") with { Joined = "x" }] }, "Batch.Joined"),
            (day with { Strainers = [] }, "Strainers"),
            (day with { Tanks = [new BottlingTank { Name = "t", Capacity = Volume.Zero }] }, "Tank.Capacity"),
            (day with { Tanks = [new BottlingTank { Name = "t", Capacity = Volume.FromLiters(5), KeptFree = Volume.FromLiters(6) }] }, "Tank.KeptFree"),
            (day with { Places = [new WarmingPlace { Name = "p", Vessels = 0 }] }, "Place.Vessels"),
            (day with { People = [new Worker { Name = "A", Hours = [Hours(9, 8)] }] }, "Worker.Hours"),
            (day with { People = [new Worker { Name = "A", Hours = [] }] }, "Worker.Hours"),
            (day with { Cleaning = new Cleaning { Tank = Duration.FromHours(25) } }, "Cleaning.Tank"),
            (day with { Pace = (Pace)9 }, "Pace"),
            (day with { Effort = new PlanEffort { Breadth = 0 } }, "Breadth"),
        ];
        foreach ((DayQuestion bad, string name) in cases)
            Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(() => DayPlan.Of(bad)).ParamName);
        Assert.Throws<ArgumentNullException>(() => DayPlan.Of(null!));
    }
}
