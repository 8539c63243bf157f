using FlowSim.Calibration;
using static System.FormattableString;

namespace FlowSim.Attending;

/// <summary>What the user should know about an outlook.</summary>
internal static class OutlookNotices
{
    /// <summary>Share of the runs that must have run over by the last entry for that to be worth a word (engineering choice).</summary>
    private const double MostHaveRunOver = 0.5;

    /// <summary>The notices.</summary>
    /// <param name="forecast">Forecast.</param>
    public static IEnumerable<Notice> For(RunForecast forecast)
    {
        AttendedRun run = forecast.Run;
        if (run.Series.Count > 0 && !forecast.Fitted)
        {
            yield return new Notice(
                "not-fitted",
                "No fit to the readings was found",
                "they do not go together with this setup, or one of them is a slip; the outlook rests on the file alone",
                "read again, take a slip back, and see whether every move of the gate is noted");
        }

        foreach (TimedSeries series in run.Series.Where(series => series.Readings.Count > AttendedRunCheck.MostFitted))
        {
            yield return new Notice(
                "readings-thinned",
                Invariant($"{series.Label} has {series.Readings.Count} readings, of which {AttendedRunCheck.MostFitted} are fitted, evenly chosen, the first and the last among them"),
                "the rest would hardly narrow the outlook; each new one is still judged",
                "nothing need be done; a calibration takes all");
        }

        if (forecast.Verdict == RunVerdict.CheckTheReading)
        {
            ReadingDeviation far = forecast.Deviations.MaxBy(deviation => Math.Abs(deviation.StandardDeviations))!;
            yield return new Notice(
                "check-reading",
                Invariant($"The last reading lies {Math.Abs(far.StandardDeviations):0} standard deviations from what was expected"),
                "a slip of the rule or the fingers, or something was done that is not noted; it is kept and counts little",
                "read again; note a scrape or a move of the gate; take a slip back");
        }

        double last = run.LastEntry.Seconds;
        double over = forecast.Left.Samples.Count(sample => sample.FirstOverflowSeconds <= last) / (double)forecast.Left.Samples.Length;
        if (over > MostHaveRunOver)
        {
            yield return new Notice(
                "over-by-now",
                Invariant($"By all that is known the strainer has run over by now: in {100 * over:0} of 100 runs"),
                "it has, or the file does not describe this run",
                "look at the pond now, and read its depth");
        }
    }
}
