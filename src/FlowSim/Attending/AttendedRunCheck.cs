using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Attending;

/// <summary>Checks a run once, at the edge.</summary>
internal static class AttendedRunCheck
{
    /// <summary>Most steps that are noted: as many as a schedule holds.</summary>
    private const int MostSteps = 900;

    /// <summary>Readings from which a series tells its own scatter; with fewer it is taken to be at least the common one (engineering choice).</summary>
    private const int TellsScatter = 6;

    /// <summary>
    /// Readings of a series that are fitted (engineering choice): of a scale that writes every second the rest would narrow the bands by less than the model is off, and keep people waiting.
    /// </summary>
    internal const int MostFitted = 200;

    /// <summary>Standard deviation of an even spread of width 1.</summary>
    private const double Rounding = 0.28867513459481287;

    /// <summary>Throws when something does not fit; the message names it.</summary>
    /// <param name="run">Run.</param>
    public static void Require(AttendedRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        StrainingSetupCheck.Require(EquipmentCheck.Present(run.Setup));
        RiskQuestionCheck.Tolerance(run.Tolerance.DecimalFractions, nameof(AttendedRun.Tolerance));
        EquipmentCheck.Within(run.Threads ?? 1, 1, 1024, "", nameof(AttendedRun.Threads));
        RequireSteps(EquipmentCheck.Present(run.Steps));
        foreach (TimedSeries series in EquipmentCheck.Present(run.Series))
        {
            EquipmentCheck.Present(EquipmentCheck.Present(series).Readings);
            if (series.Readings.Count > 0)
                EquipmentCheck.Within(series.Readings[0].At.Seconds, 0, StrainingSetupCheck.LongestS, "s", nameof(TimedReading.At));
        }

        if (run.Series.GroupBy(series => series.Quantity).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw EquipmentCheck.Refused(nameof(AttendedRun.Series), $"{twice.Key} is read in two series; put the readings of one quantity into one.");
        CalibrationCheck.RequireGoingOn(QuestionOf(run, run.Series));
    }

    /// <summary>The question about what the readings of a run say, of long series evenly chosen ones with the first and the last.</summary>
    /// <param name="run">Run.</param>
    public static CalibrationQuestion QuestionOf(AttendedRun run) => QuestionOf(run, run.Series.Select(Thinned));

    private static CalibrationQuestion QuestionOf(AttendedRun run, IEnumerable<TimedSeries> series)
    {
        StrainingSetup setup = RunPlans.AsNoted(run);
        return new CalibrationQuestion
        {
            Setup = setup,
            Runs = [new TimedRun { Name = "this run", Setup = setup, Series = [.. series.Select(WithScatter)] }],
            Priors = run.Priors ?? CalibrationPriors.For(setup),
            Correlations = run.Correlations,
            Earlier = run.Earlier,
            Sample = false,
            Seed = run.Seed,
            Threads = run.Threads,
        };
    }

    private static TimedSeries Thinned(TimedSeries series) => series.Readings.Count <= MostFitted
        ? series
        : series with { Readings = [.. Enumerable.Range(0, MostFitted).Select(i => series.Readings[(int)((long)i * (series.Readings.Count - 1) / (MostFitted - 1))])] };

    /// <summary>The resolution is the one thing that keeps a scatter from being found too small.</summary>
    private static TimedSeries WithScatter(TimedSeries series)
    {
        double common = QuantityFacts.Of(series.Quantity).Scatter;
        double least = series.Readings.Count < TellsScatter ? common / Rounding : common / 2;
        return series with { Resolution = Math.Max(series.Resolution ?? 0, least) };
    }

    private static void RequireSteps(IReadOnlyList<NotedStep> steps)
    {
        EquipmentCheck.Within(steps.Count, 0, MostSteps, "", nameof(AttendedRun.Steps));
        double before = 0, moved = double.NegativeInfinity, scraped = 0;
        foreach (NotedStep step in steps)
        {
            double at = EquipmentCheck.Within(EquipmentCheck.Present(step).At.Seconds, 0, StrainingSetupCheck.LongestS, "s", nameof(NotedStep.At));
            if (at < before)
                throw EquipmentCheck.OutOfRange(nameof(AttendedRun.Steps), at, Invariant($"What was done at {at:g6} s is noted after what was done at {before:g6} s: time runs backwards."));
            if (step.Opening is { } opening)
            {
                EquipmentCheck.Within(opening.Percent, 0, 100, "%", nameof(NotedStep.Opening));
                if (!(at > moved))
                    throw EquipmentCheck.OutOfRange(nameof(AttendedRun.Steps), at, Invariant($"Two openings are noted at {at:g6} s; keep the one that held."));
                moved = at;
            }
            else if (!(at > scraped))
            {
                throw EquipmentCheck.OutOfRange(nameof(AttendedRun.Steps), at, at > 0 ? Invariant($"Two scrapes are noted at {at:g6} s; keep one.") : "A scrape is noted at the opening of the gate, when nothing is on the cloth.");
            }
            else
            {
                scraped = at;
            }

            before = at;
        }
    }
}
