using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;
using static FlowSim.Tests.Planning.InventedDay;

namespace FlowSim.Tests.Planning;

/// <summary>Days small enough to plan by hand.</summary>
public class DayByHandTests
{
    [Fact]
    public void One_vessel_from_the_cabinet_to_the_clean_tank()
    {
        DayPlan plan = DayPlan.Of(Of(Batch("spring")));
        Assert.Equal(
            ["Warm 08:00-09:00", "Strain 09:00-09:30", "CleanStrainer 09:30-09:50", "Stand 09:30-10:30", "Fill 10:30-11:30", "CleanTank 11:30-12:00"],
            Lines(plan));
        Assert.True(plan.IsProven);
        Assert.Equal("12:00", Clock(plan.Finish!.Value));
        Assert.Empty(plan.Conflicts);

        // The strainer may be cleaned until the jars wait; the rest moves what comes after it; at the end there are the hours.
        Assert.Equal([0, 0, 40, 0, 0, 300], plan.Entries.Select(e => Math.Round(e.Slack!.Value.Minutes)));
    }

    [Fact]
    public void With_heat_and_a_timer_of_its_own_it_is_warm_when_somebody_comes()
    {
        DayPlan plan = DayPlan.Of(Of(Batch("spring")) with { Places = [new WarmingPlace { Name = "band", HasTimer = true }] });
        Assert.Equal(["Warm 07:00-08:00", "Strain 08:00-08:30"], Lines(plan)[..2]);
    }

    [Fact]
    public void Honey_is_put_to_warm_early_enough_to_be_ready_if_it_warms_slowly()
    {
        StepTimes warm = new(Duration.FromHours(1), Duration.FromHours(2), Duration.FromHours(5));
        DayPlan plan = DayPlan.Of(Of(Batch("spring").With(s => s with { Warm = warm })) with { Places = [new WarmingPlace { Name = "band", HasTimer = true }] });
        Assert.Equal(["Warm 03:00-05:00", "Hold 05:00-08:00", "Strain 08:00-08:30"], Lines(plan)[..3]);
        Assert.Equal(3 * 60, plan.Entries[0].Slack!.Value.Minutes, 6);
        Assert.Equal(plan.Finish!.Value.Minutes, plan.FinishSlow!.Value.Minutes, 6);
    }

    [Fact]
    public void Jars_wait_over_night_and_the_gate_does_not()
    {
        DayQuestion day = Of(Batch("spring").With(s => s with { Stand = null, Fill = Min(8 * 60) })) with
        {
            People = [new Worker { Name = "A", Hours = [Hours(8, 17), Hours(32, 41)] }],
            Cleaning = new Cleaning { Strainer = Duration.Zero, Tank = Duration.Zero },
        };
        PlanEntry fill = DayPlan.Of(day).Entries.Single(e => e.Task == PlanTask.Fill);
        Assert.Equal(["09:30-17:00", "+1 08:00-+1 08:30"], fill.Work.Select(w => $"{Clock(w.From)}-{Clock(w.To)}"));

        DayQuestion late = day with { Batches = [Batch("spring").With(s => s with { Warm = Min(8 * 60), Strain = Min(90) })] };
        Assert.Contains("Strain +1 08:00-+1 09:30", Lines(DayPlan.Of(late)));
    }

    [Fact]
    public void A_second_honey_waits_for_the_clean_strainer()
    {
        DayQuestion day = Of(Batch("lime").With(s => s with { Warm = null }), Batch("heather").With(s => s with { Warm = null })) with
        {
            Tanks = [.. new[] { "one", "two" }.Select(name => new BottlingTank { Name = name, Capacity = Volume.FromLiters(30) })],
        };
        string[] lines = Lines(DayPlan.Of(day));
        Assert.Equal(["Strain 08:00-08:30", "CleanStrainer 08:30-08:50"], lines.Where(l => !l.StartsWith("Stand", StringComparison.Ordinal)).Take(2));

        DayQuestion same = day with { Batches = [.. day.Batches.Select(b => b with { Honey = "lime" })] };
        Assert.Equal(["Strain 08:00-08:30", "Strain 08:30-09:00"], Lines(DayPlan.Of(same)).Where(l => !l.StartsWith("Stand", StringComparison.Ordinal)).Take(2));
    }

    [Fact]
    public void Joined_vessels_are_filled_together_and_others_never_share_a_tank()
    {
        PlannedBatch[] two = [.. new[] { "one", "two" }.Select(name => Batch(name).With(s => s with { Warm = null }) with { Honey = "lime", Joined = "lime" })];
        DayPlan joined = DayPlan.Of(Of(two));
        Assert.Equal(["one", "two"], joined.Entries.Single(e => e.Task == PlanTask.Fill).Batches);
        Assert.Equal(120, joined.Entries.Single(e => e.Task == PlanTask.Fill).Work.Sum(w => (w.To - w.From).Minutes), 6);

        DayPlan apart = DayPlan.Of(Of([.. two.Select(b => b with { Joined = null })]));
        Assert.Equal(2, apart.Entries.Count(e => e.Task == PlanTask.Fill));
        Assert.True(apart.Finish > joined.Finish);
    }

    [Fact]
    public void One_cabinet_has_one_setting()
    {
        DayQuestion day = Of(Batch("one") with { Setting = "35 °C" }, Batch("two") with { Setting = "45 °C" }) with
        {
            Places = [new WarmingPlace { Name = "cabinet", Vessels = 2 }],
            Tanks = [.. new[] { "one", "two" }.Select(name => new BottlingTank { Name = name, Capacity = Volume.FromLiters(30) })],
        };
        PlanEntry[] warm = [.. DayPlan.Of(day).Entries.Where(e => e.Task == PlanTask.Warm)];
        Assert.True(warm[1].From >= warm[0].To);

        DayQuestion alike = day with { Batches = [.. day.Batches.Select(b => b with { Setting = null })] };
        warm = [.. DayPlan.Of(alike).Entries.Where(e => e.Task == PlanTask.Warm)];
        Assert.True(warm[1].From < warm[0].To);
    }

    [Fact]
    public void The_same_question_gives_the_same_plan()
    {
        for (int seed = 0; seed < 10; seed++)
            Assert.Equal(Lines(DayPlan.Of(RandomDays.Large(seed))), Lines(DayPlan.Of(RandomDays.Large(seed))));
    }

    [Fact]
    public void A_pace_is_the_one_that_is_asked_for()
    {
        StepTimes strain = new(Duration.FromMinutes(20), Duration.FromMinutes(30), Duration.FromMinutes(90));
        DayQuestion day = Of(Batch("spring").With(s => s with { Strain = strain }));
        DayPlan likely = DayPlan.Of(day);
        Assert.Equal("12:00", Clock(likely.Finish!.Value));
        Assert.Equal("11:50", Clock(likely.FinishQuick!.Value));
        Assert.Equal("13:00", Clock(likely.FinishSlow!.Value));
        Assert.Equal("13:00", Clock(DayPlan.Of(day with { Pace = Pace.Slow }).Finish!.Value));
        Assert.Equal("11:50", Clock(DayPlan.Of(day with { Pace = Pace.Quick }).Finish!.Value));
    }

    [Fact]
    public void It_can_be_ended_early()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => DayPlan.Of(RandomDays.Large(3), stop.Token));
    }
}
