using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>A point of a panel with words beside it.</summary>
/// <param name="X">Where, in units of the axis.</param>
/// <param name="Y">Where, in units of the axis.</param>
/// <param name="Marker">Shape.</param>
/// <param name="Hex">Colour.</param>
/// <param name="SizePx">Size of the marker, px.</param>
/// <param name="Text">Words; empty for none. They are left out where they would cover something, unless they are bold.</param>
/// <param name="Bold">Whether the words matter most: they are placed first.</param>
internal sealed record LabelledPoint(double X, double Y, MarkerShape Marker, string Hex, float SizePx, string Text = "", bool Bold = false);

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
        foreach ((LabelledPoint point, float x, float y) in points.Where(p => p.Point.Text.Length > 0).OrderByDescending(p => p.Point.Bold))
        {
            float width = sheet.Measure(point.Text, textPx, point.Bold);
            PixelRect[] places = [.. Places(x, y, width, textPx, point.SizePx / 2 + GapPx, point.Bold ? 12 : 1).Where(p => p.Left >= frame.Left + 4 && p.Right <= frame.Right - 4 && p.Top >= frame.Top + 4 && p.Bottom <= frame.Bottom - 4)];
            PixelRect? chosen = First(places, p => !taken.Any(t => Overlap(p, t)) && !lines.Any(l => Crosses(l, p)))
                ?? (point.Bold ? First(places, p => !taken.Any(t => Overlap(p, t))) : null);
            if (chosen is not { } place)
                continue;

            sheet.Text(point.Text, place.Left, place.VerticalCenter, textPx, point.Bold);
            taken.Add(place);
        }
    }

    private static PixelRect? First(PixelRect[] places, Func<PixelRect, bool> free)
    {
        foreach (PixelRect place in places)
        {
            if (free(place))
                return place;
        }

        return null;
    }

    /// <summary>Right, left, above, below and aslant of the point, then the same further away.</summary>
    private static IEnumerable<PixelRect> Places(float x, float y, float width, float textPx, float gap, int rings)
    {
        float half = 0.55f * textPx;
        for (int ring = 0; ring < rings; ring++)
        {
            float away = gap + ring * 10;
            (float Left, float Middle)[] corners =
            [
                (x + away, y), (x + away, y - away - half), (x + away, y + away + half),
                (x - width / 2, y - away - half), (x - width / 2, y + away + half),
                (x - away - width, y), (x - away - width, y - away - half), (x - away - width, y + away + half),
            ];
            foreach ((float left, float middle) in corners)
                yield return new(left, left + width, middle + half, middle - half);
        }
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
