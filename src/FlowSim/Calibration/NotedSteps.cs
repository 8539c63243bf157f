using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>Something that was done at a run and noted.</summary>
/// <param name="At">When, since the opening of the gate.</param>
/// <param name="Opening">Opening of the gate from then on, 0 (shut) to 100 %; null for a scrape.</param>
public sealed record NotedStep(Duration At, Ratio? Opening)
{
    /// <summary>The cloth was scraped.</summary>
    /// <param name="at">When, later than the opening of the gate: before, nothing is on the cloth.</param>
    public static NotedStep Scrape(Duration at) => new(at, null);
}

/// <summary>Makes the setup as it was run of the setup as it was planned and what was noted.</summary>
public static class NotedSteps
{
    /// <summary>The setup with what was noted in place of what was planned: openings take the place of the control, scrapes that of the scraping. Where nothing of a kind was noted the plan stands.</summary>
    /// <param name="planned">Setup.</param>
    /// <param name="steps">What was noted, by time; openings at different times, scrapes likewise and after the opening of the gate.</param>
    public static StrainingSetup ApplyTo(StrainingSetup planned, IReadOnlyList<NotedStep> steps)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(steps);
        OpeningStep[] moves = [.. steps.Where(step => step.Opening is not null).Select(step => new OpeningStep(step.At, step.Opening!.Value))];
        Duration[] scrapes = [.. steps.Where(step => step.Opening is null).Select(step => step.At)];
        StrainingSetup setup = planned;
        if (moves.Length > 0)
            setup = setup with { Control = GateControl.Follow(moves[0].At > Duration.Zero ? [new OpeningStep(Duration.Zero, FirstOpening(planned.Control)), .. moves] : moves) };
        return scrapes.Length == 0 ? setup : setup with { Scraping = setup.Scraping with { Times = scrapes, AtPondDepth = null } };
    }

    /// <summary>The opening that a control begins with.</summary>
    /// <param name="control">Control.</param>
    internal static Ratio FirstOpening(GateControl control) => control switch
    {
        FixedOpening left => left.Opening,
        OpeningSchedule schedule => schedule.Steps[0].Opening,
        RiddenGate ridden => ridden.Widest,
        _ => Ratio.FromPercent(100),
    };
}
