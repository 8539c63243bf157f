using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>A plan as people read it, line by line, by hand.</summary>
public class PlanWriterTests
{
    private static readonly PlannedBatch s_all = Vessel("all", warm: 50, settle: 10, stand: 5).With(s => s with { Scrapes = [Min(3), Min(9.5), Min(10), Min(11)] }) with { LongestHold = Min(100), Earliest = Min(0) };

    /// <summary>Warmed from 0 on, strained from 60, filled from 75, cleaned while it stands and at the end.</summary>
    private static DayPlan Whole() => DayPlan.Of(Of(s_all) with { Cleaning = Cleans(5, 8) });

    private static (PlanTask Task, double From, double To, double? Slack)[] Lines(DayPlan plan) => [.. plan.Entries.Select(e => (e.Task, e.From.Minutes, e.To.Minutes, e.Slack?.Minutes))];

    private static PlanEntry The(DayPlan plan, PlanTask task, string? batch = null) => plan.Entries.Single(e => e.Task == task && (batch is null || e.Batches.Contains(batch)));

    [Fact]
    public void Lines_follow_their_begin()
    {
        DayPlan plan = Whole();
        Assert.Equal(
            [
                (PlanTask.Warm, 0, 50, 0), (PlanTask.Settle, 50, 60, 0), (PlanTask.Strain, 60, 70, 0), (PlanTask.CleanStrainer, 70, 75, 0), (PlanTask.Stand, 70, 75, 0),
                (PlanTask.Fill, 75, 95, 0), (PlanTask.CleanTank, 95, 103, 897),
            ],
            Lines(plan));
        Assert.Equal((103, 103, 103), (plan.Finish!.Value.Minutes, plan.FinishQuick!.Value.Minutes, plan.FinishSlow!.Value.Minutes));
        Assert.Equal(new BatchReady("all", Min(95), Min(95), Min(95), null), plan.Ready.Single());
        Assert.True(plan.IsProven);
        Assert.Equal(103, plan.NoSoonerThan!.Value.Minutes);
    }

    [Fact]
    public void Each_line_names_its_kit_and_who_does_it()
    {
        DayPlan plan = Whole();
        (PlanTask, string, string?, string?, string?, string?)[] named = [.. plan.Entries.Select(e => (e.Task, string.Join(',', e.Batches), e.Place, e.Strainer, e.Tank, e.Who))];
        Assert.Equal(
            [
                (PlanTask.Warm, "all", "cabinet", null, null, null), (PlanTask.Settle, "all", "cabinet", null, null, null), (PlanTask.Strain, "all", null, "cone", "tank", "A"),
                (PlanTask.CleanStrainer, "", null, "cone", null, "A"), (PlanTask.Stand, "all", null, null, "tank", null), (PlanTask.Fill, "all", null, null, "tank", "A"), (PlanTask.CleanTank, "", null, null, "tank", "A"),
            ],
            named);
        Assert.All(plan.Entries, e => Assert.Equal(e.Who is not null, e.IsAttended));
        Assert.All(plan.Entries, e => Assert.Equal(e.Who is null ? [] : [new WorkSpan(e.From, e.To)], e.Work));
    }

    [Fact]
    public void Scrapes_are_told_until_the_gate_is_shut()
    {
        DayPlan plan = Whole();
        Assert.Equal([63, 69.5], The(plan, PlanTask.Strain).Scrapes.Select(at => at.Minutes));
        Assert.All(plan.Entries.Where(e => e.Task != PlanTask.Strain), e => Assert.Empty(e.Scrapes));
    }

    [Fact]
    public void Drained_in_place_the_place_is_told_with_the_straining()
    {
        DayPlan plan = DayPlan.Of(Of(s_all) with { Places = Place(drained: true) });
        Assert.Equal("cabinet", The(plan, PlanTask.Strain).Place);
    }

    [Fact]
    public void What_is_warm_begins_with_its_settling()
    {
        DayPlan plan = DayPlan.Of(Of(Vessel("one", settle: 10) with { Earliest = Min(7) }) with { People = [Person(0, 20, 30, 100)] });
        Assert.Equal([(PlanTask.Settle, 7, 17, 13), (PlanTask.Strain, 30, 40, 0), (PlanTask.Fill, 40, 60, 40)], Lines(plan));
        Assert.Null(plan.Entries[0].Place);
        Assert.Equal(["Strain", "Fill"], DayPlan.Of(Of(Vessel("one"))).Entries.Select(e => e.Task.ToString()));
    }

    [Fact]
    public void A_hold_is_told_between_ready_and_strained()
    {
        DayPlan plan = DayPlan.Of(Of(Vessel("one", warm: 50) with { LongestHold = Min(100) }) with { People = [Person(0, 20, 80, 150)] });
        Assert.Equal([(PlanTask.Warm, 20, 70, 10), (PlanTask.Hold, 70, 80, null), (PlanTask.Strain, 80, 90, 0), (PlanTask.Fill, 90, 110, 40)], Lines(plan));
        Assert.Equal("cabinet", plan.Entries[1].Place);
        Assert.Empty(plan.Entries[1].Work);
    }

    [Fact]
    public void Jars_pause_with_the_hours()
    {
        DayPlan plan = DayPlan.Of(Of(Vessel("one")) with { People = [Person(0, 20, 80, 150)] });
        PlanEntry fill = The(plan, PlanTask.Fill);
        Assert.Equal([(10, 20), (80, 90)], fill.Work.Select(w => (w.From.Minutes, w.To.Minutes)));
        Assert.Equal(60, fill.Slack!.Value.Minutes);
    }

