using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Attending;

/// <summary>What is to be done next, from the courses of a forecast.</summary>
internal sealed class ActionPlan
{
    /// <summary>Share of the rim at which the gate is to be narrowed, and at which the cloth is scraped where no plan says when (engineering choices).</summary>
    private const double NarrowAtRim = 0.8, ScrapeAtRim = 0.5;

    /// <summary>Share of the runs from which something is to be expected (engineering choice).</summary>
    private const double Expected = 0.5;

    /// <summary>Share of a chance that a scrape must leave at most to be worth it (engineering choice).</summary>
    private const double WorthAScrape = 0.5;

    /// <summary>Readings after which no more are asked for, and their distance as a share of the time to 95 % (engineering choices).</summary>
    private const int ReadingsWanted = 8;

    private const double ReadingEvery = 0.07, ReadingSoonestS = 20;

    /// <summary>Openings tried when the gate is to be narrowed, as shares of the one now.</summary>
    private static readonly double[] s_narrower = [0.75, 0.6, 0.5, 0.4, 0.3, 0.2];

    private readonly RunForecast _forecast;
    private readonly AttendedRun _run;
    private readonly double _lastS;
    private readonly double _tolerance;

    /// <summary>Plans.</summary>
    /// <param name="forecast">Forecast.</param>
    /// <param name="cancellation">Ends early.</param>
    public ActionPlan(RunForecast forecast, CancellationToken cancellation)
    {
        (_forecast, _run) = (forecast, forecast.Run);
        (_lastS, _tolerance) = (_run.LastEntry.Seconds, _run.Tolerance.DecimalFractions);
        if (!(RunPlans.OpeningNow(_run) > 0))
            return;
        var actions = new List<NextAction>();
        double[] danger = Danger();
        double absence = AbsenceSearch.From(danger, [.. forecast.Left.Samples.Select(sample => sample.EndSeconds)], _lastS, _tolerance);
        LookByS = _lastS + absence;
        AddLook(actions, danger);
        AddPlanned(actions);
        AddScrape(actions, cancellation);
        AddNarrow(actions, cancellation);
        AddReceiver(actions);
        AddReading(actions);
        AddEnd(actions);
        Actions = [.. actions.OrderBy(action => action.At).ThenBy(action => action.Kind)];
    }

    /// <summary>What is to be done, soonest first.</summary>
    public IReadOnlyList<NextAction> Actions { get; } = [];

    /// <summary>When somebody must look again, s; +∞ when the rest of the run is within the tolerance; null when the gate is shut.</summary>
    public double? LookByS { get; }

    private double RimM => _run.Setup.Strainer.Shape.RimHeight.Meters;

    private RiddenGate? Ridden => RunPlans.AsNoted(_run).Control as RiddenGate;

    /// <summary>When honey first goes where it should not, in each run: over the rim, or over the brim of the receiver. A ridden pond rises from the depth it is held at, the gate at its widest.</summary>
    private double[] Danger()
    {
        RunCourses left = _forecast.Left;
        double[] danger = new double[left.Samples.Length];
        for (int i = 0; i < danger.Length; i++)
        {
            StrainingSample sample = left.Samples[i];
            double over = sample.FirstOverflowSeconds;
            if (Ridden is { } ridden && double.IsFinite(over) && left.FirstAbove(i, StrainingObservable.PondDepth, ridden.PondDepth.Meters, 0) is var held && held <= _lastS)
                over = _lastS + Math.Max(0, over - held);
            danger[i] = Math.Min(over, sample.ReceiverFullSeconds);
        }

        return danger;
    }

    private void AddLook(List<NextAction> actions, double[] danger)
    {
        if (LookByS is not { } by || !double.IsFinite(by))
            return;
        var times = Quantiles.Times([.. danger.Where(seconds => seconds > _lastS)]);
        double late = times?.Middle ?? by;
        string why = Invariant($"if nobody does anything, the chance of honey over the rim or a full receiver passes {100 * _tolerance:0.##} % then");
        if (Ridden is { } ridden)
            actions.Add(Act(NextActionKind.RidePond, by, by, Math.Max(by, late), "somebody holds the pond there; left alone at its widest the gate brings it to the rim: " + why) with { Depth = ridden.PondDepth });
        else
            actions.Add(Act(NextActionKind.LookAtPond, by, by, Math.Max(by, late), why));
    }

    private void AddPlanned(List<NextAction> actions)
    {
        if (RunPlans.ScrapesToCome(_run).FirstOrDefault() is { Seconds: > 0 } scrape)
            actions.Add(Act(NextActionKind.Scrape, scrape.Seconds, scrape.Seconds, scrape.Seconds, "as planned"));
        if (RunPlans.AsNoted(_run).Control is OpeningSchedule schedule && schedule.Steps.FirstOrDefault(step => step.At.Seconds > _lastS) is { } next)
            actions.Add(Act(NextActionKind.SetGate, next.At.Seconds, next.At.Seconds, next.At.Seconds, "as planned") with { Opening = next.Opening });
    }

