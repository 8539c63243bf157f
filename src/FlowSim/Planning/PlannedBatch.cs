using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Planning;

/// <summary>One vessel of honey and what is done with it: warmed, left to settle, strained into a bottling tank, left to stand, filled.</summary>
public sealed record PlannedBatch
{
    /// <summary>Its name, as the plan calls it.</summary>
    public required string Name { get; init; }

    /// <summary>The honey in it: kit that goes from one honey to another is cleaned between. Null: a honey of its own.</summary>
    public string? Honey { get; init; }

    /// <summary>How long its steps take.</summary>
    public required PlannedSteps Steps { get; init; }

    /// <summary>What gets into the bottling tank. 0.01 L to 100 m³.</summary>
    public required Volume Volume { get; init; }

    /// <summary>What its vessel holds, for the reminder about lifting. Null: not known.</summary>
    public Mass? Mass { get; init; }

    /// <summary>Names of the warming places that will do. Null: any.</summary>
    public IReadOnlyList<string>? Places { get; init; }

    /// <summary>
    /// What its warming place has to be set to, in words such as "40 °C". A place has one setting: batches that differ in it are not in there
    /// together. Null: it goes with any.
    /// </summary>
    public string? Setting { get; init; }

    /// <summary>From when its honey is there. Default midnight.</summary>
    public Duration Earliest { get; init; } = Duration.Zero;

    /// <summary>By when it has to be filled. Null: whenever.</summary>
    public Duration? Due { get; init; }

    /// <summary>Longest time that it may be kept warm after it is ready to be strained. 0 to 14 days. Default 12 h (engineering choice: a night).</summary>
    public Duration LongestHold { get; init; } = Duration.FromHours(12);

    /// <summary>
    /// Batches of the same word here are strained into one tank, one after the other, and filled together. They have to be of the same honey. Null: it has
    /// a tank of its own.
    /// </summary>
    public string? Joined { get; init; }
}

/// <summary>How long the steps of a batch take, 1 min to 14 days each where they are there.</summary>
public sealed record PlannedSteps
{
    /// <summary>Warming, unattended, in a warming place. Null: it is warm.</summary>
    public StepTimes? Warm { get; init; }

    /// <summary>Settling, unattended, in the vessel where it is. Null: none.</summary>
    public StepTimes? Settle { get; init; }

    /// <summary>Straining with somebody at the gate all the time, setting up included.</summary>
    public required StepTimes Strain { get; init; }

    /// <summary>When the cloth is scraped, from the start of straining.</summary>
    public IReadOnlyList<Duration> Scrapes { get; init; } = [];

    /// <summary>Standing in the bottling tank until the bubbles are up. Null: none.</summary>
    public StepTimes? Stand { get; init; }

    /// <summary>Filling of what this batch gives, by one person; it may pause between two jars where that person's hours end. Null: it stays in the tank, which is then taken.</summary>
    public StepTimes? Fill { get; init; }
}
