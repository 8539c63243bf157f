using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>Panels one above the other that share their horizontal axis, with marks named in a strip above the first.</summary>
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

    /// <summary>Draws the stack between two heights of the sheet.</summary>
    public void Draw(FigureSheet sheet, Frame frame, float top, float bottom)
    {
        float textPx = frame.TextPx;
        const float Left = Frame.MarginPx;
        float right = frame.Width - Frame.MarginPx;

        // The strip: each mark's words, with its line running down to the panels.
        string[] words = [.. Marks.Select(m => FigureText.Fit(m.Text, sheet.Font(textPx), frame.Widest))];
        float[] lines = [.. Marks.Select(m => Frame.DataLeftPx + (float)((m.X - XLimits.Low) / (XLimits.High - XLimits.Low)) * (frame.DataRightPx - Frame.DataLeftPx))];
        MarkStrip.Placed[] placed = MarkStrip.Place(lines, [.. words.Select(w => sheet.Measure(w, textPx))], Left, right);
        int rows = placed.Select(p => p.Row + 1).DefaultIfEmpty(0).Max();
        float strip = rows * StripRowPx + 6;

        // What the strip and the legends leave is shared by the data areas.
        int[] legendRows = [.. Panels.Select(p => LegendRows.Draw(sheet, true, p.Heading, [.. p.Legend], Left, right, 0, textPx))];
        float dataHeight = bottom - BelowDataPx - top - strip - legendRows.Sum() * LegendRows.RowPx - (Panels.Count - 1) * PanelGapPx;
        double perWeight = dataHeight / Panels.Sum(p => p.Weight);
        for (int i = 0; i < Panels.Count; i++)
        {
            // The strip stands between the first legend and the first data area, where its lines run on.
            float dataTop = top + legendRows[i] * LegendRows.RowPx + (i == 0 ? strip : 0);
            if (i == 0)
                DrawStrip(sheet, words, lines, placed, dataTop, textPx);
            PixelRect data = new(Frame.DataLeftPx, frame.DataRightPx, dataTop + (float)(perWeight * Panels[i].Weight), dataTop);
            LegendRows.Draw(sheet, false, Panels[i].Heading, [.. Panels[i].Legend], Left, right, top, textPx);
            Panels[i].Draw(sheet, data, XLimits, i == Panels.Count - 1, Spells, Marks, textPx, LogarithmicX);
            Panels[i].DrawMarginWords(sheet, data, textPx);
            if (EmptyWords.Length > 0)
                sheet.Text(EmptyWords, data.HorizontalCenter - sheet.Measure(EmptyWords, textPx) / 2, data.VerticalCenter, textPx);

            top = data.Bottom + PanelGapPx;
        }

        sheet.Text(XLabel, (Frame.DataLeftPx + frame.DataRightPx - sheet.Measure(XLabel, textPx)) / 2, bottom - 24, textPx);
    }

    private void DrawStrip(FigureSheet sheet, string[] words, float[] lines, MarkStrip.Placed[] placed, float bottom, float textPx)
    {
        for (int i = 0; i < Marks.Count; i++)
        {
            float y = bottom - 6 - (placed[i].Row + 0.5f) * StripRowPx;
            sheet.Line(lines[i], y - 11, lines[i], bottom, Marks[i].Look);
            sheet.Text(words[i], placed[i].Left, y, textPx);
        }
    }
}
