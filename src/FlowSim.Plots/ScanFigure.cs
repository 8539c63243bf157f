using FlowSim.Plots.Drawing;
using ScottPlot;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of a scan: each output against the input that was varied, outputs of different units one panel above the other.</summary>
/// <remarks>A panel is logarithmic where all its values lie above 0 and differ by more than fifty times.</remarks>
public static class ScanFigure
{
    /// <summary>Width, px; the height goes with the number of panels.</summary>
    public const int Width = 1000;

    private const float PanelPx = 420;
    private const float SmallPanelPx = 330;
    private const double MostOnEvenAxis = 50;

    // Engineering choice: more would run together.
    private const int MostPointsMarked = 60;

    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 138);

    // Bands let each other through: alpha in the last two digits.
    private static readonly (LineLook Look, string BandHex)[] s_looks =
    [
        (new(OkabeIto.Blue, 4f), "#0072B238"),
        (new(OkabeIto.Vermillion, 4f, 16, 6), "#D55E0038"),
        (new("#007A59", 4f, 5, 4), "#009E7338"),
        (new(OkabeIto.Black, 3f, 18, 5, 4, 5), "#00000028"),
        (new(OkabeIto.ReddishPurple, 5f), "#CC79A738"),
        (new(OkabeIto.SkyBlue, 3f, 10, 3, 2, 3), "#56B4E938"),
    ];

    /// <summary>The figure.</summary>
    /// <param name="table">What came out, in the units it is to be shown in.</param>
    /// <exception cref="ArgumentException">A series has not as many values as there are of the input.</exception>
    public static DrawnFigure Of(ScanTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        foreach (ScanSeries series in table.Series)
        {
            if (series.Values.Count != table.X.Count || (series.Low?.Count ?? table.X.Count) != table.X.Count || (series.High?.Count ?? table.X.Count) != table.X.Count)
                throw new ArgumentException(Invariant($"The series '{series.Name}' must have as many values as the input: {table.X.Count}."), nameof(table));
        }

        string title = FigureText.Clean(table.Title);
        string subtitle = FigureText.Clean(table.Subtitle);
        Panel[] panels = Panels(table);
        int height = (int)(150 + (subtitle.Length > 0 ? 32 : 0) + Math.Max(1, panels.Length) * (panels.Length > 2 ? SmallPanelPx : PanelPx));
        return FigureSheet.Of(Width, height, FigureText.Whole(title, subtitle), sheet =>
        {
            float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]);
            Stack(table, panels).Draw(sheet, s_frame, top, height);
        });
    }

    private static PanelStack Stack(ScanTable table, Panel[] panels)
    {
        double[] xs = [.. Xs(table).Where(double.IsFinite)];
        double first = xs.DefaultIfEmpty(0).Min();
        double last = xs.DefaultIfEmpty(0).Max();
        double spare = last > first ? 0.02 * (last - first) : table.LogarithmicX ? 0.3 : Math.Max(0.05 * Math.Abs(last), 1e-9);
        double? nominal = table.Nominal is { } value ? table.LogarithmicX ? Math.Log10(value) : value : null;
        string unit = FigureText.Clean(table.XUnit);
        return new()
        {
            Panels = panels,
            XLimits = (first - spare, last + spare),
            LogarithmicX = table.LogarithmicX,
            XLabel = FigureText.Clean(table.XName) + (unit.Length > 0 ? ", " + unit : ""),
            Marks = nominal is { } at && at >= first - spare && at <= last + spare
                ? [new(at, Invariant($"your setup {table.Nominal:0.####}{(unit.Length > 0 ? " " + unit : "")}"), new("#555555", 1.8f, 6, 4))]
                : [],
            EmptyWords = panels.Length == 0 || xs.Length == 0 ? "There is nothing to draw." : "",
        };
    }

    private static double[] Xs(ScanTable table) => [.. table.X.Select(x => table.LogarithmicX ? x > 0 ? Math.Log10(x) : double.NaN : x)];

    private static Panel[] Panels(ScanTable table)
    {
        double[] xs = Xs(table);
        return [.. table.Series.GroupBy(s => s.Unit, StringComparer.Ordinal).Select(group => PanelOf([.. group], xs, group.Select(s => s.BandName).FirstOrDefault(name => name is not null) ?? table.BandName))];
    }

    private static Panel PanelOf(ScanSeries[] series, double[] xs, string bandName)
    {
        double[] all = [.. series
            .SelectMany(s => s.Values.Concat(s.Low ?? []).Concat(s.High ?? []).Concat(s.Limit is { } limit ? [limit] : []))
            .Where(double.IsFinite)];
        bool logarithmic = all.Length > 0 && all.Min() > 0 && all.Max() > MostOnEvenAxis * all.Min();
        double Y(double value) => logarithmic ? Math.Log10(value) : value;
        double[] Ys(IReadOnlyList<double> column) => [.. column.Select(Y)];

        List<Band> bands = [];
        List<Curve> curves = [];
        List<(double Y, string Text, LineLook Look)> limits = [];
        List<LabelledPoint> points = [];
        for (int i = 0; i < series.Length; i++)
        {
            (LineLook look, string bandHex) = s_looks[i % s_looks.Length];
            string name = series.Length == 1 ? "" : FigureText.Clean(series[i].Name);
            if (series[i] is { Low: { } low, High: { } high })
                bands.AddRange(Band.WithGaps("", bandHex, xs, Ys(low), Ys(high)));
            Curve[] parts = [.. Curve.WithGaps(name, look, xs, Ys(series[i].Values))];
            curves.AddRange(parts.Length > 0 ? parts : [Curve.Of((name + " (none)").TrimStart(), look, [], 1, [], 1)]);
            if (xs.Length <= MostPointsMarked)
                points.AddRange(xs.Zip(Ys(series[i].Values), (x, y) => new LabelledPoint(x, y, MarkerShape.FilledCircle, look.Hex, 10)));
            if (series[i].Limit is { } limit && double.IsFinite(limit))
                limits.Add((Y(limit), FigureText.Clean(series[i].LimitName), new(OkabeIto.Black, 2.5f, 14, 4, 3, 4)));
        }

        (double, double)? range = null;
        if (logarithmic)
        {
            double lowest = Math.Log10(all.Min());
            double highest = Math.Log10(all.Max());
            range = (lowest - 0.05 * (highest - lowest), highest + 0.05 * (highest - lowest));
        }

        // One series is named by the heading, several by the legend; beside wide numbers there is no room for the unit.
        string[] words = [series.Length == 1 ? Capital(FigureText.Clean(series[0].Name)) : "", FigureText.Clean(series[0].Unit)];
        return new()
        {
            Heading = string.Join(", ", words.Where(w => w.Length > 0)) + (logarithmic ? " (logarithmic)" : ""),
            YLabel = "",
            Bands = bands,
            Curves = curves,
            Points = [.. points.Where(p => double.IsFinite(p.X) && double.IsFinite(p.Y))],
            References = limits,
            LogarithmicY = logarithmic,
            YRange = range,
            ExtraLegend = bands.Count > 0 ? [new(FigureText.Clean(bandName), new("#BBBBBB", 20))] : [],
        };
    }

    private static string Capital(string words) => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..];
}
