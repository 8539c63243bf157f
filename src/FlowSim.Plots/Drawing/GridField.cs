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
        return ContourLine.Between(ContourLine.Between(_rows[j][i], _rows[j][i1], u), ContourLine.Between(_rows[j1][i], _rows[j1][i1], u), v);
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
        return ContourLine.Of(xs, ys, At, level);
    }

    private static double[] Refined(IReadOnlyList<double> places, (double Low, double High) ends, int pieces)
    {
        double[] coarse = [.. places.Where(p => p > ends.Low && p < ends.High).Prepend(ends.Low).Append(ends.High)];
        return [.. Enumerable.Range(0, (coarse.Length - 1) * pieces + 1).Select(k => ContourLine.Between(coarse[k / pieces], coarse[Math.Min(k / pieces + 1, coarse.Length - 1)], k % pieces / (double)pieces))];
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
}
