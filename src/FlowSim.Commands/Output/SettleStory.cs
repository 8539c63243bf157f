using FlowSim.Commands.Input;
using FlowSim.HeatDamage;
using FlowSim.Settling;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a settling run.</summary>
/// <param name="Result">The run.</param>
/// <param name="Damage">What the heat does meanwhile.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record SettleStory(SettlingResult Result, HoneyHeatDamage Damage, Journal Journal, string Name)
{
    /// <summary>How far the time to be clear moves; null when it is not known.</summary>
    public SettlingBand? Band { get; init; }

    /// <summary>Notices of the run, each once.</summary>
    public IReadOnlyList<Notice> Notices => [.. Result.Notices.Concat(Damage.Notices).DistinctBy(notice => notice.Code, StringComparer.Ordinal)];

    /// <summary>What to do next.</summary>
    public IReadOnlyList<string> NextSteps { get; init; } = [];
}
