using FlowSim.HeatDamage;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>Finds the setpoint that finishes warming and straining soonest within the limits.</summary>
public sealed class SetpointSearch
{
    /// <summary>How far above the ceiling the curve goes on, K: what stands in the way shows there (engineering choice).</summary>
    private const int CurveBeyondCeilingK = 5;

    private const double HighestSetpointC = 100;

    /// <summary>Step of the straining temperature, K: coarse, and around the best.</summary>
    private const double CoarseStrainingK = 0.5;
    private const double FineStrainingK = 0.1;

    /// <summary>A run is ended this far below its setpoint: the mean never quite gets there, K.</summary>
    private const double StopBelowSetpointK = 0.2;

    /// <summary>Differences of time below this share are none.</summary>
    private const double NoticeableShare = 0.002;

    private const int TraceRows = 1001;
    private const int MostTries = 25;

    private static readonly TemperatureDelta s_runnerUpSetpoint = TemperatureDelta.FromKelvins(1 - 1e-6);
    private static readonly TemperatureDelta s_runnerUpStraining = TemperatureDelta.FromKelvins(2 - 1e-6);

    private readonly SetpointQuestion _question;
    private readonly CancellationToken _cancellation;
    private readonly IProgress<double>? _progress;
    private readonly StrainingTable _straining;
    private readonly PlanJudge _judge;
    private readonly double _ceilingC;
    private int _runs;
    private int _runsExpected;

    private SetpointSearch(SetpointQuestion question, IProgress<double>? progress, CancellationToken cancellation)
    {
        _question = question;
        _progress = progress;
        _cancellation = cancellation;
        _straining = new StrainingTable(question, cancellation);
        _judge = new PlanJudge(question);
        _ceilingC = question.Limits.Ceiling.DegreesCelsius;
    }

