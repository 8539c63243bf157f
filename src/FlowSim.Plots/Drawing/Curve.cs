namespace FlowSim.Plots.Drawing;

/// <summary>A named curve of a panel, ready to draw: finite points, no more than the paper can show.</summary>
internal sealed class Curve
{
    // Per column of pixels the first, lowest, highest and last point are kept, which draws the same line.
    private const int Columns = 1500;

    private Curve(string name, LineLook look, double[] xs, double[] ys)
    {
        Name = name;
        Look = look;
        Xs = xs;
        Ys = ys;
    }

    public string Name { get; }

    public LineLook Look { get; }

    public double[] Xs { get; }

    public double[] Ys { get; }

    public double Highest => Ys.Length == 0 ? 0 : Ys.Max();

    /// <summary>Takes two columns; rows with anything but two finite numbers are left out.</summary>
    public static Curve Of(string name, LineLook look, IReadOnlyList<double> xs, double xPerSi, IReadOnlyList<double> ys, double yPerSi) =>
        Of(name, look, xs, xPerSi, ys, y => y * yPerSi);

    /// <summary>Takes two columns; rows with anything but two finite numbers are left out.</summary>
    public static Curve Of(string name, LineLook look, IReadOnlyList<double> xs, double xPerSi, IReadOnlyList<double> ys, Func<double, double> yOf)
    {
        List<double> keptXs = [];
        List<double> keptYs = [];
        for (int i = 0; i < Math.Min(xs.Count, ys.Count); i++)
        {
            double x = xs[i] * xPerSi;
            double y = yOf(ys[i]);
            if (!double.IsFinite(x) || !double.IsFinite(y))
                continue;

            keptXs.Add(x);
            keptYs.Add(y);
        }

        return Thinned(name, look, keptXs, keptYs);
    }

    private static Curve Thinned(string name, LineLook look, List<double> xs, List<double> ys)
    {
        if (xs.Count <= 4 * Columns || xs[^1] <= xs[0])
            return new Curve(name, look, [.. xs], [.. ys]);

        List<double> keptXs = [];
        List<double> keptYs = [];
        double perColumn = (xs[^1] - xs[0]) / Columns;
        for (int first = 0; first < xs.Count;)
        {
            double end = xs[first] + perColumn;
            int low = first;
            int high = first;
            int last = first;
            for (int i = first; i < xs.Count && xs[i] < end; i++)
            {
                if (ys[i] < ys[low])
                    low = i;
                if (ys[i] > ys[high])
                    high = i;
                last = i;
            }

            foreach (int i in new SortedSet<int> { first, low, high, last })
            {
                keptXs.Add(xs[i]);
                keptYs.Add(ys[i]);
            }

            first = last + 1;
        }

        return new Curve(name, look, [.. keptXs], [.. keptYs]);
    }
}
