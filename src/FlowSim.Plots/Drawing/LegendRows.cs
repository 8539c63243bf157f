using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>One entry of a legend.</summary>
/// <param name="Text">Name.</param>
/// <param name="Look">Line; null for none.</param>
/// <param name="Marker">Marker; <see cref="MarkerShape.None"/> for none.</param>
/// <param name="Hex">Colour of the marker.</param>
internal sealed record LegendEntry(string Text, LineLook? Look, MarkerShape Marker = MarkerShape.None, string Hex = OkabeIto.Black);

/// <summary>A legend in rows above its panel, where it covers nothing.</summary>
internal static class LegendRows
{
    public const float RowPx = 31;
    private const float SamplePx = 62;
    private const float GapPx = 26;

    /// <summary>Draws a heading and the entries after it, breaking into rows at the right edge.</summary>
    /// <returns>The number of rows; nothing is drawn when <paramref name="sheet"/> is only measured.</returns>
    public static int Draw(FigureSheet sheet, bool measureOnly, string heading, IReadOnlyList<LegendEntry> entries, float left, float right, float top, float size)
    {
        int rows = 1;
        float x = left;
        if (!measureOnly)
            sheet.Text(heading, x, top + RowPx / 2, size, bold: true);
        float indent = left;
        x += sheet.Measure(heading, size, bold: true) + GapPx;
        foreach (LegendEntry entry in entries)
        {
            float sample = entry.Look is null && entry.Marker != MarkerShape.None ? 24 : SamplePx;
            string text = FigureText.Fit(entry.Text, sheet.Font(size), right - left - sample - 8);
            float width = sample + 8 + sheet.Measure(text, size);
            if (x > indent && x + width > right)
            {
                rows++;
                x = indent;
            }

            if (!measureOnly)
            {
                float y = top + (rows - 0.5f) * RowPx;
                if (entry.Look is not null)
                    sheet.Line(x, y, x + sample, y, entry.Look);
                if (entry.Marker != MarkerShape.None)
                    sheet.Marker(x + sample / 2, y, entry.Marker, 15, entry.Hex);
                sheet.Text(text, x + sample + 8, y, size);
            }

            x += width + GapPx;
        }

        return rows;
    }
}
