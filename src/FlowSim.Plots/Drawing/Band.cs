using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>A filled area between two curves, ready to draw: finite rows, no more than the paper can show.</summary>
internal sealed class Band
{
    // Engineering choice: two rows for every pixel or so.
    private const int MostRows = 1500;

    private Band(string name, string hex, double[] xs, double[] lows, double[] highs)
    {
        Name = name;
        Hex = hex;
        Xs = xs;
        Lows = lows;
        Highs = highs;
    }

    public string Name { get; }

    public string Hex { get; }

    public double[] Xs { get; }

    public double[] Lows { get; }

    public double[] Highs { get; }

    public Coordinates[] Outline =>
        [.. Xs.Select((x, i) => new Coordinates(x, Lows[i])), .. Xs.Select((x, i) => new Coordinates(x, Highs[i])).Reverse()];

    /// <summary>Takes three columns; rows with anything but finite numbers are left out.</summary>
    public static Band Of(string name, string hex, IReadOnlyList<double> xs, double xPerSi, IReadOnlyList<double> lows, IReadOnlyList<double> highs, Func<double, double> yOf)
    {
        int rows = Math.Min(xs.Count, Math.Min(lows.Count, highs.Count));
        int every = Math.Max(1, (rows + MostRows - 1) / MostRows);
        int[] kept = [.. Enumerable.Range(0, rows)
            .Where(i => i % every == 0 || i == rows - 1)
            .Where(i => double.IsFinite(xs[i]) && double.IsFinite(lows[i]) && double.IsFinite(highs[i]))];
        return new Band(name, hex, [.. kept.Select(i => xs[i] * xPerSi)], [.. kept.Select(i => yOf(lows[i]))], [.. kept.Select(i => yOf(highs[i]))]);
    }

    /// <summary>Takes three columns and leaves a gap where a row has anything but finite numbers: one band for each stretch, the first of them named.</summary>
    public static IEnumerable<Band> WithGaps(string name, string hex, IReadOnlyList<double> xs, IReadOnlyList<double> lows, IReadOnlyList<double> highs)
    {
        int rows = Math.Min(xs.Count, Math.Min(lows.Count, highs.Count));
        foreach ((int first, int end) in Curve.Stretches(rows, i => double.IsFinite(xs[i]) && double.IsFinite(lows[i]) && double.IsFinite(highs[i])))
        {
            yield return Of(name, hex, [.. xs.Take(end).Skip(first)], 1, [.. lows.Take(end).Skip(first)], [.. highs.Take(end).Skip(first)], y => y);
            name = "";
        }
    }
}
