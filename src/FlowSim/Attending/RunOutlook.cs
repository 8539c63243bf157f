using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Attending;

/// <summary>How a run that goes on stands at a moment, and what to do next. All times are since the opening of the gate.</summary>
/// <remarks>It follows from the plan, what was read and done, and the moment alone, so it is the same after a restart. Chances are no better than the spreads they come from.</remarks>
public sealed record RunOutlook
{
    /// <summary>The moment.</summary>
    public required Duration Now { get; init; }

    /// <summary>What to do next, soonest first; what is overdue stays in front. Empty when the gate is shut.</summary>
    public required IReadOnlyList<NextAction> NextActions { get; init; }

    /// <summary>What rule and scale should show now, for the quantities that are read or matter.</summary>
    public required IReadOnlyList<ExpectedReading> Expected { get; init; }

    /// <summary>When and how likely the pond reaches the rim if from the last entry on nobody does anything.</summary>
    public required RimOutlook PondReachesRim { get; init; }

    /// <summary>When 95 % is strained, if all is done as planned.</summary>
    public required TimeSpread Ready { get; init; }

    /// <summary>How the last readings lie to what was expected of them before they came; empty before the first.</summary>
    public required IReadOnlyList<ReadingDeviation> Deviations { get; init; }

    /// <summary>What that means.</summary>
    public required RunVerdict Verdict { get; init; }

    /// <summary>
    /// How long nobody need look at the pond from <see cref="Now"/> on: until the chance of honey over the rim or a full receiver since the last entry exceeds the tolerance, when nobody does
    /// anything. Zero when that moment has come; null when the rest of the run is within the tolerance.
    /// </summary>
    public required Duration? LookAgainIn { get; init; }

    /// <summary>What is known now of honey, kit and the day.</summary>
    public required IReadOnlyList<FittedInput> Estimate { get; init; }

    /// <summary>Whether readings were fitted; else all rests on what was known before.</summary>
    public required bool Fitted { get; init; }

    /// <summary>What the user should know.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }
}

/// <summary>Something to be done.</summary>
/// <param name="Kind">What.</param>
/// <param name="At">When, most likely; of a look the latest moment.</param>
/// <param name="Earliest">One run in twenty wants it sooner.</param>
/// <param name="Latest">One in twenty wants it later.</param>
/// <param name="Why">Why, for people.</param>
public sealed record NextAction(NextActionKind Kind, Duration At, Duration Earliest, Duration Latest, string Why)
{
    /// <summary>Opening of the gate to set; null where none is.</summary>
    public Ratio? Opening { get; init; }

    /// <summary>Depth of pond to hold; null where none is.</summary>
    public Length? Depth { get; init; }
}

/// <summary>What is to be done.</summary>
public enum NextActionKind
{
    /// <summary>Read the level, to learn how the run goes.</summary>
    TakeReading,

    /// <summary>Look at the pond.</summary>
    LookAtPond,

    /// <summary>Hold the pond at a depth by the gate.</summary>
    RidePond,

    /// <summary>Scrape the cloth.</summary>
    Scrape,

    /// <summary>Set the gate as planned.</summary>
    SetGate,

    /// <summary>Narrow the gate, or the strainer is likely to run over.</summary>
    NarrowGate,

    /// <summary>Shut the gate or change the receiver before it is full.</summary>
    ChangeReceiver,

    /// <summary>Shut the gate: 95 % is through.</summary>
    ShutWhenDone,
}

/// <summary>What a rule or scale should show.</summary>
/// <param name="Quantity">Quantity.</param>
/// <param name="Value">Most likely, SI.</param>
/// <param name="Low">Low end of the 95 % band of a new reading.</param>
/// <param name="High">High end.</param>
public readonly record struct ExpectedReading(StrainingObservable Quantity, double Value, double Low, double High);

/// <summary>Whether and when the pond reaches the rim.</summary>
/// <param name="Chance">Chance, 0 to 1, of the runs that have not run over by the last entry.</param>
/// <param name="Earliest">One in twenty of those that do is sooner; null when none does.</param>
/// <param name="Likely">Half of them are sooner.</param>
/// <param name="Latest">One in twenty is later.</param>
public sealed record RimOutlook(double Chance, Duration? Earliest, Duration? Likely, Duration? Latest);

/// <summary>A reading beside what was expected of it before it came.</summary>
/// <param name="Quantity">Quantity.</param>
/// <param name="At">When it was read.</param>
/// <param name="Read">What was read, SI.</param>
/// <param name="Expected">What was expected.</param>
/// <param name="StandardDeviations">Distance in standard deviations of what could be expected: positive when it reads higher.</param>
public sealed record ReadingDeviation(StrainingObservable Quantity, Duration At, double Read, double Expected, double StandardDeviations);

/// <summary>What the last reading means.</summary>
public enum RunVerdict
{
    /// <summary>Nothing was read yet.</summary>
    NoReading,

    /// <summary>Within <see cref="DeviationJudge.AsExpected"/> standard deviations.</summary>
    AsExpected,

    /// <summary>More has run than expected.</summary>
    Faster,

    /// <summary>Less has run than expected.</summary>
    Slower,

    /// <summary>The pond is deeper than expected.</summary>
    PondDeeper,

    /// <summary>The pond is shallower than expected.</summary>
    PondShallower,

    /// <summary>Further off than <see cref="DeviationJudge.Unlikely"/> standard deviations: read it again.</summary>
    CheckTheReading,
}
