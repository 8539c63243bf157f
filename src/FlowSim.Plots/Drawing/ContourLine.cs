namespace FlowSim.Plots.Drawing;

/// <summary>The line on which a field over a grid has a value, cell by cell.</summary>
internal static class ContourLine
{
    /// <summary>Pieces of the line.</summary>
    /// <param name="xs">Places across, increasing: sides of the cells.</param>
    /// <param name="ys">Places up, increasing.</param>
    /// <param name="at">The field.</param>
    /// <param name="level">The value.</param>
    public static List<(double X1, double Y1, double X2, double Y2)> Of(double[] xs, double[] ys, Func<double, double, double> at, double level)
    {
        List<(double, double, double, double)> pieces = [];
        List<(double X, double Y)> crossings = new(4);
        for (int j = 0; j + 1 < ys.Length; j++)
        {
            for (int i = 0; i + 1 < xs.Length; i++)
            {
                (double X, double Y)[] corners = [(xs[i], ys[j]), (xs[i + 1], ys[j]), (xs[i + 1], ys[j + 1]), (xs[i], ys[j + 1])];
                crossings.Clear();
                for (int side = 0; side < 4; side++)
                {
                    (double xa, double ya) = corners[side];
                    (double xb, double yb) = corners[(side + 1) % 4];
                    double a = at(xa, ya) - level;
                    double b = at(xb, yb) - level;
                    if (a < 0 == b < 0)
                        continue;

                    double share = a / (a - b);
                    crossings.Add((Between(xa, xb, share), Between(ya, yb, share)));
                }

                // Two crossings, or four at a saddle, where either pairing will do.
                for (int k = 0; k + 1 < crossings.Count; k += 2)
                    pieces.Add((crossings[k].X, crossings[k].Y, crossings[k + 1].X, crossings[k + 1].Y));
            }
        }

        return pieces;
    }

    /// <summary>A value on the straight line between two.</summary>
    /// <param name="a">Value at 0.</param>
    /// <param name="b">Value at 1.</param>
    /// <param name="share">Share of the way.</param>
    public static double Between(double a, double b, double share) => a + (b - a) * share;
}
