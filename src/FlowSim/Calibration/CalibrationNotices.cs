using static System.FormattableString;

namespace FlowSim.Calibration;

/// <summary>What the user should know about a calibration.</summary>
internal static class CalibrationNotices
{
    /// <summary>Score from which a number lies where it was hardly expected: one in 370 does by chance.</summary>
    private const double Unexpected = 3;

    /// <summary>Inflation from which the readings lie off the fit in a way that it does not explain (engineering choice).</summary>
    private const double Systematic = 4;

    /// <summary>Share of the variance that a fit explains at least (engineering choice).</summary>
    private const double LeastExplained = 0.8;

    /// <summary>Share of outliers from which they are no accidents any more (engineering choice).</summary>
    private const double ManyOutliers = 0.15;

    /// <summary>Whether the readings of a series lie off the fit in a way that it does not explain.</summary>
    /// <param name="series">Series.</param>
    public static bool IsPoor(SeriesFit series) => series.Inflation >= Systematic || series.Explained < LeastExplained;

    /// <summary>The notices.</summary>
    /// <param name="question">Question.</param>
    /// <param name="fit">Best fit.</param>
    /// <param name="inputs">Fitted inputs.</param>
    /// <param name="layout">All numbers.</param>
    /// <param name="scores">Their scores.</param>
    /// <param name="series">How each series was met.</param>
    /// <param name="check">What the sampler found.</param>
    public static IReadOnlyList<Notice> For(CalibrationQuestion question, BestFit fit, IReadOnlyList<FittedInput> inputs, FitLayout layout, double[] scores, IReadOnlyList<SeriesFit> series, SamplerCheck? check)
    {
        var notices = new List<Notice>();
        if (!fit.IsFound)
        {
            notices.Add(new("no-fit", $"no best fit was found ({fit.Status})", "the readings may belong to another setup than the one described", "check level, opening, vessel and units against what was done"));
            return notices;
        }

        for (int i = 0; i < layout.Count; i++)
        {
            if (Math.Abs(scores[i]) < Unexpected || layout.Numbers[i].Input is not { } input)
                continue;
            double value = layout.Numbers[i].Scale.ValueAt(scores[i]);
            notices.Add(new(
                "far-from-expected",
                Invariant($"{input.Name} comes out at {value:g4} {input.Unit}").TrimEnd() + Invariant($", {Math.Abs(scores[i]):0.#} standard deviations from what was expected"),
                "something else in the setup may be described wrongly, and this makes up for it",
                "check bore, cloth, level, opening and the units of the readings"));
        }

        foreach (SeriesFit one in series)
        {
            string name = one.Series.Label;
            if (one.Inflation > 1)
                notices.Add(new("residuals-go-together", Invariant($"residuals of {name} in {one.Run} go together (neighbours correlate {one.Autocorrelation:0.00})"), Invariant($"the model does not follow the course to the last; the intervals are widened for it, as if there were {one.Readings.Count / one.Inflation:0} readings"), "look at the residuals; note scrapes and changes of the opening, and the temperature at both ends"));
            if (one.Outliers > ManyOutliers * one.Readings.Count)
                notices.Add(new("many-outliers", Invariant($"{one.Outliers} of {one.Readings.Count} readings of {name} in {one.Run} are outliers"), "they are no accidents: part of the run went another way than described", "note what happened then, or fit the part that went as described"));
            if (one.Explained < LeastExplained)
                notices.Add(new("little-explained", Invariant($"the fit explains {100 * Math.Max(0, one.Explained):0} % of what the readings of {name} in {one.Run} do"), "the setup described is hardly the one that was timed", "check it against what was done"));
            if (Math.Abs(one.Clock.Value.Seconds) > Unexpected * Math.Max(1e-9, one.Series.ClockOffset.Seconds) && one.Series.ClockOffset.Seconds > 0)
                notices.Add(new("clock", Invariant($"the clock of {name} in {one.Run} seems {Math.Abs(one.Clock.Value.Seconds):0} s {(one.Clock.Value.Seconds > 0 ? "behind" : "ahead")}"), "it was not started with the gate", "say how far it may be off"));
        }

        if (question.Runs.Count > 0 && !inputs.Any(input => input.Run is null && input.Identified))
            notices.Add(new("nothing-learnt", "no input of honey or kit is known better by itself than before", "the readings are few, rough, or do not depend on it", "time a whole run, read more often, and weigh rather than measure levels"));
        if (check is { Used: true })
            notices.Add(new("intervals-from-sampler", Invariant($"the sampler's intervals differ from those of the fit (medians by {check.MedianShift:0.0} standard deviations, widths by a factor of {check.WidthRatio:0.00})"), "what is known is not normal-shaped", "the sampler's are given"));
        return notices;
    }
}
