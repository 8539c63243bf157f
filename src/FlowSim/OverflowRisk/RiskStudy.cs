using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>Answers one question, part by part.</summary>
internal sealed class RiskStudy
{
    /// <summary>The chance of an overflow is known well enough at this share of it …</summary>
    private const double RelativePrecision = 0.1;

    /// <summary>… or at this share of the tolerance.</summary>
    private const double ToleranceShare = 0.25;

    /// <summary>Quantiles of the time of overflow at which the chance is told, besides even times.</summary>
    private const int OverflowsDrawn = 48;

    private readonly RiskQuestion _question;
    private readonly RiskEffort _effort;
    private readonly SpreadInputs _inputs;
    private readonly EnsembleOptions _options;
    private readonly RiskProgress _progress;
    private readonly CancellationToken _cancellation;
    private readonly StrainingSetup _unattended;
    private readonly double _tolerance;
    private long _runs;

    /// <summary>Prepares a study.</summary>
    /// <param name="question">The question, already checked.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancellation">Ends early.</param>
    public RiskStudy(RiskQuestion question, IProgress<double>? progress, CancellationToken cancellation)
    {
        _question = question;
        _effort = new RiskEffort(question);
        _inputs = new SpreadInputs(RiskQuestionCheck.Inputs(question.Inputs, question.Setup), question.Correlations);
        _options = new EnsembleOptions { Threads = question.Threads };
        _progress = new RiskProgress(progress);
        _cancellation = cancellation;
        _tolerance = question.Tolerance.DecimalFractions;
        _unattended = Unattended(question.Setup);
    }

    /// <summary>Answers.</summary>
    public RiskAnswer Answer()
    {
        StrainingResult middle = StrainingRun.Simulate(_question.Setup, new StrainingOptions { SeriesPoints = 0 }, _cancellation);
        bool nobodyStandsBy = _question.Setup.Control is FixedOpening && ReferenceEquals(_unattended, _question.Setup);
        RunTally tally = Count(nobodyStandsBy ? Math.Max(_effort.FirstCounted, _effort.ForAbsence) : _effort.FirstCounted);
        _progress.Reached(0.3);
        ProbabilityEstimate overflow = Overflow(tally);
        _progress.Reached(0.4);
        RunTally unattended = nobodyStandsBy ? tally : RunSetup(_unattended, _inputs, _effort.ForAbsence);
        AbsenceAdvice absence = AbsenceSearch.Of(First(unattended.OverflowS), First(unattended.EndS), _tolerance);
        _progress.Reached(0.5);
        OpeningAdvice opening = Opening();
        _progress.Reached(0.65);
        ScrapeAdvice scraping = Scraping(unattended);
        _progress.Reached(0.8);
        RideAdvice riding = Riding();
        _progress.Reached(0.85);
        double[] times = PondFanBuilder.Times(tally.End);
        PondFan fan = Fan(times);
        _progress.Reached(0.9);
        var drivers = new DriverSearch(_inputs, _effort.ForDrivers(overflow.Value), _question.Seed);
        var batch = new StrainingBatch(_question.Setup, _inputs, _options);
        (DriverTable ofOverflow, DriverTable ofTime) = drivers.Find(batch, _cancellation);
        _runs += batch.Runs;
        var answer = new RiskAnswer
        {
            Question = _question,
            Inputs = [.. _inputs.Given.Select(input => input with { Spread = SpreadInputs.Cut(input, input.Spread, _question.Setup, out _) })],
            Overflow = overflow,
            Bypass = tally.ChanceOf(tally.Bypass),
            Spill = tally.ChanceOf(tally.Spill),
            ReceiverFull = tally.ChanceOf(tally.ReceiverFull),
            ReceiverOverfilled = tally.ChanceOf(tally.ReceiverOverfilled),
            Drain = tally.Drain.Spread(),
            Strain = tally.Strain.Spread(),
            Absence = absence,
            WidestOpening = opening,
            Scraping = scraping,
            Riding = riding,
            Drivers = ofOverflow,
            DriversOfTime = ofTime,
            MeasureNext = DriverSearch.MeasureNext(overflow, ofOverflow, ofTime, _inputs),
            ChanceOverTime = OverTime(tally, times),
            Fan = fan,
            Runs = _runs,
            Notices = RiskNotices.For(_question, middle, _inputs, tally, overflow, _effort),
            Cautions = middle.Cautions,
        };
        _progress.Reached(1);
        return answer;
    }

    /// <summary>The gate left at the widest opening that the control uses, and nobody scraping; the setup itself if it is so already.</summary>
    private static StrainingSetup Unattended(StrainingSetup setup)
    {
        bool scraped = setup.Scraping.Times.Count > 0 || setup.Scraping.AtPondDepth is not null;
        if (setup.Control is FixedOpening && !scraped)
            return setup;
        return setup with
        {
            Control = GateControl.LeaveAt(Ratio.FromDecimalFractions(StrainingInputs.Opening.ValueIn(setup))),
            Scraping = setup.Scraping with { Times = [], AtPondDepth = null },
        };
    }

