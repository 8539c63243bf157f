using FlowSim.Calibration;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Attending;

/// <summary>The setups that a run that goes on is followed with.</summary>
internal static class RunPlans
{
    /// <summary>Least time between now and what is still to be done, s: a step at the very moment of the last entry would be the same as that.</summary>
    private const double SoonS = 1;

    /// <summary>What was done so far: scrapes as they were noted and no others; of a control that nobody noted anything of, as planned.</summary>
    /// <param name="run">Run.</param>
    public static StrainingSetup AsNoted(AttendedRun run) => Scraped(NotedSteps.ApplyTo(run.Setup, run.Steps), [.. Scrapes(run)]);

    /// <summary>The same, and from the last entry on nobody does anything: the gate stays where it is, one that was ridden at its widest.</summary>
    /// <param name="run">Run.</param>
    public static StrainingSetup Left(AttendedRun run)
    {
        StrainingSetup noted = AsNoted(run);
        return noted.Control switch
        {
            RiddenGate ridden => noted with { Control = GateControl.LeaveAt(ridden.Widest) },
            OpeningSchedule schedule => noted with { Control = GateControl.Follow([.. schedule.Steps.Where(step => step.At <= run.LastEntry)]) },
            _ => noted,
        };
    }

    /// <summary>The same, and from the last entry on all is done as planned. Scrapes by depth are taken as planned from the start, for nobody can note those that are to come.</summary>
    /// <param name="run">Run.</param>
    public static StrainingSetup Planned(AttendedRun run)
    {
        StrainingSetup noted = AsNoted(run);
        if (run.Setup.Scraping.AtPondDepth is not null)
            return noted with { Scraping = run.Setup.Scraping };
        double last = run.LastEntry.Seconds;
        List<Duration> scrapes = [.. Scrapes(run)];
        foreach (Duration planned in ScrapesToCome(run))
        {
            last = Math.Max(planned.Seconds, last + SoonS);
            if (scrapes.Count < 1000)
                scrapes.Add(Duration.FromSeconds(last));
        }

        return Scraped(noted, scrapes);
    }

    /// <summary>The gate left, but for one step more.</summary>
    /// <param name="run">Run.</param>
    /// <param name="at">When.</param>
    /// <param name="opening">Opening; null for a scrape.</param>
    public static StrainingSetup LeftAfter(AttendedRun run, Duration at, Ratio? opening)
    {
        StrainingSetup left = Left(run);
        Duration when = Duration.FromSeconds(Math.Max(at.Seconds, run.LastEntry.Seconds + SoonS));
        if (opening is null)
            return Scraped(left, [.. left.Scraping.Times, when]);
        OpeningStep step = new(when, opening.Value);
        return left with
        {
            Control = left.Control switch
            {
                OpeningSchedule schedule => GateControl.Follow([.. schedule.Steps, step]),
                FixedOpening open => GateControl.Follow(new OpeningStep(Duration.Zero, open.Opening), step),
                _ => left.Control,
            },
        };
    }

    /// <summary>Planned scrapes of which as many as were noted are done.</summary>
    /// <param name="run">Run.</param>
    public static IEnumerable<Duration> ScrapesToCome(AttendedRun run) => run.Setup.Scraping.Times.Skip(Scrapes(run).Count());

    /// <summary>The opening at the last entry, share of the bore; of a ridden gate the widest.</summary>
    /// <param name="run">Run.</param>
    public static double OpeningNow(AttendedRun run) => Left(run).Control switch
    {
        FixedOpening open => open.Opening.DecimalFractions,
        OpeningSchedule schedule => schedule.Steps[^1].Opening.DecimalFractions,
        _ => 1,
    };

    private static IEnumerable<Duration> Scrapes(AttendedRun run) => run.Steps.Where(step => step.Opening is null).Select(step => step.At);

    private static StrainingSetup Scraped(StrainingSetup setup, IReadOnlyList<Duration> times) => setup with { Scraping = setup.Scraping with { Times = times, AtPondDepth = null } };
}
