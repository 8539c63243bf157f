using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.Planning;

/// <summary>A plain day, 08:00 to 17:00, one of each, to be changed with <c>with</c>.</summary>
internal static class InventedDay
{
    public static DayQuestion Of(params PlannedBatch[] batches) => new()
    {
        Batches = batches,
        Places = [new WarmingPlace { Name = "cabinet" }],
        Strainers = [new PlannedStrainer("cone")],
        Tanks = [new BottlingTank { Name = "tank", Capacity = Volume.FromLiters(60) }],
        People = [new Worker { Name = "A", Hours = [Hours(8, 17)] }],
    };

    /// <summary>Warm 1 h, strain 30 min, stand 1 h, fill 1 h, 20 L.</summary>
    public static PlannedBatch Batch(string name) => new()
    {
        Name = name,
        Steps = new PlannedSteps { Warm = Min(60), Strain = Min(30), Stand = Min(60), Fill = Min(60) },
        Volume = Volume.FromLiters(20),
    };

    public static PlannedBatch With(this PlannedBatch batch, Func<PlannedSteps, PlannedSteps> change) => batch with { Steps = change(batch.Steps) };

    public static StepTimes Min(double minutes) => StepTimes.Exactly(Duration.FromMinutes(minutes));

    public static WorkSpan Hours(double from, double to) => new(Duration.FromHours(from), Duration.FromHours(to));

    /// <summary>Task, begin and end of each line, as "Strain 09:00-09:30".</summary>
    public static string[] Lines(DayPlan plan) => [.. plan.Entries.Select(e => $"{e.Task} {Clock(e.From)}-{Clock(e.To)}")];

    public static string Clock(Duration moment)
    {
        int minutes = (int)Math.Round(moment.Minutes);
        int day = (int)Math.Floor(minutes / 1440.0);
        minutes -= day * 1440;
        return FormattableString.Invariant($"{(day == 0 ? "" : FormattableString.Invariant($"{day:+0;-0} "))}{minutes / 60:00}:{minutes % 60:00}");
    }
}
