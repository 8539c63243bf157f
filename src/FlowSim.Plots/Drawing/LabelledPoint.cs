using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>A point of a panel with words beside it.</summary>
/// <param name="X">Where, in units of the axis.</param>
/// <param name="Y">Where, in units of the axis.</param>
/// <param name="Marker">Shape.</param>
/// <param name="Hex">Colour.</param>
/// <param name="SizePx">Size of the marker, px.</param>
/// <param name="Text">Words; empty for none. They are left out where they would cover something.</param>
/// <param name="Prominent">Whether the words come first, and stand in a crowd too, where it is not plain which point words belong to.</param>
internal sealed record LabelledPoint(double X, double Y, MarkerShape Marker, string Hex, float SizePx, string Text = "", bool Prominent = false);

/// <summary>Puts words beside points so that they cover neither data nor each other.</summary>
internal static class PointLabels
{
    private const float GapPx = 6;

    /// <summary>Draws markers and as many of their words as find room within a frame.</summary>
    /// <param name="sheet">Sheet.</param>
    /// <param name="frame">Where words may stand.</param>
    /// <param name="points">Points with their places, px.</param>
    /// <param name="lines">Straight pieces that words stay off, px.</param>
    /// <param name="textPx">Size of the words.</param>
    public static void Draw(FigureSheet sheet, PixelRect frame, IReadOnlyList<(LabelledPoint Point, float X, float Y)> points, IReadOnlyList<(float X1, float Y1, float X2, float Y2)> lines, float textPx)
    {
        foreach ((LabelledPoint point, float x, float y) in points)
            sheet.Marker(x, y, point.Marker, point.SizePx, point.Hex);

        List<PixelRect> taken = [.. points.Select(p => Around(p.X, p.Y, p.Point.SizePx / 2 + 2))];
        bool Crowded(float x, float y) => points.Any(p => p.Point.Text.Length > 0 && (p.X, p.Y) != (x, y) && Math.Max(Math.Abs(p.X - x), Math.Abs(p.Y - y)) < textPx);
        foreach ((LabelledPoint point, float x, float y) in points.Where(p => p.Point.Text.Length > 0).OrderByDescending(p => p.Point.Prominent))
        {
            if (!point.Prominent && Crowded(x, y))
                continue;

            foreach (PixelRect place in Places(x, y, sheet.Measure(point.Text, textPx), textPx, point.SizePx / 2 + GapPx))
            {
                bool within = place.Left >= frame.Left + 4 && place.Right <= frame.Right - 4 && place.Top >= frame.Top + 4 && place.Bottom <= frame.Bottom - 4;
                if (!within || taken.Any(t => Overlap(place, t)) || lines.Any(l => Crosses(l, place)))
                    continue;

                sheet.Text(point.Text, place.Left, place.VerticalCenter, textPx);
                taken.Add(place);
                break;
            }
        }
    }

    /// <summary>Right, left, above, below and aslant of the point.</summary>
    private static IEnumerable<PixelRect> Places(float x, float y, float width, float textPx, float gap)
    {
        float half = 0.55f * textPx;
        (float Left, float Middle)[] corners =
        [
            (x + gap, y), (x - width / 2, y - gap - half), (x - width / 2, y + gap + half), (x - gap - width, y),
            (x + gap, y - gap - half), (x + gap, y + gap + half), (x - gap - width, y - gap - half), (x - gap - width, y + gap + half),
        ];
        foreach ((float left, float middle) in corners)
            yield return new(left, left + width, middle + half, middle - half);
    }

    private static PixelRect Around(float x, float y, float half) => new(x - half, x + half, y + half, y - half);

    private static bool Overlap(PixelRect a, PixelRect b) => a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom;

    /// <summary>Whether a piece passes through a rectangle: cut to it (Liang and Barsky), something is left.</summary>
    private static bool Crosses((float X1, float Y1, float X2, float Y2) piece, PixelRect rect)
    {
        float dx = piece.X2 - piece.X1;
        float dy = piece.Y2 - piece.Y1;
        float from = 0;
        float to = 1;
        foreach ((float p, float q) in (ReadOnlySpan<(float, float)>)[(-dx, piece.X1 - rect.Left), (dx, rect.Right - piece.X1), (-dy, piece.Y1 - rect.Top), (dy, rect.Bottom - piece.Y1)])
        {
            if (p == 0)
            {
                if (q < 0)
                    return false;
            }
            else if (p < 0)
            {
                from = Math.Max(from, q / p);
            }
            else
            {
                to = Math.Min(to, q / p);
            }
        }

        return from <= to;
    }
}
