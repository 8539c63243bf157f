using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Attending;

/// <summary>
/// Where a run that goes on is going, from the plan and all that was read and done. Made anew after each entry, in about a second; <see cref="At"/> tells how things stand at a moment and takes no
/// time.
/// </summary>
/// <remarks>
/// The readings are fitted as a calibration's are, from the first one on. The run is then made again with draws of what it may be: once left alone from the last entry on, for the pond and the
/// receiver, and once as planned, for when it is done. The clock of the readings is taken for that of the run: what it may be off (5 s, as a calibration finds it) is in the fit and not in the times ahead.
/// </remarks>
public sealed class RunForecast
{
    /// <summary>Draws: enough to tell a chance of 1 % (engineering choice).</summary>
    private const int Count = 1024;

    /// <summary>Longest look ahead, in times of what nine runs in ten need for 95 % (engineering choice): what comes after is the last drops.</summary>
    private const double Ahead = 1.5;

    private static readonly StrainingObservable[] s_always = [StrainingObservable.PondDepth, StrainingObservable.TankLevel, StrainingObservable.ReceiverMass];

    private readonly RunPosterior _posterior;
    private readonly RunDrawn _drawn;
    private readonly ActionPlan _actions;
    private readonly IReadOnlyList<Caution> _cautions;

    private RunForecast(AttendedRun run, CancellationToken cancellation)
    {
        Run = run;
        _posterior = RunPosterior.Of(AttendedRunCheck.QuestionOf(run), cancellation);
        _drawn = _posterior.Draw(Count, run.Seed);
        StrainingObservable[] quantities = [.. s_always, .. run.Series.Select(series => series.Quantity).Except(s_always)];
        StrainingSetup planned = RunPlans.Planned(run);
        Planned = new RunCourses(planned, _drawn, GridFor(run, planned, cancellation), quantities, run.Threads, cancellation);
        StrainingSetup left = RunPlans.Left(run);
        Left = left == planned ? Planned : new RunCourses(left, _drawn, GridFor(run, left, cancellation), quantities, run.Threads, cancellation);
        _actions = new ActionPlan(this, cancellation);
        _cautions = StrainingCautions.For(new StrainingParameters(run.Setup));
    }

    /// <summary>The run.</summary>
    public AttendedRun Run { get; }

    /// <summary>What is known now of honey, kit and the day.</summary>
    public IReadOnlyList<FittedInput> Estimate => _posterior.Inputs;

    /// <summary>Whether readings were fitted.</summary>
    public bool Fitted => _posterior.IsFound;

    /// <summary>How the last readings lie to what was expected of them before they came.</summary>
    public IReadOnlyList<ReadingDeviation> Deviations { get; private init; } = [];

    /// <summary>What that means.</summary>
    public RunVerdict Verdict => DeviationJudge.Of(Deviations);

    /// <summary>Courses as planned.</summary>
    internal RunCourses Planned { get; }

    /// <summary>Courses when nobody does anything from the last entry on.</summary>
    internal RunCourses Left { get; }

    /// <summary>Makes a forecast.</summary>
    /// <param name="run">The run so far.</param>
    /// <param name="before">The forecast that was made before the last reading, to save making it again; one of another run is not used.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something of the run is out of its range; the message names it.</exception>
    /// <exception cref="SimulationException">A run could not be resolved.</exception>
    public static RunForecast Of(AttendedRun run, RunForecast? before = null, CancellationToken cancellation = default)
    {
        AttendedRunCheck.Require(run);
        if (run.LastReading is null)
            return new RunForecast(run, cancellation);
        AttendedRun earlier = run.BeforeLastReading();
        RunForecast known = before is not null && before.Run.SaysTheSameAs(earlier) ? before : new RunForecast(earlier, cancellation);
        var deviations = new List<ReadingDeviation>();
        double last = run.LastReading.Value.Seconds;
        foreach (TimedSeries series in run.Series)
            deviations.AddRange(series.Readings.Where(reading => !(reading.At.Seconds < last)).Select(reading => known.Judge(series, reading, cancellation)));
        return new RunForecast(run, cancellation) { Deviations = deviations };
    }

