using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Calibration;

/// <summary>Checks a question once, at the edge.</summary>
internal static class CalibrationCheck
{
    /// <summary>Fewest and most readings of a series.</summary>
    public const int LeastReadings = 4, MostReadings = 100_000;

    private const int MostSeries = 8, LongestName = 100;

    /// <summary>Share by which a reading may exceed what its vessel holds: rules and scales are not exact (engineering choice).</summary>
    private const double Beyond = 0.1;

    /// <summary>Throws when something does not fit; the message names it.</summary>
    /// <param name="question">Question.</param>
    public static void Require(CalibrationQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        EquipmentCheck.Present(question.Setup);
        _ = new StrainingParameters(question.Setup);
        if (EquipmentCheck.Present(question.Runs).Count + EquipmentCheck.Present(question.Viscosities).Count == 0)
            throw EquipmentCheck.Refused(nameof(question.Runs), "There is nothing to learn from: give a timed run or a measured viscosity.");
        EquipmentCheck.Within(question.Runs.Count, 0, CalibrationQuestion.MostRuns, "", nameof(question.Runs));
        EquipmentCheck.Within(question.Viscosities.Count, 0, CalibrationQuestion.MostRuns, "", nameof(question.Viscosities));
        RequirePriors(question);
        foreach (TimedRun run in question.Runs)
            RequireRun(question, EquipmentCheck.Present(run), goesOn: false);
        foreach (ViscositySpot spot in question.Viscosities)
            RequireSpot(question, EquipmentCheck.Present(spot));
        RequireNew(question);
    }

    /// <summary>Throws when something does not fit of a run that still goes on: it may have as few readings as it likes, and they need not have changed yet.</summary>
    /// <param name="question">Question about that run alone.</param>
    public static void RequireGoingOn(CalibrationQuestion question)
    {
        _ = new StrainingParameters(EquipmentCheck.Present(question.Setup));
        RequirePriors(question);
        foreach (TimedRun run in question.Runs)
            RequireRun(question, run, goesOn: true);
    }

    private static void RequirePriors(CalibrationQuestion question)
    {
        if (question.Priors is { } priors)
        {
            foreach (UncertainInput prior in priors)
                EquipmentCheck.Present(EquipmentCheck.Present(prior).Input);
            if (priors.GroupBy(prior => prior.Input).FirstOrDefault(same => same.Count() > 1) is { } twice)
                throw EquipmentCheck.Refused(nameof(question.Priors), $"{twice.Key} is given two spreads.");
        }

        UncertainInput[] all = FitLayout.Priors(question);
        if (all.Length == 0)
            throw EquipmentCheck.Refused(nameof(question.Priors), "No input has a spread, so there is nothing to be found out.");

        // The correlations are checked as those of any question about chances are.
        string[] names = [.. all.Select(prior => prior.Input.Name)];
        InputCorrelation[] correlations = [.. EquipmentCheck.Present(question.Correlations), .. (question.Earlier?.Correlations ?? []).Where(c => names.Contains(c.One, StringComparer.OrdinalIgnoreCase) && names.Contains(c.Other, StringComparer.OrdinalIgnoreCase))];
        _ = new SpreadInputs(all, correlations);
        if (question.Correlations.FirstOrDefault(c => !IsShared(c.One) || !IsShared(c.Other)) is { } own)
            throw EquipmentCheck.Refused(nameof(question.Correlations), $"{own.One} and {own.Other} cannot go together in a calibration: one of them is each run's own.");

        bool IsShared(string name) => CalibrationPriors.IsShared(StrainingInputs.ByName(name));
    }

    private static void RequireRun(CalibrationQuestion question, TimedRun run, bool goesOn)
    {
        RequireName(run.Name, nameof(TimedRun.Name));
        EquipmentCheck.Present(run.Setup);
        _ = new StrainingParameters(run.Setup);
        EquipmentCheck.Present(run.Series);
        EquipmentCheck.Within(run.Series.Count, goesOn ? 0 : 1, MostSeries, "", nameof(TimedRun.Series));
        foreach (TimedSeries series in run.Series)
            RequireSeries(run, EquipmentCheck.Present(series), goesOn);

        foreach (UncertainInput prior in FitLayout.Priors(question).Where(prior => CalibrationPriors.IsShared(prior.Input) && prior.Input.AppliesTo(question.Setup) && prior.Input.AppliesTo(run.Setup)))
        {
            double here = prior.Input.ValueIn(run.Setup), there = prior.Input.ValueIn(question.Setup);
            if (Math.Abs(here - there) > 1e-9 * Math.Max(Math.Abs(here), Math.Abs(there)))
                throw EquipmentCheck.Refused(nameof(CalibrationQuestion.Runs), Invariant($"{prior.Input.Name} is {here:g6} {prior.Input.Unit}").TrimEnd() + Invariant($" in the run {run.Name} and {there:g6} in the setup: all runs of a calibration are of one honey and one kit."));
        }

        if (!ReferenceEquals(run.Setup.Honey.Viscosity, question.Setup.Honey.Viscosity))
            throw EquipmentCheck.Refused(nameof(CalibrationQuestion.Runs), $"The run {run.Name} takes another viscosity correlation than the setup: all runs of a calibration are of one honey.");
    }

