using FlowSim.Commands.Input;
using FlowSim.Planning;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a day's plan.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Date">The day that its moments count from.</param>
/// <param name="Journal">What was assumed.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record PlanStory(DayPlan Plan, DateOnly Date, Journal Journal, string Name)
{
    /// <summary>What the models say of the batches.</summary>
    public IReadOnlyList<Notice> OfBatches { get; init; } = [];

    /// <summary>Notices of the plan and of its batches.</summary>
    public IReadOnlyList<Notice> Notices => [.. Plan.Notices, .. OfBatches];

    /// <summary>Lines of the plan; vessels that are put to warm together are one line.</summary>
    public IReadOnlyList<PlanEntry> Lines =>
        [.. Plan.Entries
            .GroupBy(entry => (entry.Task, entry.From, entry.To, entry.Place, entry.Strainer, entry.Tank, entry.Who))
            .Select(group => group.First() with { Batches = [.. group.SelectMany(entry => entry.Batches)], Slack = group.Min(entry => entry.Slack) })];
}