    [Fact]
    public void Another_pace_keeps_the_order_and_the_putting_to_warm()
    {
        StepTimes Times(int quick, int likely, int slow) => new(Min(quick), Min(likely), Min(slow));
        PlannedBatch one = Vessel("one") with { Steps = new PlannedSteps { Strain = Times(8, 10, 13), Stand = Times(1, 5, 9), Fill = Times(15, 20, 30) }, Due = Min(50) };
        PlannedBatch two = Vessel("two") with { Steps = new PlannedSteps { Strain = Times(5, 10, 20), Stand = Times(1, 2, 9) }, Due = Min(500) };
        DayPlan plan = DayPlan.Of(Of(one, two) with { Tanks = Tanks(2) });

        // The first is due: strained, the second strained meanwhile, both for the one person; then filled at 20, quick at 13, slow at 33.
        Assert.Equal(new BatchReady("one", Min(40), Min(28), Min(63), Min(50)), plan.Ready[0]);
        Assert.Equal(new BatchReady("two", Min(22), Min(14), Min(42), Min(500)), plan.Ready[1]);
        Assert.Equal((40, 28, 63), (plan.Finish!.Value.Minutes, plan.FinishQuick!.Value.Minutes, plan.FinishSlow!.Value.Minutes));
        Assert.Equal(["late-if-slow", "stays-in-tank"], plan.Notices.Select(notice => notice.Code));
        Assert.Null(The(plan, PlanTask.Stand, "two").Slack);
        Assert.Equal(5, The(plan, PlanTask.Stand, "one").Slack!.Value.Minutes);
        Assert.All(["one", "two"], name => Assert.Equal(The(plan, PlanTask.Strain, name).Tank, The(plan, PlanTask.Stand, name).Tank));
        Assert.NotEqual(The(plan, PlanTask.Stand, "one").Tank, The(plan, PlanTask.Stand, "two").Tank);
        Assert.Equal(2, The(plan, PlanTask.Stand, "two").To.Minutes - The(plan, PlanTask.Stand, "two").From.Minutes);
    }

    [Fact]
    public void A_load_stands_from_the_last_of_its_vessels_on()
    {
        PlannedBatch Half(string name) => Vessel(name, stand: 7) with { Joined = "x" };
        PlanEntry stand = The(DayPlan.Of(Of(Half("one"), Half("two"))), PlanTask.Stand);
        Assert.Equal((20, 27), (stand.From.Minutes, stand.To.Minutes));
        Assert.Equal(["one", "two"], stand.Batches);
    }

    [Fact]
    public void What_is_late_and_what_is_left_out_are_told_and_the_rest_keeps_its_names()
    {
        DayPlan plan = DayPlan.Of(Of(Vessel("huge") with { Volume = Volume.FromLiters(61) }, Vessel("late", stand: 5) with { Due = Min(34) }, Vessel("cold", warm: 40)) with { Tanks = Tanks(2) });
        Assert.Equal(["tank-too-small", "late"], plan.Conflicts.Select(conflict => conflict.Code));
        Assert.Equal(["late", "cold"], plan.Ready.Select(ready => ready.Batch));
        Assert.Equal(["cold"], The(plan, PlanTask.Warm).Batches);
        Assert.Equal(["late"], The(plan, PlanTask.Stand).Batches);
        Assert.Equal(35, plan.Ready[0].At.Minutes);
        Assert.Equal([], DayPlan.Of(plan.Question with { Batches = [plan.Question.Batches[1] with { Due = Min(35) }] }).Conflicts);
    }

    [Fact]
    public void With_nothing_that_can_be_done_there_is_no_plan()
    {
        DayPlan plan = DayPlan.Of(Of(Vessel("huge") with { Volume = Volume.FromLiters(61) }));
        Assert.Empty(plan.Entries);
        Assert.Empty(plan.Ready);
        Assert.Empty(plan.Notices);
        Assert.Empty(plan.Cautions);
        Assert.False(plan.IsProven);
        Assert.Null(plan.Finish ?? plan.FinishQuick ?? plan.FinishSlow ?? plan.NoSoonerThan);
        Assert.Equal(["tank-too-small"], plan.Conflicts.Select(conflict => conflict.Code));
    }

    [Fact]
    public void A_vessel_put_to_warm_while_everybody_is_at_work_is_named()
    {
        // The cold one comes at 20, the only person is at the gate until 50, and it has to be warm before anybody leaves.
        DayQuestion day = Of(Vessel("long", strain: 50, fill: 0), Vessel("cold", warm: 30, fill: 0) with { Earliest = Min(20) }) with { Tanks = Tanks(2), People = [Person(0, 60)] };
        DayPlan plan = DayPlan.Of(day);
        Assert.Equal((20, 50), (The(plan, PlanTask.Warm).From.Minutes, The(plan, PlanTask.Warm).To.Minutes));
        Notice told = plan.Notices.Single(notice => notice.Code == "no-free-hand");
        Assert.Contains("\"cold\"", told.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain(DayPlan.Of(day with { Places = Place(timer: true) }).Notices, notice => notice.Code == "no-free-hand");
        Assert.DoesNotContain(DayPlan.Of(day with { People = People(2, 0, 60) }).Notices, notice => notice.Code == "no-free-hand");
    }
}
