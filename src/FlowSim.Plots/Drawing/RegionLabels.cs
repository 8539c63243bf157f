using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>Finds where words stand wholly within a region of a picture.</summary>
internal static class RegionLabels
{
    private const float StepPx = 5;

    // Room around the words, px: the widest that is to be had is taken, so that they stand well inside.
    private static readonly float[] s_rooms = [60, 44, 30, 20, 12, 6];

    /// <summary>A place for words, or null where the region is too narrow for them.</summary>
    /// <param name="area">The picture.</param>
    /// <param name="width">Width of the words, px.</param>
    /// <param name="height">Height of the words, px.</param>
    /// <param name="belongs">Whether a place of the picture, px, is of the region and free.</param>
    public static PixelRect? Place(PixelRect area, float width, float height, Func<float, float, bool> belongs)
    {
        int columns = (int)(area.Width / StepPx);
        int rows = (int)(area.Height / StepPx);

        // Sums over all places above and left, so that any rectangle is counted in four look-ups.
        int[,] sums = new int[columns + 1, rows + 1];
        (double sumX, double sumY) = (0, 0);
        for (int i = 0; i < columns; i++)
        {
            for (int j = 0; j < rows; j++)
            {
                bool inside = belongs(area.Left + (i + 0.5f) * StepPx, area.Top + (j + 0.5f) * StepPx);
                sums[i + 1, j + 1] = sums[i, j + 1] + sums[i + 1, j] - sums[i, j] + (inside ? 1 : 0);
                if (inside)
                    (sumX, sumY) = (sumX + i, sumY + j);
            }
        }

        int all = sums[columns, rows];
        foreach (float room in all == 0 ? [] : s_rooms)
        {
            int wide = (int)Math.Ceiling((width + 2 * room) / StepPx);
            int high = (int)Math.Ceiling((height + 2 * room) / StepPx);
            (int I, int J)? best = null;
            double nearest = double.PositiveInfinity;
            for (int i = 0; i + wide <= columns; i++)
            {
                for (int j = 0; j + high <= rows; j++)
                {
                    if (sums[i + wide, j + high] - sums[i, j + high] - sums[i + wide, j] + sums[i, j] != wide * high)
                        continue;

                    double dx = i + wide / 2.0 - sumX / all;
                    double dy = j + high / 2.0 - sumY / all;
                    if (dx * dx + dy * dy < nearest)
                        (best, nearest) = ((i, j), dx * dx + dy * dy);
                }
            }

            if (best is { } found)
            {
                float x = area.Left + (found.I + wide / 2f) * StepPx;
                float y = area.Top + (found.J + high / 2f) * StepPx;
                return new(x - width / 2, x + width / 2, y + height / 2, y - height / 2);
            }
        }

        return null;
    }
}
