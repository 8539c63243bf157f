using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.Planning;

/// <summary>Days in single minutes from 0 on, with nothing to clean unless it is said, and decisions taken one by one.</summary>
internal static class MinuteDay
{
    public static readonly PlanEffort Thorough = new() { Breadth = 5, Proof = 100_000 };

    /// <summary>One person from 0 to 1000, one strainer, one tank, one cabinet without a timer.</summary>
    public static DayQuestion Of(params PlannedBatch[] batches) => InventedDay.Of(batches) with
    {
        People = [Person(0, 1000)],
        Cleaning = Cleans(0, 0, atTheEnd: false),
        Effort = Thorough,
    };

    /// <summary>Strained in 10 min and filled in 20 unless it is said; 0 for a step that is not there.</summary>
    public static PlannedBatch Vessel(string name, int strain = 10, int fill = 20, int stand = 0, int warm = 0, int settle = 0) => new()
    {
        Name = name,
        Honey = "lime",
        Steps = new PlannedSteps { Warm = Step(warm), Settle = Step(settle), Strain = InventedDay.Min(strain), Stand = Step(stand), Fill = Step(fill) },
        Volume = Volume.FromLiters(20),
        LongestHold = Duration.Zero,
    };

    /// <summary>Hours as begin, end, begin, end.</summary>
    public static Worker Person(params int[] hours) => new() { Name = "A", Hours = Spans(hours) };

    public static WorkSpan[] Spans(params int[] hours) => [.. hours.Chunk(2).Select(pair => new WorkSpan(Min(pair[0]), Min(pair[1])))];

    public static Cleaning Cleans(int strainer, int tank, bool atTheEnd = true) => new() { Strainer = Min(strainer), Tank = Min(tank), AtTheEnd = atTheEnd };

    public static WarmingPlace[] Place(int vessels = 1, bool timer = false, bool drained = false) => [new WarmingPlace { Name = "cabinet", Vessels = vessels, HasTimer = timer, DrainedInPlace = drained }];

    public static PlannedStrainer[] Strainers(int count) => [.. Enumerable.Range(0, count).Select(s => new PlannedStrainer("cone " + s))];

    public static BottlingTank[] Tanks(int count) => [.. Enumerable.Range(0, count).Select(t => new BottlingTank { Name = "tank " + t, Capacity = Volume.FromLiters(60) })];

    /// <summary>As many people with the same hours.</summary>
    public static Worker[] People(int count, params int[] hours) => [.. Enumerable.Range(0, count).Select(p => Person(hours) with { Name = "person " + p })];

    public static PlanProblem Problem(DayQuestion day) => new(day, day.Pace);

    public static PlanState State(DayQuestion day) => new(Problem(day));

    public static Duration Min(double minutes) => Duration.FromMinutes(minutes);

    public static PlanAction Strain(int batch, int spot = -1, int person = 0, int strainer = 0, int tank = 0) => new(ActionKind.Strain, batch, person, spot, strainer, tank);

    public static PlanAction Fill(int load, int person = 0, int tank = 0) => new(ActionKind.Fill, load, person, Tank: tank);

    public static PlanAction CleanStrainer(int strainer = 0, int person = 0) => new(ActionKind.CleanStrainer, strainer, person);

    public static PlanAction CleanTank(int tank = 0, int person = 0) => new(ActionKind.CleanTank, tank, person);

    /// <summary>Takes decisions as early as may be.</summary>
    public static PlanState Do(this PlanState state, params PlanAction[] actions)
    {
        foreach (PlanAction action in actions)
            state.Apply(state.Time(action)!.Value);
        return state;
    }

    /// <summary>Takes a decision at a time of its own.</summary>
    public static PlanState At(this PlanState state, int start, int end, PlanAction action)
    {
        state.Apply(new TimedAction(action, start, end, HourGrid.Never));
        return state;
    }

    /// <summary>A plan of decisions at times of their own.</summary>
    public static FoundPlan Plan(params (int Start, int End, PlanAction Action)[] actions) => new([.. actions.Select(one => new TimedAction(one.Action, one.Start, one.End, HourGrid.Never))], 0, 0);

    /// <summary>Begin and end of a decision; null when it cannot be.</summary>
    public static (int Start, int End)? Times(this PlanState state, PlanAction action, bool inOrder = true) => state.Time(action, inOrder) is { } timed ? (timed.Start, timed.End) : null;

    /// <summary>When a vessel is put to warm and when its straining begins.</summary>
    public static (int Put, int Start)? Warms(this PlanState state, PlanAction action) => state.Time(action) is { } timed ? (timed.WarmFrom, timed.Start) : null;

    private static StepTimes? Step(int minutes) => minutes == 0 ? null : InventedDay.Min(minutes);
}