    private static void RequireSeries(TimedRun run, TimedSeries series, bool goesOn)
    {
        EquipmentCheck.Defined(series.Quantity, nameof(TimedSeries.Quantity));
        EquipmentCheck.Present(series.Readings);
        EquipmentCheck.Within(series.Readings.Count, goesOn ? 1 : LeastReadings, MostReadings, "readings", nameof(TimedSeries.Readings));
        EquipmentCheck.Within(series.ClockOffset.Seconds, 0, 3600, "s", nameof(TimedSeries.ClockOffset));
        if (series.ZeroOffset is { } zero)
            EquipmentCheck.Within(zero, 0, 1e4, "", nameof(TimedSeries.ZeroOffset));
        if (series.Resolution is { } resolution)
            EquipmentCheck.Within(resolution, 0, 1e3, "", nameof(TimedSeries.Resolution));
        double most = (1 + Beyond) * Most(run.Setup, series.Quantity) + (series.ZeroOffset is { } tare ? 4 * tare : 0);
        double low = double.PositiveInfinity, high = double.NegativeInfinity, before = double.NegativeInfinity;
        for (int i = 0; i < series.Readings.Count; i++)
        {
            (double t, double value) = (series.Readings[i].At.Seconds, series.Readings[i].Value);
            if (!(t >= -3600 && t <= StrainingSetupCheck.LongestS))
                throw EquipmentCheck.OutOfRange(nameof(TimedReading.At), t, Invariant($"Reading {i + 1} of {series.Label} in {run.Name} is at {t:g6} s; times go from an hour before the opening of the gate to 30 days after it."));
            if (t < before)
                throw EquipmentCheck.OutOfRange(nameof(TimedReading.At), t, Invariant($"Reading {i + 1} of {series.Label} in {run.Name}, at {t:g6} s, comes after one at {before:g6} s: time runs backwards."));
            if (!(value >= -0.05 * most && value <= most))
                throw EquipmentCheck.OutOfRange(nameof(TimedReading.Value), value, Invariant($"Reading {i + 1} of {series.Label} in {run.Name} is {value:g6}; it must be within 0 to {most:g6} ({QuantityFacts.Of(series.Quantity).Unit}), what the vessel holds and a tenth: is the unit right?"));
            before = t;
            (low, high) = (Math.Min(low, value), Math.Max(high, value));
        }

        if (!goesOn && !(high > low))
            throw EquipmentCheck.Refused(nameof(TimedSeries.Readings), Invariant($"{series.Label} in {run.Name} is {low:g6} throughout: a reading that does not change tells nothing."));
    }

    private static void RequireSpot(CalibrationQuestion question, ViscositySpot spot)
    {
        RequireName(spot.Name, nameof(ViscositySpot.Name));
        (question.Setup.Honey.Viscosity ?? Properties.ViscosityCorrelations.Default).TemperatureRange.Require(spot.Temperature.DegreesCelsius, nameof(ViscositySpot.Temperature));
        Properties.MeasuredViscosity.AllowedViscosities.Require(spot.Viscosity.PascalSeconds, nameof(ViscositySpot.Viscosity));
        EquipmentCheck.Within(spot.LogStandardDeviation, 0.001, 2, "", nameof(ViscositySpot.LogStandardDeviation));
    }

    /// <summary>No run twice, in the question or since the earlier calibration: it would count double.</summary>
    private static void RequireNew(CalibrationQuestion question)
    {
        Dictionary<string, string> known = new(StringComparer.Ordinal);
        foreach (RunOnRecord run in question.Earlier?.Runs ?? [])
            known[run.Fingerprint] = $"is in the earlier calibration already, as {run.Name}";
        foreach ((string name, string fingerprint) in question.Runs.Select(run => (run.Name, run.Fingerprint)).Concat(question.Viscosities.Select(spot => (spot.Name, RunFingerprint.Of(spot)))))
        {
            if (!known.TryAdd(fingerprint, $"is given twice, also as {name}"))
                throw EquipmentCheck.Refused(nameof(CalibrationQuestion.Runs), $"{name} {known[fingerprint]}: it would count double.");
        }
    }

    private static void RequireName(string name, string argument)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Length > LongestName)
            throw EquipmentCheck.Refused(argument, $"A run or measurement has a name of at most {LongestName} characters.");
    }

    private static double Most(StrainingSetup setup, StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => setup.Strainer.Shape.RimHeightM,
        StrainingObservable.TankLevel => setup.Tank.Shape.HeightM,
        StrainingObservable.TankMass => 1500 * setup.Tank.Shape.CapacityM3,
        StrainingObservable.TankVolume => setup.Tank.Shape.CapacityM3,
        StrainingObservable.ReceiverLevel => setup.Receiver.Shape.HeightM,
        StrainingObservable.ReceiverMass => 1500 * setup.Receiver.Shape.CapacityM3,
        _ => setup.Receiver.Shape.CapacityM3,
    };
}
