using System.Globalization;
using FlowSim.Planning;
using FlowSim.Plots.Drawing;
using UnitsNet;

namespace FlowSim.Plots;

/// <summary>The figure of a day's plan: a row for each person, warming place, strainer and bottling tank, a bar for each thing done.</summary>
/// <remarks>Bars differ in colour, pattern and letter. The same plan gives the same bytes.</remarks>
public static class DayFigure
{
    /// <summary>Width, px; the height goes with the number of rows.</summary>
    public const int Width = 1400;

    private const float TextPx = 24;
    private const float LeftPx = 230;
    private const float RightPx = 34;
    private const float LanePx = 40;
    private const float RowGapPx = 12;
    private const float AxisPx = 92;
    private const double DayMin = 24 * 60;

    // Hours between words on the axis, the first that leaves them apart; the plan lies within four weeks.
    private static readonly int[] s_hours = [1, 2, 3, 6, 12, 24, 48, 96, 192];

    private static readonly Frame s_frame = new(Width, 0, TextPx, RightPx);
    private static readonly LineLook s_grid = new("#DDDDDD", 1);
    private static readonly LineLook s_midnight = new("#777777", 2, 6, 5);
    private static readonly LineLook s_edge = new(OkabeIto.Black, 1.6f);

    /// <summary>The figure.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="date">The day that its moments count from.</param>
    /// <param name="units">Units; US customary ones tell times with am and pm.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(DayPlan plan, DateOnly date, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        DayRow[] rows = DayRow.Of(plan);
        string title = Title(plan, date, units);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, plan, date, rows, units, title, subtitle));
    }

    private static string Title(DayPlan plan, DateOnly date, DisplayUnits units)
    {
        string day = date.ToString("dddd yyyy-MM-dd", CultureInfo.InvariantCulture);
        if (plan.Finish is not { } finish)
            return $"Plan for {day}: nothing can be planned";
        string left = plan.Ready.Count < plan.Question.Batches.Count ? string.Create(CultureInfo.InvariantCulture, $", {plan.Question.Batches.Count - plan.Ready.Count} left out") : "";
        return $"Plan for {day}: done by {Clock(date, finish.Minutes, units, withDay: true)}{left}";
    }

    private static float Draw(FigureSheet sheet, DayPlan plan, DateOnly date, DayRow[] rows, DisplayUnits units, string title, string subtitle)
    {
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]);
        if (rows.Length == 0)
        {
            sheet.Text("There is nothing to draw.", Frame.MarginPx, top + 30, TextPx);
            return top + 70;
        }

        int legend = LegendRows.Draw(sheet, false, "", [.. DayLook.All.Where(look => plan.Entries.Any(look.Shows)).Select(look => new LegendEntry(look.Letter + " " + look.Words, new(look.Hex, 20)))], Frame.MarginPx, Width - Frame.MarginPx, top, TextPx);
        top += legend * LegendRows.RowPx + 16;
        double from = plan.Entries.Min(e => e.From.Minutes);
        double to = Math.Max(plan.Entries.Max(e => e.To.Minutes), from + 60);
        float X(double minute) => LeftPx + (float)((minute - from) / (to - from)) * (Width - RightPx - LeftPx);
        float bottom = top + rows.Sum(row => row.Lanes * LanePx + RowGapPx);
        DrawAxis(sheet, date, units, from, to, X, top, bottom);
        foreach (DayRow row in rows)
        {
            sheet.Line(Frame.MarginPx, top, Width - RightPx, top, s_grid);
            float middle = top + (row.Lanes * LanePx + RowGapPx) / 2;
            sheet.Text(FigureText.Fit(FigureText.Clean(row.Name), sheet.Font(TextPx), LeftPx - Frame.MarginPx - 14), Frame.MarginPx, middle, TextPx);
            foreach ((int lane, PlanEntry entry, double begin, double end) in row.Bars)
                Bar(sheet, entry, X(begin), X(end), top + RowGapPx / 2 + lane * LanePx);
            top += row.Lanes * LanePx + RowGapPx;
        }

        sheet.Line(LeftPx, bottom, Width - RightPx, bottom, s_edge);
        return bottom + AxisPx;
    }

    private static void Bar(FigureSheet sheet, PlanEntry entry, float left, float right, float top)
    {
        DayLook look = DayLook.Of(entry.Task);
        float bottom = top + LanePx - 4;
        float end = Math.Max(right, left + 3);
        sheet.Fill(left, top, end, bottom, look.Hex);
        sheet.Pieces(look.Pattern(left, top, end, bottom), new(look.InkHex, 1.4f));
        sheet.Pieces([(left, top, end, top), (end, top, end, bottom), (end, bottom, left, bottom), (left, bottom, left, top)], s_edge);

        string words = FigureText.Clean(look.Letter + (entry.Batches.Count == 0 ? "" : " " + string.Join(", ", entry.Batches)));
        float room = end - left - 12;
        string shown = sheet.Measure(words, 21) <= room ? words : sheet.Measure(look.Letter, 21) > room ? "" : room > 90 ? FigureText.Fit(words, sheet.Font(21), room) : look.Letter;
        if (shown.Length == 0)
            return;
        float width = sheet.Measure(shown, 21);
        if (look.HasPattern)
            sheet.Fill(left + 3, top + 5, left + 9 + width, bottom - 5, look.Hex);
        sheet.Text(shown, left + 6, (top + bottom) / 2, 21, hex: look.InkHex);
    }

    private static void DrawAxis(FigureSheet sheet, DateOnly date, DisplayUnits units, double from, double to, Func<double, float> x, float top, float bottom)
    {
        // Hours between words that do not touch.
        float wide = sheet.Measure(Clock(date, 22 * 60, units, withDay: false), TextPx) + 24;
        int step = s_hours.First(hours => (x(from + 60 * hours) - x(from)) >= wide || hours == 192);
        for (double minute = Math.Ceiling(from / (60 * step)) * 60 * step; minute <= to; minute += 60 * step)
        {
            string words = Clock(date, minute, units, withDay: false);
            float at = x(minute);
            bool midnight = minute % DayMin == 0;
            sheet.Line(at, top, at, bottom, midnight ? s_midnight : s_grid);
            float half = sheet.Measure(words, TextPx) / 2;
            if (at - half > Frame.MarginPx && at + half < Width - 4)
                sheet.Text(words, at - half, bottom + 24, TextPx);
        }

        for (double midnight = Math.Floor(from / DayMin) * DayMin; midnight < to; midnight += DayMin)
        {
            string day = date.AddDays((int)Math.Round(midnight / DayMin)).ToString("ddd d MMM", CultureInfo.InvariantCulture);
            float left = Math.Max(x(Math.Max(midnight, from)), LeftPx);
            float right = x(Math.Min(midnight + DayMin, to));
            if (right - left > sheet.Measure(day, TextPx) + 12)
                sheet.Text(day, left + 6, bottom + 60, TextPx);
        }
    }

    private static string Clock(DateOnly date, double minutes, DisplayUnits units, bool withDay)
    {
        DateTime at = date.ToDateTime(TimeOnly.MinValue).AddMinutes(Math.Round(minutes));
        string time = units == DisplayUnits.UsCustomary
            ? at.ToString("h:mm tt", CultureInfo.InvariantCulture).ToLowerInvariant()
            : at.ToString("HH:mm", CultureInfo.InvariantCulture);
        return withDay && DateOnly.FromDateTime(at) != date ? at.ToString("ddd ", CultureInfo.InvariantCulture) + time : time;
    }
}
