using UnitsNet;

namespace FlowSim.Planning;

/// <summary>Who does what when, and with what.</summary>
public sealed record DayPlan
{
    /// <summary>The question.</summary>
    public required DayQuestion Question { get; init; }

    /// <summary>What is done, by its begin.</summary>
    public required IReadOnlyList<PlanEntry> Entries { get; init; }

    /// <summary>When each batch that is planned is ready, in the order of the question.</summary>
    public required IReadOnlyList<BatchReady> Ready { get; init; }

    /// <summary>When all is done, cleaning included; null when nothing is planned.</summary>
    public required Duration? Finish { get; init; }

    /// <summary>When all is done if every step goes quickly, in the same order; null when nothing is planned.</summary>
    public required Duration? FinishQuick { get; init; }

    /// <summary>When all is done if every step goes slowly, in the same order; null when that does not fit the hours, or nothing is planned.</summary>
    public required Duration? FinishSlow { get; init; }

    /// <summary>No plan of these batches that is late for no longer can be done sooner than this; null when nothing is planned.</summary>
    public required Duration? NoSoonerThan { get; init; }

    /// <summary>Whether it is proven that no plan is better: first the least time that batches are late, then the soonest finish.</summary>
    public required bool IsProven { get; init; }

    /// <summary>What stands in the way; empty when all batches are planned and in time.</summary>
    public required IReadOnlyList<PlanConflict> Conflicts { get; init; }

    /// <summary>What the user should know.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Plans a day.</summary>
    /// <param name="question">What is to be done.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the question is out of its range or does not fit; the message names it.</exception>
    public static DayPlan Of(DayQuestion question, CancellationToken cancellation = default)
    {
        DayQuestionCheck.Require(question);
        return DayPlanner.Plan(question, cancellation);
    }
}

/// <summary>What is done.</summary>
public enum PlanTask
{
    /// <summary>A vessel is in a warming place.</summary>
    Warm,

    /// <summary>The honey settles in its vessel.</summary>
    Settle,

    /// <summary>The honey is kept warm until it is strained.</summary>
    Hold,

    /// <summary>The gate is open over the strainer, with somebody there.</summary>
    Strain,

    /// <summary>The bubbles rise in the bottling tank.</summary>
    Stand,

    /// <summary>Jars are filled.</summary>
    Fill,

    /// <summary>A strainer is cleaned.</summary>
    CleanStrainer,

    /// <summary>A bottling tank is cleaned.</summary>
    CleanTank,
}

/// <summary>One line of a plan.</summary>
public sealed record PlanEntry
{
    /// <summary>What is done.</summary>
    public required PlanTask Task { get; init; }

    /// <summary>With which batches; empty for cleaning.</summary>
    public required IReadOnlyList<string> Batches { get; init; }

    /// <summary>Begin.</summary>
    public required Duration From { get; init; }

    /// <summary>End.</summary>
    public required Duration To { get; init; }

    /// <summary>When somebody works at it; one span, or more where a filling pauses. Empty for what goes by itself.</summary>
    public required IReadOnlyList<WorkSpan> Work { get; init; }

    /// <summary>The warming place; null where there is none.</summary>
    public string? Place { get; init; }

    /// <summary>The strainer; null where there is none.</summary>
    public string? Strainer { get; init; }

    /// <summary>The bottling tank; null where there is none.</summary>
    public string? Tank { get; init; }

    /// <summary>Who does it; null for what goes by itself.</summary>
    public string? Who { get; init; }

    /// <summary>When the cloth is scraped during straining.</summary>
    public IReadOnlyList<Duration> Scrapes { get; init; } = [];

    /// <summary>How much later it may end before something else has to move or the hours of whoever does it end; null where nothing follows.</summary>
    public required Duration? Slack { get; init; }

    /// <summary>Whether somebody is needed all the time.</summary>
    public bool IsAttended => Who is not null;
}

/// <summary>When a batch is ready: filled, or without filling settled in its bottling tank.</summary>
/// <param name="Batch">Its name.</param>
/// <param name="At">As planned.</param>
/// <param name="Quick">If every step of the day goes quickly.</param>
/// <param name="Slow">If every step of the day goes slowly; null when that does not fit the hours.</param>
/// <param name="Due">By when it has to be ready; null for whenever.</param>
public sealed record BatchReady(string Batch, Duration At, Duration Quick, Duration? Slow, Duration? Due);

/// <summary>Why something cannot be done as asked.</summary>
/// <param name="Code">Stable identifier, for programs.</param>
/// <param name="Batches">Batches it is about.</param>
/// <param name="What">What cannot be done.</param>
/// <param name="Why">Why not.</param>
/// <param name="Helps">What would help.</param>
public sealed record PlanConflict(string Code, IReadOnlyList<string> Batches, string What, string Why, string Helps)
{
    /// <inheritdoc/>
    public override string ToString() => What + " – " + Why + " – " + Helps;
}
