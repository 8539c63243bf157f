using FlowSim.Bottling;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>What became of a batch.</summary>
public sealed record JobResult
{
    /// <summary>The setup that was run.</summary>
    public required JobSetup Setup { get; init; }

    /// <summary>The steps, in order, with their times.</summary>
    public required IReadOnlyList<JobStep> Steps { get; init; }

    /// <summary>The warming; null when there was none.</summary>
    public required WarmingResult? Warming { get; init; }

    /// <summary>The settling; null when there was none.</summary>
    public required SettlingResult? Settling { get; init; }

    /// <summary>The straining, of skimmed honey.</summary>
    public required StrainingResult Straining { get; init; }

    /// <summary>The filling; null when there was none, or nothing that drains came into the bottling tank.</summary>
    public required FillingResult? Filling { get; init; }

    /// <summary>Where the honey is at the end.</summary>
    public required JobAccount Account { get; init; }

    /// <summary>What could be had back of what is not sold, the most first.</summary>
    public required IReadOnlyList<Recovery> Recoveries { get; init; }

    /// <summary>What the user should know about the figures, of all steps; each once.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work; each once.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>All steps one after the other; null when one does not come to its end.</summary>
    public StepTimes? Total => Steps.Any(step => step.Times is null)
        ? null
        : new StepTimes(Sum(times => times.Quick), Sum(times => times.Likely), Sum(times => times.Slow));

    private Duration Sum(Func<StepTimes, Duration> of) => Steps.Aggregate(Duration.Zero, (sum, step) => sum + of(step.Times!));
}
