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

    /// <summary>Takes two columns and leaves a gap where a row has anything but two finite numbers: one curve for each stretch, the first of them named.</summary>
    public static IEnumerable<Curve> WithGaps(string name, LineLook look, IReadOnlyList<double> xs, IReadOnlyList<double> ys)
    {
        int rows = Math.Min(xs.Count, ys.Count);
        foreach ((int first, int end) in Stretches(rows, i => double.IsFinite(xs[i]) && double.IsFinite(ys[i])))
        {
            yield return Of(name, look, [.. xs.Take(end).Skip(first)], 1, [.. ys.Take(end).Skip(first)], 1);
            name = "";
        }
    }

    /// <summary>The stretches of rows for which something holds, each with its first row and the one after its last.</summary>
    public static IEnumerable<(int First, int End)> Stretches(int rows, Func<int, bool> holds)
    {
        for (int first = 0; first < rows; first++)
        {
            if (!holds(first))
                continue;

            int end = first + 1;
            while (end < rows && holds(end))
                end++;
            yield return (first, end);
            first = end;
        }
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
