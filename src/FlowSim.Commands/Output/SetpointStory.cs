using FlowSim.Commands.Input;
using FlowSim.Setpoints;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a search for a setpoint.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Limits">Its limits.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record SetpointStory(SetpointAnswer Answer, LimitInput Limits, Journal Journal, string Name)
{
    /// <summary>Notices of the search and of the plan chosen, each once.</summary>
    public IReadOnlyList<Notice> Notices =>
        [.. Answer.Notices.Concat(Answer.Choice?.Warming?.Notices ?? []).Concat(Answer.Choice?.Straining?.Notices ?? []).Concat(Answer.Choice?.Damage.Notices ?? []).DistinctBy(notice => notice.Code, StringComparer.Ordinal)];
}
