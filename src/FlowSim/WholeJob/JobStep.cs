using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>A step of the job.</summary>
public enum JobStepKind
{
    /// <summary>Warm until the honey flows.</summary>
    Warm,

    /// <summary>Leave standing until bubbles and wax have risen; skim.</summary>
    Settle,

    /// <summary>Run through gate and strainer into the bottling tank; somebody stands by.</summary>
    Strain,

    /// <summary>Fill jars; somebody fills.</summary>
    Fill,
}

/// <summary>One step of the job and how long it takes.</summary>
public sealed record JobStep
{
    /// <summary>Which step.</summary>
    public required JobStepKind Kind { get; init; }

    /// <summary>How long it takes; null when it does not come to its end, and <see cref="Never"/> says why.</summary>
    public required StepTimes? Times { get; init; }

    /// <summary>Why it does not come to its end; empty when it does.</summary>
    public string Never { get; init; } = string.Empty;
}

/// <summary>How long a step takes.</summary>
/// <param name="Quick">If all goes quickly: one run in ten is quicker, or the quick bound where no chances are known.</param>
/// <param name="Likely">The best estimate.</param>
/// <param name="Slow">If all goes slowly: one run in ten is slower, or the slow bound.</param>
public sealed record StepTimes(Duration Quick, Duration Likely, Duration Slow)
{
    /// <summary>Times of a step that takes as long as somebody lets it.</summary>
    /// <param name="duration">How long.</param>
    public static StepTimes Exactly(Duration duration) => new(duration, duration, duration);

    /// <summary>Times in order, whatever order they come in: the best estimate is kept and the others moved out to it.</summary>
    internal static StepTimes Around(Duration likely, Duration one, Duration other) =>
        new(Least(likely, Least(one, other)), likely, Most(likely, Most(one, other)));

    private static Duration Least(Duration a, Duration b) => a < b ? a : b;

    private static Duration Most(Duration a, Duration b) => a > b ? a : b;
}
