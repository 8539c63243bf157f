using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using ScottPlot;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of a calibration: readings of each series beside the fitted course, and how far off they lie.</summary>
/// <remarks>
/// Series of one run share their time axis. The band holds a new reading with 95 %. Outliers have a shape of their own; one far off stands as a
/// triangle at the edge. Where readings would cover each other only one of them is drawn. Openings and scrapes stand where the clock of the readings showed them; their words give the
/// times noted. The course goes on to the end of the run, readings or not.
/// </remarks>
public static class CalibrationFigure
{
    /// <summary>Width, px; the height goes with the number of series.</summary>
    public const int Width = 1000;

    // Engineering choice: a longer sheet is no longer one figure.
    private const int MostSeries = 4;

    // More openings than these are counted, not named.
    private const int MostOpeningsNamed = 5;

    private const float DataPx = 470;
    private const float LinePx = 32;
    private const float BetweenPx = 18;
    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 40);
    private static readonly LineLook s_opening = new("#444444", 2.2f, 3, 4);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(CalibrationAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string title = CalibrationTitle.Of(answer, units);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, units, title, subtitle));
    }

    private static float Draw(FigureSheet sheet, CalibrationAnswer answer, DisplayUnits units, string title, string subtitle)
    {
        SeriesFit[] shown = [.. answer.Series.Take(MostSeries)];
        string[] sentences = [.. CalibrationTitle.Sentences(answer, units), .. shown.Length < answer.Series.Count ? [Invariant($"The first {shown.Length} of {answer.Series.Count} series are drawn.")] : (string[])[]];
        string[] under = [.. sentences.SelectMany(s => SourceNotes.Wrap(s, sheet, s_frame.TextPx, s_frame.Widest))];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]) + BetweenPx;
        if (shown.Length == 0)
        {
            sheet.Text("No timed run was fitted.", Frame.MarginPx, top + LinePx / 2, s_frame.TextPx);
            return top + LinePx + BetweenPx;
        }

        string course = answer.Status == CalibrationStatus.NotFound ? "best tried" : "fitted";
        foreach (IGrouping<string, SeriesFit> run in shown.GroupBy(s => s.Run, StringComparer.Ordinal))
            top = DrawRun(sheet, answer.Question.Runs.FirstOrDefault(r => r.Name == run.Key), [.. run], units, top, run.Contains(shown[0]) ? course : "") + BetweenPx;
        return top;
    }

    private static float DrawRun(FigureSheet sheet, TimedRun? run, SeriesFit[] fits, DisplayUnits units, float top, string course)
    {
        double[] at = [.. fits.SelectMany(f => f.Readings.Select(r => r.At.Seconds).Concat(f.Course.Select(p => p.At.Seconds))).Where(double.IsFinite)];
        double endS = at.Append(0).Max();
        TimeScale time = TimeScale.For(endS > 0 ? endS : 1);
        FittedSeriesPanels[] series = [.. fits.Select(f => new FittedSeriesPanels(f, time, units))];

        string called = FigureText.Clean(fits[0].Run) + (run?.Date is { } date ? ", " + date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "");
        sheet.Text(FigureText.Fit("Run: " + called, sheet.Font(s_frame.TextPx, bold: true), s_frame.Widest), Frame.MarginPx, top + LinePx / 2, s_frame.TextPx, bold: true);
        top += LinePx;
        foreach (FittedSeriesPanels one in series)
        {
            string sentence = (series.Length > 1 ? one.Name + ": " : "") + one.Sentence;
            foreach (string line in SourceNotes.Wrap(series.Length > 1 ? sentence : CalibrationTitle.Capital(sentence), sheet, s_frame.TextPx, s_frame.Widest))
            {
                sheet.Text(line, Frame.MarginPx, top + LinePx / 2, s_frame.TextPx);
                top += LinePx;
            }
        }

        top += BetweenPx / 2;
        double end = (endS > 0 ? endS : 1) / time.SecondsPerUnit;
        (double Low, double High) limits = (Math.Min(0, at.Append(0).Min() / time.SecondsPerUnit) - 0.01 * end, 1.01 * end);

        // What was done is noted by the time since the opening of the gate; where the clock of the readings is behind, it showed less.
        double behindS = fits.Select(f => f.Clock.Value.Seconds).Where(double.IsFinite).DefaultIfEmpty(0).Average();
        bool Within(double atS) => atS - behindS <= endS && (atS - behindS) / time.SecondsPerUnit >= limits.Low;
        double[] scrapes = [.. (run?.Setup.Scraping.Times ?? []).Select(t => t.Seconds).Where(Within).Select(t => (t - behindS) / time.SecondsPerUnit)];
        TimeMark[] marks = Openings(run, time, behindS, Within);
        LegendEntry[] happened =
        [
            .. scrapes.Length == 0 ? [] : (LegendEntry[])[new(scrapes.Length == 1 ? "scraped once" : Invariant($"scraped {scrapes.Length} times"), null, MarkerShape.FilledTriangleDown)],
            .. marks.Length <= MostOpeningsNamed ? [] : (LegendEntry[])[new(Invariant($"gate moved {marks.Length} times"), s_opening)],
        ];
        PanelStack stack = new()
        {
            Panels = [.. series.SelectMany((s, i) => s.Panels(scrapes, Heading(sheet, s.Name), i == 0 ? course : "", i == 0 ? happened : [], limits))],
            XLimits = limits,
            XLabel = "Time by the clock of the readings, " + time.Unit,
            Marks = marks,
        };
        float bottom = top + stack.HeightPx(sheet, s_frame, series.Length * DataPx);
        stack.Draw(sheet, s_frame, top, bottom);
        return bottom;
    }

    private static string Heading(FigureSheet sheet, string name) => FigureText.Fit(name, sheet.Font(s_frame.TextPx, bold: true), s_frame.Widest);

    /// <summary>Moments at which the gate was moved; of many, none is named.</summary>
    private static TimeMark[] Openings(TimedRun? run, TimeScale time, double behindS, Func<double, bool> within)
    {
        if (run?.Setup.Control is not OpeningSchedule { Steps: var steps })
            return [];

        OpeningStep[] moved = [.. steps.Where(step => step.At.Seconds > 0 && within(step.At.Seconds))];
        return [.. moved.Select(step => new TimeMark(
            (step.At.Seconds - behindS) / time.SecondsPerUnit,
            moved.Length > MostOpeningsNamed ? "" : Invariant($"gate to {step.Opening.Percent:0.#} % at ") + time.Moment(step.At.Seconds),
            s_opening))];
    }
}