    /// <summary>How things stand at a moment.</summary>
    /// <param name="now">Time since the opening of the gate, at the last entry or after it.</param>
    /// <exception cref="ArgumentOutOfRangeException">It lies before the last entry.</exception>
    public RunOutlook At(Duration now)
    {
        EquipmentCheck.Within(now.Seconds, Run.LastEntry.Seconds, double.MaxValue, "s", nameof(now));
        StrainingSample[] left = Left.Samples;
        double last = Run.LastEntry.Seconds;
        double[] over = [.. left.Where(sample => sample.FirstOverflowSeconds > last && sample.EndSeconds > last).Select(sample => sample.FirstOverflowSeconds)];
        var rim = Quantiles.Times(over);
        double? look = _actions.LookByS is { } by && double.IsFinite(by) ? Math.Max(0, by - now.Seconds) : null;
        return new RunOutlook
        {
            Now = now,
            NextActions = _actions.Actions,
            Expected = [.. s_always.Select(quantity => Expect(quantity, now.Seconds))],
            PondReachesRim = rim is { } known
                ? new RimOutlook(known.Share, Duration.FromSeconds(known.Early), Duration.FromSeconds(known.Middle), Duration.FromSeconds(known.Late))
                : new RimOutlook(0, null, null, null),
            Ready = Quantiles.Spread(Planned.Samples.Select(sample => sample.StrainSeconds)),
            Deviations = Deviations,
            Verdict = Verdict,
            LookAgainIn = look is { } seconds ? Duration.FromSeconds(seconds) : null,
            Estimate = Estimate,
            Fitted = Fitted,
            Notices = [.. OutlookNotices.For(this)],
            Cautions = _cautions,
        };
    }

    /// <summary>Other courses with the same draws.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="cancellation">Ends early.</param>
    internal StrainingSample[] Try(StrainingSetup setup, CancellationToken cancellation) => new RunCourses(setup, _drawn, [], [], Run.Threads, cancellation).Samples;

    /// <summary>What a rule or scale shows in each draw at a time, sorted, and what else may move it: one standard deviation.</summary>
    private (double[] Shown, double Noise) Show(RunCourses courses, StrainingObservable quantity, double seconds)
    {
        TimedSeries? series = Run.Series.FirstOrDefault(one => one.Quantity == quantity);
        int place = series is null ? -1 : Run.Series.ToList().IndexOf(series);
        double[] shown = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            (double clock, double zero) = place >= 0 ? _drawn.Scale(i, place) : (0, 0);
            shown[i] = courses.At(i, quantity, seconds + clock) + zero;
        }

        Array.Sort(shown);
        if (place >= 0)
            return (shown, _posterior.Noise[place]);
        QuantityFacts facts = QuantityFacts.Of(quantity);
        double scatter = StudentNoise.DeviationPerScale * facts.Scatter, zeroSd = facts.ZeroOffset;
        return (shown, Math.Sqrt((scatter * scatter) + (zeroSd * zeroSd)));
    }

    private ExpectedReading Expect(StrainingObservable quantity, double seconds)
    {
        (double[] shown, double noise) = Show(Planned, quantity, seconds);
        double middle = Quantiles.Of(shown, 0.5), reach = 2 * noise;
        double low = middle - Quantiles.Of(shown, Quantiles.BandTail), high = Quantiles.Of(shown, 1 - Quantiles.BandTail) - middle;
        return new ExpectedReading(quantity, Math.Max(0, middle), Math.Max(0, middle - Math.Sqrt((low * low) + (reach * reach))), Math.Max(0, middle + Math.Sqrt((high * high) + (reach * reach))));
    }

    private ReadingDeviation Judge(TimedSeries series, in TimedReading reading, CancellationToken cancellation)
    {
        // A series without readings so far has a clock of its own that nothing is known of: it moves the reading as far as the quantity runs in that time.
        RunCourses courses = Planned.Reads(series.Quantity) ? Planned : new RunCourses(RunPlans.Planned(Run), _drawn, [0, Math.Max(1, reading.At.Seconds), Math.Max(2, 2 * reading.At.Seconds)], [series.Quantity], Run.Threads, cancellation);
        (double[] shown, double noise) = Show(courses, series.Quantity, reading.At.Seconds);
        if (!Run.Series.Any(one => one.Quantity == series.Quantity))
        {
            double clock = series.ClockOffset.Seconds;
            (double[] before, _) = Show(courses, series.Quantity, Math.Max(0, reading.At.Seconds - clock));
            (double[] after, _) = Show(courses, series.Quantity, reading.At.Seconds + clock);
            double moved = 0.5 * (Quantiles.Of(after, 0.5) - Quantiles.Of(before, 0.5));
            double more = (series.ZeroOffset ?? 0) - TimedSeries.CommonZeroOffset(series.Quantity);
            noise = Math.Sqrt((noise * noise) + (moved * moved) + (more > 0 ? more * more : 0));
        }

        return DeviationJudge.Judge(reading, series.Quantity, shown, noise);
    }

    private double[] GridFor(AttendedRun run, StrainingSetup setup, CancellationToken cancellation)
    {
        StrainingSample[] samples = Try(setup, cancellation);
        double[] ends = [.. samples.Select(sample => double.IsNaN(sample.StrainSeconds) ? sample.EndSeconds : Math.Min(sample.EndSeconds, Ahead * sample.StrainSeconds)).Order()];
        return CourseGrid.For([Math.Max(Quantiles.Of(ends, 0.9), 1.2 * run.LastEntry.Seconds)], 0);
    }
}
