using FlowSim.Commands.Input;
using FlowSim.HeatDamage;
using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a warming run.</summary>
/// <param name="Bounds">The run between its bounds.</param>
/// <param name="Limits">What it is held against.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record WarmStory(WarmingBounds Bounds, LimitInput Limits, Journal Journal, string Name)
{
    /// <summary>The best estimate.</summary>
    public WarmingResult Result => Bounds.Best;

    /// <summary>The honey afterwards; null when it is not known before.</summary>
    public HeatedHoney? After => Result.Setup.Before is { } before ? Result.Damage.After(before) : null;

    /// <summary>How it stands against the limit; null when it is not known before.</summary>
    public LimitCheck? Check => After is { } after ? LimitCheck.Of(after, Limits.Limits.Heat) : null;

    /// <summary>Notices of the run, each once.</summary>
    public IReadOnlyList<Notice> Notices => [.. Result.Notices.Concat(Result.Damage.Notices).DistinctBy(notice => notice.Code, StringComparer.Ordinal)];

    /// <summary>How far the answers move; null when it is not known.</summary>
    public WarmingSpread? Spread { get; init; }

    /// <summary>What to do next.</summary>
    public IReadOnlyList<string> NextSteps { get; init; } = [];
}