    /// <summary>Searches setpoints and straining temperatures.</summary>
    /// <remarks>
    /// One warming run per setpoint is enough for all straining temperatures: it is read where the mean passes each. Whole degrees
    /// are tried first, then tenths around the best: neither time nor damage need be monotone. The choice is run again as a whole.
    /// </remarks>
    /// <param name="question">What is warmed and strained, and within which limits.</param>
    /// <param name="progress">Told the share of the search that is done, 0 to 1; null for nobody.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    public static SetpointAnswer Find(SetpointQuestion question, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        SetpointCheck.Require(question);
        return new SetpointSearch(question, progress, cancellation).Find();
    }

    private SetpointAnswer Find()
    {
        double[] whole = [.. WholeDegrees()];
        _runsExpected = whole.Length + 20;
        RequireRuns(whole[0]);
        var candidates = new List<SetpointPlan>();
        foreach (SetpointPlan[] plans in Try(whole))
            candidates.AddRange(plans);

        // Nothing gets there at all, as with crystals that melt above the ceiling: how far off is it?
        if (candidates.Count == 0)
        {
            foreach (SetpointPlan[] plans in Try([.. BeyondTheCurve()]))
                candidates.AddRange(plans);
        }

        if (Best(candidates.Where(IsAllowed)) is { } coarse)
        {
            double from = coarse.Setpoint.DegreesCelsius;
            double[] tenths = [.. Enumerable.Range(-9, 19)
                .Where(step => step != 0)
                .Select(step => Math.Round(from + 0.1 * step, 6))
                .Where(c => c <= _ceilingC && c >= _question.Lowest.DegreesCelsius && !whole.Contains(c))];
            foreach (SetpointPlan[] plans in Try(tenths))
                candidates.AddRange(plans);
        }

        SetpointPlan? choice = FirstThatHolds(candidates);
        SetpointPlan? runnerUp = choice is null ? null : FirstThatHolds(candidates.Where(plan => IsElsewhere(plan, choice)));
        PlanLimit? binding = choice is null ? null : Binding(candidates, choice);
        IReadOnlyList<CurvePoint> curve = [.. whole.Select(c => PointAt(c, candidates))];
        WarmingBounds? bounds = choice is null ? null : WarmingBounds.Of(WarmingTo(choice.Setpoint, choice.StrainAt), _question.Options, _cancellation);
        var answer = new SetpointAnswer
        {
            Question = _question,
            Status = choice is null ? SetpointStatus.NoneMeetsTheLimits : SetpointStatus.Found,
            Choice = choice,
            RunnerUp = runnerUp,
            BindingLimit = binding,
            Bounds = bounds,
            TimeADegreeBuys = choice is null ? null : TimeADegreeBuys(choice, candidates),
            Curve = curve,
            NearestMiss = choice is null ? Nearest(candidates) : null,
            Notices = SetpointNotices.For(_question, _judge, choice, curve, choice is null ? null : Colder(choice)),
            Cautions = [.. Cautions(choice)],
            WarmingRuns = _runs,
        };
        _progress?.Report(1);
        return answer;
    }

    private IEnumerable<double> WholeDegrees()
    {
        double lowest = _question.Lowest.DegreesCelsius;
        double highest = Math.Min(_ceilingC + CurveBeyondCeilingK, HighestSetpointC);
        yield return lowest;
        for (double c = Math.Floor(lowest) + 1; c <= highest; c++)
        {
            if (c > _ceilingC && c - 1 < _ceilingC)
                yield return _ceilingC;
            yield return c;
        }
    }

    private IEnumerable<double> BeyondTheCurve()
    {
        for (double c = _ceilingC + 2 * CurveBeyondCeilingK; c <= HighestSetpointC; c += CurveBeyondCeilingK)
            yield return c;
    }

    /// <summary>Runs both parts once, briefly, so that a setup that is out of its range is refused before the search.</summary>
    private void RequireRuns(double setpointC)
    {
        WarmingSetup warming = Warming(setpointC, []) with { Longest = Duration.FromMinutes(1), HoldAfter = Duration.Zero };
        WarmingRun.Simulate(warming, new WarmingOptions { SeriesPoints = 0, RadialCells = 2, AxialCells = 2 }, _cancellation);
        StrainingSetup straining = _straining.Setup(Temperature.FromDegreesCelsius(Math.Min(_question.ColdestStraining.DegreesCelsius, _straining.WarmestC))) with { Longest = Duration.FromSeconds(1) };
        StrainingRun.Simulate(straining, new StrainingOptions { SeriesPoints = 0 }, _cancellation);
    }

    /// <summary>All plans at some setpoints: the setpoints side by side, each of them alone the same on any number of threads.</summary>
    private SetpointPlan[][] Try(double[] setpointsC)
    {
        var plans = new SetpointPlan[setpointsC.Length][];
        var parallel = new ParallelOptions { CancellationToken = _cancellation, MaxDegreeOfParallelism = Environment.ProcessorCount };
        try
        {
            Parallel.For(0, setpointsC.Length, parallel, i => plans[i] = PlansAt(setpointsC[i]));
        }
        catch (AggregateException several) when (several.InnerExceptions.Count > 0)
        {
            // A refusal of the library is told as if there were no threads.
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(several.InnerExceptions[0]);
        }

        return plans;
    }

    private SetpointPlan[] PlansAt(double setpointC) => PlansAt(setpointC, _question.ColdestStraining.DegreesCelsius);

    private SetpointPlan[] PlansAt(double setpointC, double coldestC)
    {
        double warmestC = Math.Min(setpointC - StopBelowSetpointK, _question.Limits.WarmestAtStrainer.DegreesCelsius + CurveBeyondCeilingK);
        warmestC = Math.Min(warmestC, _straining.WarmestC);
        return warmestC < coldestC ? [] : PlansBetween(setpointC, coldestC, warmestC);
    }

    private SetpointPlan[] PlansBetween(double setpointC, double coldestC, double warmestC)
    {
        WarmingResult run = WarmingRun.Simulate(
            Steadied(WarmingTo(Temperature.FromDegreesCelsius(setpointC), Temperature.FromDegreesCelsius(warmestC))),
            _question.Options with { SeriesPoints = TraceRows, MapTimes = [] },
            _cancellation);
        Interlocked.Increment(ref _runs);
        _progress?.Report(Math.Min(0.99, (double)_runs / _runsExpected));
        var trace = new WarmingTrace(setpointC, run);
        List<SetpointPlan> plans = [];
        for (double c = Math.Ceiling(coldestC / CoarseStrainingK) * CoarseStrainingK; c <= warmestC; c += CoarseStrainingK)
            AddPlan(plans, trace, c);

        // The soonest that may be done, and the soonest that could be if heat were no matter: what a limit or a degree costs is told of the two at one fineness.
        SetpointPlan?[] coarse = [Best(plans.Where(IsAllowed)), Best(plans.Where(CanBeStrained))];
        foreach (double around in coarse.OfType<SetpointPlan>().Select(best => best.StrainAt.DegreesCelsius).Distinct())
        {
            for (double c = around - CoarseStrainingK + FineStrainingK; c < around + CoarseStrainingK; c += FineStrainingK)
            {
                if (c >= coldestC && c <= warmestC)
                    AddPlan(plans, trace, c);
            }
        }

        return [.. plans];
    }

    private void AddPlan(List<SetpointPlan> plans, WarmingTrace trace, double strainingC)
    {
        if (trace.WhenMeanIs(strainingC + Physical.ZeroCelsiusK) is not { } stop)
            return;

        double meanC = stop.MeanK - Physical.ZeroCelsiusK;
        StrainingAtATemperature straining = _straining.At(meanC);
        double seconds = straining.Seconds ?? 0;
        plans.Add(_judge.Judge(new SetpointPlan
        {
            Setpoint = Temperature.FromDegreesCelsius(trace.SetpointC),
            StrainAt = Temperature.FromKelvins(stop.MeanK),
            Opening = Ratio.FromDecimalFractions(straining.Works ? straining.Opening : 0),
            WarmTime = Duration.FromSeconds(stop.TimeS),
            StrainTime = Duration.FromSeconds(seconds),
            Damage = WithStraining(stop.Damage, stop.MeanK, seconds),
            After = null,
            HeatCheck = null,
            HottestHoney = Temperature.FromKelvins(stop.HottestK),
            HottestWall = Temperature.FromKelvins(stop.WallK),
            Heater = Energy.FromJoules(stop.HeaterJ),
            Broken = [],
        }));
    }

    /// <summary>While it is strained the honey is taken to stay as warm as it began: the cautious side.</summary>
    private HoneyHeatDamage WithStraining(HoneyHeatDamage warming, double kelvins, double seconds) => seconds > 0
        ? warming.Then(HoneyHeatDamage.Of(TemperatureHistory.Hold(Temperature.FromKelvins(kelvins), Duration.FromSeconds(seconds)), _question.Warming.Response))
        : warming;

    /// <summary>
    /// A heater that switches around the setpoint, replaced by one that holds it: all but the same for the honey, and without the
    /// thousands of switchings that dozens of runs would pay for. The plans that are answered are run as they are.
    /// </summary>
    private static WarmingSetup Steadied(WarmingSetup setup)
    {
        HeatingKit kit = setup.Heating;
        return kit.HeaterPower is null || kit.Thermostat.Sensor != SensorPlace.Body || kit.Thermostat.Lag > Duration.Zero
            ? setup
            : setup with { Heating = kit with { Thermostat = kit.Thermostat with { Hysteresis = TemperatureDelta.Zero } } };
    }

    private WarmingSetup WarmingTo(Temperature setpoint, Temperature mean) => Warming(
        setpoint.DegreesCelsius,
        _question.Warming.Crystals is null ? [WarmingTarget.Mean(mean)] : [WarmingTarget.Mean(mean), WarmingTarget.NoCrystals]);

    private WarmingSetup Warming(double setpointC, IReadOnlyList<WarmingTarget> targets)
    {
        HeatingKit kit = _question.Warming.Heating;
        Temperature last = Temperature.FromDegreesCelsius(setpointC);
        IReadOnlyList<SetpointStep> steps = kit.Thermostat.Schedule;
        return _question.Warming with
        {
            Heating = kit with
            {
                Thermostat = kit.Thermostat with
                {
                    Schedule = [.. steps.Select((step, i) => i + 1 == steps.Count || step.Setpoint > last ? step with { Setpoint = last } : step)],
                },
            },
            Targets = targets,
            HoldAfter = Duration.Zero,
            Longest = _question.Limits.Longest,
        };
    }

    private static bool IsAllowed(SetpointPlan plan) => plan.Broken.Count == 0;

    private static SetpointPlan? Best(IEnumerable<SetpointPlan> plans) => plans.MinBy(plan => plan.Total);

    private static bool IsElsewhere(SetpointPlan plan, SetpointPlan choice) =>
        (plan.Setpoint - choice.Setpoint).Abs() >= s_runnerUpSetpoint || (plan.StrainAt - choice.StrainAt).Abs() >= s_runnerUpStraining;

    /// <summary>The soonest allowed plan that is still allowed when it is run as a whole.</summary>
    private SetpointPlan? FirstThatHolds(IEnumerable<SetpointPlan> candidates)
    {
        foreach (SetpointPlan candidate in candidates.Where(IsAllowed).OrderBy(plan => plan.Total).ThenBy(plan => plan.Setpoint).Take(MostTries))
        {
            if (Run(candidate) is { } plan && IsAllowed(plan))
                return plan;
        }

        return null;
    }

    /// <summary>Runs a plan as a whole; null when it does not come out as one.</summary>
    private SetpointPlan? Run(SetpointPlan candidate)
    {
        WarmingResult warming = WarmingRun.Simulate(WarmingTo(candidate.Setpoint, candidate.StrainAt), _question.Options, _cancellation);
        Interlocked.Increment(ref _runs);
        if (warming.TimeToTarget is not { } warmTime)
            return null;

        StrainingSetup setup = _straining.Setup(warming.End.Mean);
        Ratio opening = _question.Limits.Overflow.WidestOpeningFor(setup, _cancellation);
        if (!(opening > Ratio.Zero))
            return null;
        StrainingResult straining = StrainingRun.Simulate(setup with { Control = GateControl.LeaveAt(opening) }, cancellation: _cancellation);
        if (StrainingTable.SecondsOf(straining) is not { } seconds)
            return null;

        return _judge.Judge(candidate with
        {
            StrainAt = warming.End.Mean,
            Opening = opening,
            WarmTime = warmTime,
            StrainTime = Duration.FromSeconds(seconds),
            Damage = WithStraining(warming.Damage, warming.End.Mean.Kelvins, seconds),
            HottestHoney = warming.HottestHoney,
            HottestWall = warming.HottestWall.Temperature,
            Heater = warming.Energy.Heater,
            Warming = warming,
            Straining = straining,
        });
    }

    /// <summary>The limit without which the job could be done soonest.</summary>
    private static PlanLimit? Binding(List<SetpointPlan> candidates, SetpointPlan choice)
    {
        PlanLimit? binding = null;
        double soonest = choice.Total.Seconds * (1 - NoticeableShare);
        foreach (PlanLimit limit in Enum.GetValues<PlanLimit>())
        {
            if (limit == PlanLimit.Overflow)
                continue; // Without it there is no opening to strain with.
            if (Best(candidates.Where(plan => plan.Broken.All(broken => broken == limit))) is { } without && without.Total.Seconds < soonest)
            {
                soonest = without.Total.Seconds;
                binding = limit;
            }
        }

        return binding;
    }

    /// <summary>The soonest plan at the same setpoint that strains colder than is wanted.</summary>
    private SetpointPlan? Colder(SetpointPlan choice)
    {
        double startC = _question.Warming.StartTemperature.DegreesCelsius, wantedC = _question.ColdestStraining.DegreesCelsius;
        double coldestC = Math.Max(10, startC);
        return coldestC >= wantedC || choice.StrainAt.DegreesCelsius > wantedC + 2 * CoarseStrainingK
            ? null
            : Best(PlansBetween(choice.Setpoint.DegreesCelsius, coldestC, wantedC).Where(IsAllowed));
    }

    private Duration? TimeADegreeBuys(SetpointPlan choice, List<SetpointPlan> candidates)
    {
        double here = choice.Setpoint.DegreesCelsius, there = here + 1;
        List<SetpointPlan> above = candidates.FindAll(plan => Math.Abs(plan.Setpoint.DegreesCelsius - there) < 1e-6);
        if (above.Count == 0)
            above = [.. PlansAt(there)];
        SetpointPlan? now = Best(candidates.Where(plan => Math.Abs(plan.Setpoint.DegreesCelsius - here) < 1e-6 && CanBeStrained(plan)));
        return now is null || Best(above.Where(CanBeStrained)) is not { } then ? null : now.Total - then.Total;
    }

    /// <summary>Whether a plan keeps the limits that have nothing to do with the setpoint.</summary>
    private static bool CanBeStrained(SetpointPlan plan) =>
        !plan.Broken.Any(limit => limit is PlanLimit.Overflow or PlanLimit.WaxAtStrainer or PlanLimit.Burn or PlanLimit.StrainingTime);

    private static CurvePoint PointAt(double setpointC, List<SetpointPlan> candidates)
    {
        List<SetpointPlan> here = candidates.FindAll(plan => Math.Abs(plan.Setpoint.DegreesCelsius - setpointC) < 1e-9);
        Temperature setpoint = Temperature.FromDegreesCelsius(setpointC);
        if (Best(here.Where(IsAllowed)) is { } allowed)
            return new CurvePoint(setpoint, allowed, true, []);

        SetpointPlan? soonest = Best(here.Where(CanBeStrained)) ?? Best(here);
        return new CurvePoint(setpoint, soonest, false, soonest?.Broken ?? []);
    }

    private NearestMiss? Nearest(List<SetpointPlan> candidates)
    {
        SetpointPlan? nearest = candidates.MinBy(plan => (_judge.MissesOf(plan).Sum(miss => miss.Size), plan.Total.Seconds));
        if (nearest is null)
            return null;

        SetpointPlan plan = nearest.Opening > Ratio.Zero && Run(nearest) is { } whole ? whole : nearest;
        return new NearestMiss(plan, [.. _judge.MissesOf(plan).Select(miss => (miss.Limit, miss.Words))]);
    }

    private static IEnumerable<Caution> Cautions(SetpointPlan? choice) => choice is null
        ? []
        : (choice.Warming?.Cautions ?? []).Concat(choice.Straining?.Cautions ?? []).DistinctBy(caution => caution.Code, StringComparer.Ordinal);
}
