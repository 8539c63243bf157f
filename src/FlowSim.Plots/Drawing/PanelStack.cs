using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>Panels one above the other that share their horizontal axis, with marks that have words named in a strip above the first.</summary>
internal sealed class PanelStack
{
    private const float StripRowPx = 31;
    private const float BelowDataPx = 84;
    private const float PanelGapPx = 18;

    public required IReadOnlyList<Panel> Panels { get; init; }

    public required (double Low, double High) XLimits { get; init; }

    public required string XLabel { get; init; }

    /// <summary>Whether all horizontal places are logarithms to base 10 of what the axis says.</summary>
    public bool LogarithmicX { get; init; }

    public IReadOnlyList<TimeSpell> Spells { get; init; } = [];

    public IReadOnlyList<TimeMark> Marks { get; init; } = [];

    /// <summary>What stands in every panel when there is nothing to draw; empty for nothing.</summary>
    public string EmptyWords { get; init; } = "";

    /// <summary>Height that the stack takes when its data areas together have a given one, px.</summary>
    /// <param name="sheet">A sheet, to measure on.</param>
    /// <param name="frame">Where things stand.</param>
    /// <param name="dataPx">Height of the data areas together.</param>
    public float HeightPx(FigureSheet sheet, Frame frame, float dataPx) => dataPx + LayOut(sheet, frame).AroundDataPx;

    /// <summary>Draws the stack between two heights of the sheet.</summary>
    public void Draw(FigureSheet sheet, Frame frame, float top, float bottom)
    {
        float textPx = frame.TextPx;
        Layout layout = LayOut(sheet, frame);

        // What the strip and the legends leave is shared by the data areas.
        double perWeight = (bottom - top - layout.AroundDataPx) / Panels.Sum(p => p.Weight);
        for (int i = 0; i < Panels.Count; i++)
        {
            // The strip stands between the first legend and the first data area, where its lines run on.
            float dataTop = top + layout.LegendRows[i] * LegendRows.RowPx + (i == 0 ? layout.StripPx : 0);
            if (i == 0)
                DrawStrip(sheet, layout, dataTop, textPx);
            PixelRect data = new(Frame.DataLeftPx, frame.DataRightPx, dataTop + (float)(perWeight * Panels[i].Weight), dataTop);
            LegendRows.Draw(sheet, false, Panels[i].Heading, [.. Panels[i].Legend], Frame.MarginPx, frame.Width - Frame.MarginPx, top, textPx);
            Panels[i].Draw(sheet, data, XLimits, i == Panels.Count - 1, Spells, Marks, textPx, LogarithmicX);
            Panels[i].DrawMarginWords(sheet, data, textPx);
            if (EmptyWords.Length > 0)
                sheet.Text(EmptyWords, data.HorizontalCenter - sheet.Measure(EmptyWords, textPx) / 2, data.VerticalCenter, textPx);

            top = data.Bottom + PanelGapPx;
        }

        sheet.Text(XLabel, (Frame.DataLeftPx + frame.DataRightPx - sheet.Measure(XLabel, textPx)) / 2, bottom - 24, textPx);
    }

    private Layout LayOut(FigureSheet sheet, Frame frame)
    {
        const float Left = Frame.MarginPx;
        float right = frame.Width - Frame.MarginPx;

        // The strip: the words of each mark that has some, with its line running down to the panels.
        TimeMark[] named = [.. Marks.Where(m => m.Text.Length > 0)];
        string[] words = [.. named.Select(m => FigureText.Fit(m.Text, sheet.Font(frame.TextPx), frame.Widest))];
        float[] lines = [.. named.Select(m => Frame.DataLeftPx + (float)((m.X - XLimits.Low) / (XLimits.High - XLimits.Low)) * (frame.DataRightPx - Frame.DataLeftPx))];
        MarkStrip.Placed[] placed = MarkStrip.Place(lines, [.. words.Select(w => sheet.Measure(w, frame.TextPx))], Left, right);
        int rows = placed.Select(p => p.Row + 1).DefaultIfEmpty(0).Max();
        float strip = rows * StripRowPx + 6;
        int[] legendRows = [.. Panels.Select(p => LegendRows.Draw(sheet, true, p.Heading, [.. p.Legend], Left, right, 0, frame.TextPx))];
        float around = BelowDataPx + strip + legendRows.Sum() * LegendRows.RowPx + (Panels.Count - 1) * PanelGapPx;
        return new(named, words, lines, placed, strip, legendRows, around);
    }

    private static void DrawStrip(FigureSheet sheet, Layout layout, float bottom, float textPx)
    {
        for (int i = 0; i < layout.Named.Length; i++)
        {
            float y = bottom - 6 - (layout.Placed[i].Row + 0.5f) * StripRowPx;
            sheet.Line(layout.Lines[i], y - 11, layout.Lines[i], bottom, layout.Named[i].Look);
            sheet.Text(layout.Words[i], layout.Placed[i].Left, y, textPx);
        }
    }

    private sealed record Layout(TimeMark[] Named, string[] Words, float[] Lines, MarkStrip.Placed[] Placed, float StripPx, int[] LegendRows, float AroundDataPx);
}
