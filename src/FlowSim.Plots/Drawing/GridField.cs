namespace FlowSim.Plots.Drawing;

/// <summary>Values at the crossings of a grid, linear between them in either direction and constant beyond its edges.</summary>
internal sealed class GridField
{
    private readonly IReadOnlyList<double> _xs;
    private readonly IReadOnlyList<double> _ys;
    private readonly IReadOnlyList<IReadOnlyList<double>> _rows;

    /// <summary>Takes a grid.</summary>
    /// <param name="xs">Places across, increasing; at least one.</param>
    /// <param name="ys">Places up, increasing; at least one.</param>
    /// <param name="rows">For each of <paramref name="ys"/> a value at each of <paramref name="xs"/>, finite.</param>
    public GridField(IReadOnlyList<double> xs, IReadOnlyList<double> ys, IReadOnlyList<IReadOnlyList<double>> rows) => (_xs, _ys, _rows) = (xs, ys, rows);

    public double At(double x, double y)
    {
        (int i, double u) = Place(_xs, x);
        (int j, double v) = Place(_ys, y);
        int i1 = Math.Min(i + 1, _xs.Count - 1);
        int j1 = Math.Min(j + 1, _ys.Count - 1);
        return Between(Between(_rows[j][i], _rows[j][i1], u), Between(_rows[j1][i], _rows[j1][i1], u), v);
    }

    /// <summary>Pieces of the line on which the field has a value, within a rectangle.</summary>
    /// <param name="level">The value.</param>
    /// <param name="x">Ends of the rectangle across.</param>
    /// <param name="y">Ends of the rectangle up.</param>
    public List<(double X1, double Y1, double X2, double Y2)> Contour(double level, (double Low, double High) x, (double Low, double High) y)
    {
        // Within a cell the line is a hyperbola: a few pieces to each cell follow it.
        const int LeastPieces = 64;
        double[] xs = Refined(_xs, x, 1 + LeastPieces / _xs.Count);
        double[] ys = Refined(_ys, y, 1 + LeastPieces / _ys.Count);
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
                    double a = At(xa, ya) - level;
                    double b = At(xb, yb) - level;
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

    private static double[] Refined(IReadOnlyList<double> places, (double Low, double High) ends, int pieces)
    {
        double[] coarse = [.. places.Where(p => p > ends.Low && p < ends.High).Prepend(ends.Low).Append(ends.High)];
        return [.. Enumerable.Range(0, (coarse.Length - 1) * pieces + 1).Select(k => Between(coarse[k / pieces], coarse[Math.Min(k / pieces + 1, coarse.Length - 1)], k % pieces / (double)pieces))];
    }

    private static (int Index, double Share) Place(IReadOnlyList<double> places, double at)
    {
        if (places.Count == 1 || at <= places[0])
            return (0, 0);
        if (at >= places[^1])
            return (places.Count - 2, 1);

        int i = 0;
        while (places[i + 1] < at)
            i++;
        return (i, (at - places[i]) / (places[i + 1] - places[i]));
    }

    private static double Between(double a, double b, double share) => a + (b - a) * share;
}
