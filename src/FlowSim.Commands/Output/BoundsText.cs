using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>The bounds on a time of warming, in brackets behind the best estimate.</summary>
internal static class BoundsText
{
    /// <summary>The bounds with a space in front; empty when they say nothing more.</summary>
    /// <param name="bounds">Bounds.</param>
    public static string Of(WarmingBounds bounds)
    {
        string? low = bounds.TimeToTargetLow is { } fast ? Display.RoughTime(fast.Seconds) : null;
        string? high = bounds.TimeToTargetHigh is { } slow ? Display.RoughTime(slow.Seconds) : null;
        return (low, high) switch
        {
            ({ } l, { } h) when l == h => string.Empty,
            ({ } l, { } h) => $" ({l} if it is stirred all the time, {h} if heat only creeps through it)",
            ({ } l, null) => $" ({l} if it is stirred all the time; not at all if heat only creeps through it)",
            _ => string.Empty,
        };
    }
}
