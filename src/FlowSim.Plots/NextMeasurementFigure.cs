using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of what to measure next: how much of the spread of the time to strain, and of the overflow, each measurement would leave.</summary>
public static class NextMeasurementFigure
{
    /// <summary>Width, px; the height goes with the number of measurements.</summary>
    public const int Width = 1000;

    // Engineering choice: further ones are too weak to matter.
    private const int MostMeasurements = 7;

    // Engineering choice: a measurement that leaves more is not worth a title.
    private const double LittleLearnt = 0.95;

    // What leaves all but this reads as 100 %: it is counted, not drawn.
    private const double NothingLearnt = 0.995;

    private const float LinePx = 32;
    private const float BarPx = 19;
    private const float BetweenBarsPx = 3;
    private const float RowGapPx = 16;
    private const float SmallPx = 20;
    private const float AxisPx = 86;
    private const float LeftPx = 34;
    private const float RightPx = 110;

    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 40);
    private static readonly LineLook s_time = new(OkabeIto.Blue, BarPx);
    private static readonly LineLook s_overflow = new("#F2B187", BarPx);
    private static readonly LineLook s_grid = new("#DDDDDD", 1);
    private static readonly LineLook s_ink = new(OkabeIto.Black, 1.5f);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels; shares and times are the same in both.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(CalibrationAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        _ = units;
        string title = Title(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, title, subtitle));
    }

    private static string Title(CalibrationAnswer answer) => answer.Next switch
    {
        _ when answer.Status == CalibrationStatus.NotFound => CalibrationTitle.NotFound,
        [] => "No next measurement was weighed",
        [var best, ..] when !(Math.Min(best.TimeLeft, best.OverflowLeft ?? 1) < LittleLearnt) => "No measurement tried would tell much more",
        [var best, ..] => "Measure next: " + FigureText.Clean(best.What),
    };

    private static float Draw(FigureSheet sheet, CalibrationAnswer answer, string title, string subtitle)
    {
        float text = s_frame.TextPx;
        string[] under = [.. Prediction(answer.Prediction).SelectMany(s => SourceNotes.Wrap(s, sheet, text, s_frame.Widest))];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]) + 12;
        NextMeasurement[] telling = [.. answer.Next.Where(n => n.TimeLeft < NothingLearnt || n.OverflowLeft < NothingLearnt)];
        NextMeasurement[] shown = [.. (telling.Length == 0 ? answer.Next : telling).Take(MostMeasurements)];
        if (shown.Length == 0)
            return top;

        bool overflow = shown.Any(n => n.OverflowLeft is not null);
        LegendEntry[] legend = [new("of the time to strain", s_time), .. overflow ? [new LegendEntry("of the overflow", s_overflow)] : (LegendEntry[])[]];
        int rows = LegendRows.Draw(sheet, false, "Spread that would be left", legend, Frame.MarginPx, Width - Frame.MarginPx, top, text);
        top += rows * LegendRows.RowPx + 8;
        foreach (NextMeasurement next in shown)
            top = DrawRow(sheet, next, overflow, top);
        if (answer.Next.Count > shown.Length)
        {
            double least = answer.Next.Except(shown).Select(n => n.TimeLeft).Where(double.IsFinite).DefaultIfEmpty(1).Min();
            string leaving = least < NothingLearnt ? Percent(least) + " of the time's or more" : "it all but as it is";
            sheet.Text(Invariant($"and {answer.Next.Count - shown.Length} more that leave {leaving}"), LeftPx, top + LinePx / 2 - 6, text);
            top += LinePx;
        }

        sheet.Line(X(0), top, X(1), top, s_ink);
        for (int tick = 0; tick <= 5; tick++)
        {
            string words = Invariant($"{20 * tick}");
            sheet.Line(X(0.2 * tick), top, X(0.2 * tick), top + 7, s_ink);
            sheet.Text(words, X(0.2 * tick) - sheet.Measure(words, text) / 2, top + 22, text);
        }

        const string Label = "Left of the spread now, %";
        sheet.Text(Label, (X(0) + X(1) - sheet.Measure(Label, text)) / 2, top + 54, text);
        return top + AxisPx;
    }

    private static float DrawRow(FigureSheet sheet, NextMeasurement next, bool overflow, float top)
    {
        float text = s_frame.TextPx;
        const float Widest = Width - LeftPx - Frame.MarginPx;
        sheet.Text(FigureText.Fit(CalibrationTitle.Capital(FigureText.Clean(next.What)), sheet.Font(text, bold: true), Widest), LeftPx, top + LinePx / 2, text, bold: true);
        top += LinePx;
        string how = RiskTitle.Sentence(next.How).Replace("± ", "±\u00A0", StringComparison.Ordinal);
        foreach (string line in how.Length == 0 ? [] : SourceNotes.Wrap(how, sheet, text, Widest))
        {
            sheet.Text(line, LeftPx, top + LinePx / 2, text);
            top += LinePx;
        }

        top += 4;
        int bars = overflow ? 2 : 1;
        float end = top + bars * BarPx + (bars - 1) * BetweenBarsPx;
        for (int tick = 0; tick <= 5; tick++)
            sheet.Line(X(0.2 * tick), top, X(0.2 * tick), end, s_grid);
        Bar(sheet, next.TimeLeft, s_time, top);
        if (next.OverflowLeft is { } left)
            Bar(sheet, left, s_overflow, top + BarPx + BetweenBarsPx);
        else if (overflow)
            sheet.Text("overflow certain already", LeftPx + 8, top + 1.5f * BarPx + BetweenBarsPx, SmallPx);
        sheet.Line(X(0), top - 2, X(0), end + 2, new(OkabeIto.Black, 2));
        return end + RowGapPx;
    }

    private static void Bar(FigureSheet sheet, double share, LineLook look, float top)
    {
        if (!double.IsFinite(share))
            return;

        string words = Percent(share);
        sheet.Fill(X(0), top, X(share), top + BarPx, look.Hex);
        sheet.Fill(X(share), top, X(share) + 14 + sheet.Measure(words, SmallPx), top + BarPx, "#FFFFFF");
        sheet.Text(words, X(share) + 8, top + BarPx / 2, SmallPx);
    }

    private static float X(double share) => LeftPx + (float)Math.Clamp(share, 0, 1) * (Width - RightPx - LeftPx);

    private static string Percent(double share) => share is > 0 and < 0.005 ? "under 1 %" : Invariant($"{100 * Math.Clamp(share, 0, 1):0} %");

    private static IEnumerable<string> Prediction(PredictionChange change)
    {
        yield return "95 % strained: " + Time(change.StrainAfter) + "; before the runs: " + Time(change.StrainBefore) + ".";
        yield return "Chance of an overflow: " + Chance(change.OverflowAfter) + "; before the runs: " + Chance(change.OverflowBefore) + ".";
    }

    private static string Time(TimeSpread time) => time switch
    {
        { P10: { } early, P50: { } half, P90: { } late } => RiskTitle.Moment(half) + " (eight in ten " + Span(RiskTitle.Moment(early), RiskTitle.Moment(late)) + ")",
        { P50: { } half } => RiskTitle.Moment(half) + Invariant($" in half of the runs, never in {ChanceText.Percent(time.Never)}"),
        _ => "mostly never",
    };

    /// <summary>Two moments, their unit once where it is the same.</summary>
    private static string Span(string early, string late)
    {
        string unit = early[early.LastIndexOf(' ')..];
        bool same = new string([.. early.Where(char.IsLetter)]) == new string([.. late.Where(char.IsLetter)]) && early.Count(c => c == ' ') == 1;
        return (same ? early[..^unit.Length] : early) + " to " + late;
    }

    private static string Chance(double chance) => !double.IsFinite(chance) ? "not known" : chance == 0 ? "none of the draws" : ChanceText.Percent(chance);
}