    /// <summary>Counts over the setup as it is, doubling the runs until the chance of an overflow is known well enough.</summary>
    private RunTally Count(int first)
    {
        int last = Math.Max(first, _effort.LastCounted);
        var batch = new StrainingBatch(_question.Setup, _inputs, _options);
        CountingPass pass = Pass(_inputs);
        var tally = new RunTally(_question.MassThatMatters.Kilograms);
        for (int wanted = first; ; wanted = Math.Min(last, 2 * wanted))
        {
            pass.Extend(tally, batch, wanted, _cancellation);
            _progress.Reached(0.3 * wanted / last);
            if (wanted == last || IsEnough(tally))
            {
                _runs += batch.Runs;
                return tally;
            }
        }
    }

    private bool IsEnough(RunTally tally)
    {
        ProbabilityEstimate overflow = tally.ChanceOf(tally.Overflow);
        double halfWidth = (overflow.High - overflow.Low) / 2;
        return halfWidth <= Math.Max(RelativePrecision * overflow.Value, ToleranceShare * _tolerance)
            || (tally.Runs >= _effort.CountingGivesUpAfter && RareOverflow.IsRare(tally.Overflow.Sum(), tally.Runs));
    }

    private ProbabilityEstimate Overflow(RunTally tally)
    {
        ProbabilityEstimate counted = tally.ChanceOf(tally.Overflow);
        if (!RareOverflow.IsRare(tally.Overflow.Sum(), tally.Runs))
            return counted;
        var batch = new StrainingBatch(_question.Setup, _inputs, _options);
        ProbabilityEstimate rare = RareOverflow.Estimate(batch, counted, _tolerance, _effort.PerLevel, _question.Seed, _cancellation);
        _runs += batch.Runs;
        return rare;
    }

    private OpeningAdvice Opening()
    {
        var search = new OpeningSearch(_inputs, _options, _question.Seed, _effort.ForAdvice);
        OpeningAdvice advice = search.Find(_question.Setup, _tolerance, _cancellation);
        _runs += search.Runs;
        return advice;
    }

    private ScrapeAdvice Scraping(RunTally unattended)
    {
        SpreadInputs? inputs = null;
        return ScrapeSearch.Find(_unattended, unattended, _tolerance, _effort.ForAdvice, (setup, runs) =>
        {
            // Of the common spreads, that of what a scrape clears comes in only now that somebody scrapes.
            inputs ??= _question.Inputs is null && !_inputs.Given.Any(input => input.Input == StrainingInputs.ScrapeRecovery)
                ? new SpreadInputs([.. _inputs.Given, DefaultSpreads.For(setup).First(input => input.Input == StrainingInputs.ScrapeRecovery)], _question.Correlations)
                : _inputs;
            return RunSetup(setup, inputs, runs);
        });
    }

    private RideAdvice Riding()
    {
        var batch = new StrainingBatch(_unattended, _inputs, _options);
        int runs = _effort.ForAdvice;
        RideAdvice advice = RideSearch.Find(batch, Points(runs), runs, _question.LookEvery.Seconds, _tolerance, _cancellation);
        _runs += batch.Runs;
        return advice;
    }

    private PondFan Fan(double[] times)
    {
        var batch = new StrainingBatch(_question.Setup, _inputs, _options);
        int runs = _effort.ForFan;
        PondFan fan = PondFanBuilder.Build(batch, Points(runs), runs, times, _cancellation);
        _runs += batch.Runs;
        return fan;
    }

    private static List<ChancePoint> OverTime(RunTally tally, double[] times)
    {
        IReadOnlyList<double> overflowS = tally.OverflowS;
        int[] order = [.. Enumerable.Range(0, overflowS.Count).Where(i => double.IsFinite(overflowS[i])).OrderBy(i => overflowS[i])];
        int[] hits = new int[RunDraws.Replicates];
        var points = new List<ChancePoint>(times.Length + OverflowsDrawn);

        // Overflows may come in a short spell between two of the times: some of them are times too.
        IEnumerable<double> spells = Enumerable.Range(1, OverflowsDrawn).Where(_ => order.Length > 0).Select(k => overflowS[order[(int)((long)(order.Length - 1) * k / OverflowsDrawn)]]);
        (int next, double low, double high) = (0, 0, 0);
        foreach (double time in times.Concat(spells).Order().Distinct())
        {
            for (; next < order.Length && overflowS[order[next]] <= time; next++)
                hits[order[next] % RunDraws.Replicates]++;

            // What was sure of an earlier time is sure of a later one.
            ProbabilityEstimate chance = Chance.Counted(hits, overflowS.Count / RunDraws.Replicates);
            (low, high) = (Math.Max(low, chance.Low), Math.Max(high, chance.High));
            points.Add(new ChancePoint(Duration.FromSeconds(time), low, chance.Value, high));
        }

        return points;
    }

    /// <summary>Runs a variant of the setup.</summary>
    private RunTally RunSetup(StrainingSetup setup, SpreadInputs inputs, int runs)
    {
        _runs += runs;
        return Pass(inputs).Run(setup, runs, _cancellation);
    }

    private CountingPass Pass(SpreadInputs inputs) => new(inputs, _options, _question.Seed, _question.MassThatMatters.Kilograms);

    private double[] Points(int runs)
    {
        double[] points = new double[runs * _inputs.Count];
        new RunDraws(_inputs.Count, _question.Seed).Fill(0, points);
        return points;
    }

    private double[] First(IReadOnlyList<double> times) => [.. times.Take(_effort.ForAbsence)];
}