    /// <summary>By depth where that is planned; where nothing is, when it keeps the pond from the rim.</summary>
    private void AddScrape(List<NextAction> actions, CancellationToken cancellation)
    {
        if (_run.Setup.Scraping.Times.Count > 0)
            return;
        if (_run.Setup.Scraping.AtPondDepth is { } depth)
        {
            if (Reaching(depth.Meters) is { Share: >= Expected } when)
                actions.Add(Act(NextActionKind.Scrape, when.Middle, when.Early, when.Late, "the pond is then at the depth at which it is to be scraped") with { Depth = depth });
            return;
        }

        double before = ChanceOf(_forecast.Left.Samples);
        if (before <= _tolerance || Reaching(ScrapeAtRim * RimM) is not { } half)
            return;
        double after = ChanceOf(_forecast.Try(RunPlans.LeftAfter(_run, Duration.FromSeconds(half.Middle), opening: null), cancellation));
        if (after <= WorthAScrape * before)
            actions.Add(Act(NextActionKind.Scrape, half.Middle, half.Early, half.Late, Invariant($"the pond is then half way to the rim; of 100 runs that are left alone {100 * before:0.#} run over, of 100 that are scraped then {100 * after:0.#}")));
    }

    private void AddNarrow(List<NextAction> actions, CancellationToken cancellation)
    {
        double before = ChanceOf(_forecast.Left.Samples);
        if (Ridden is not null || before <= _tolerance || Reaching(NarrowAtRim * RimM) is not { } near)
            return;
        double now = RunPlans.OpeningNow(_run), at = SoonestReaching(NarrowAtRim * RimM);
        foreach (double share in s_narrower)
        {
            Ratio opening = Ratio.FromPercent(Math.Round(100 * share * now));
            if (!(opening > Ratio.Zero))
                break;
            double after = ChanceOf(_forecast.Try(RunPlans.LeftAfter(_run, Duration.FromSeconds(at), opening), cancellation));
            if (after > Math.Max(_tolerance, Chance.FewestEvents / _forecast.Left.Samples.Length))
                continue;
            Add(opening, Invariant($"the pond is then near the rim; left as it is, {100 * before:0.#} of 100 runs run over, with this {100 * after:0.#}"));
            return;
        }

        Add(Ratio.Zero, Invariant($"the pond is then near the rim, and no narrower opening that was tried keeps it from running over; left as it is, {100 * before:0.#} of 100 runs do"));

        void Add(Ratio opening, string why) => actions.Add(Act(NextActionKind.NarrowGate, at, at, Math.Max(at, near.Middle), why) with { Opening = opening });
    }

    private void AddReceiver(List<NextAction> actions)
    {
        double[] full = [.. _forecast.Left.Samples.Where(sample => sample.ReceiverFullSeconds > _lastS).Select(sample => sample.ReceiverFullSeconds)];
        if (Quantiles.Times(full) is { } when && when.Share > _tolerance)
            actions.Add(Act(NextActionKind.ChangeReceiver, when.Middle, when.Early, when.Late, Invariant($"the receiver is then full, in {100 * when.Share:0} of 100 runs; what comes after goes onto the floor")));
    }

    private void AddReading(List<NextAction> actions)
    {
        int taken = _run.Series.SelectMany(series => series.Readings).Select(reading => reading.At).Distinct().Count();
        if (taken >= ReadingsWanted || Quantiles.Times([.. _forecast.Planned.Samples.Select(sample => sample.StrainSeconds)]) is not { } done)
            return;
        double at = (_run.LastReading?.Seconds ?? 0) + Math.Max(ReadingSoonestS, ReadingEvery * done.Middle);
        if (at < done.Middle)
            actions.Add(Act(NextActionKind.TakeReading, at, at, at, Invariant($"reading {taken + 1}; each of the first {ReadingsWanted} makes the rest surer")));
    }

    private void AddEnd(List<NextAction> actions)
    {
        double[] sorted = [.. _forecast.Planned.Samples.Select(sample => double.IsNaN(sample.StrainSeconds) ? double.PositiveInfinity : sample.StrainSeconds).Order()];
        double middle = Quantiles.Of(sorted, 0.5);
        if (!double.IsFinite(middle))
            return;
        double late = sorted.Last(seconds => double.IsFinite(seconds) && seconds <= Quantiles.Of(sorted, 1 - Quantiles.ActionTail));
        actions.Add(Act(NextActionKind.ShutWhenDone, middle, Quantiles.Of(sorted, Quantiles.ActionTail), late, "95 % of what can drain is through the cloth then"));
    }

    /// <summary>When the pond first reaches a depth after the last entry, of the runs that have not run over by then.</summary>
    private (double Early, double Middle, double Late, double Share)? Reaching(double depthM) => Quantiles.Times(Reached(depthM));

    /// <summary>When as many runs have the pond at a depth as the tolerance allows to run over.</summary>
    private double SoonestReaching(double depthM)
    {
        double[] sorted = [.. Reached(depthM).Order()];
        double soonest = Quantiles.Of(sorted, Math.Max(_tolerance, 1.0 / sorted.Length));
        return double.IsFinite(soonest) ? soonest : sorted[0];
    }

    private double[] Reached(double depthM)
    {
        RunCourses left = _forecast.Left;
        int[] open = [.. Enumerable.Range(0, left.Samples.Length).Where(i => left.Samples[i].FirstOverflowSeconds > _lastS)];
        return [.. open.Select(i => left.FirstAbove(i, StrainingObservable.PondDepth, depthM, _lastS))];
    }

    /// <summary>Chance that a run that has not run over by the last entry does so later.</summary>
    private double ChanceOf(StrainingSample[] samples)
    {
        int open = samples.Count(sample => sample.FirstOverflowSeconds > _lastS);
        return open == 0 ? 1 : samples.Count(sample => sample.FirstOverflowSeconds > _lastS && sample.RanOver) / (double)open;
    }

    private static NextAction Act(NextActionKind kind, double atS, double earliestS, double latestS, string why) =>
        new(kind, Duration.FromSeconds(atS), Duration.FromSeconds(earliestS), Duration.FromSeconds(latestS), why);
}
