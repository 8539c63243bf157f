using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of the times to drain and strain against temperature for some openings, each with its spread.</summary>
/// <remarks>A line ends where fewer than half of the runs get there, a band where fewer than nine in ten do.</remarks>
public static class StrainTimesFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1500;

    // Engineering choice: more bands than these hide each other.
    private const int MostOpenings = 4;

    // Engineering choice: times that differ by more are read better as ratios.
    private const double MostOnEvenAxis = 5;

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 104);

    // Bands let each other through: alpha in the last two digits.
    private static readonly (LineLook Look, string BandHex)[] s_looks =
    [
        (new(OkabeIto.Blue, 4f), "#0072B238"),
        (new(OkabeIto.Vermillion, 4f, 16, 6), "#D55E0038"),
        (new("#007A59", 4f, 5, 4), "#009E7338"),
        (new(OkabeIto.Black, 4f, 18, 5, 4, 5), "#00000028"),
    ];

    private static readonly (double Seconds, string Text)[] s_namedTimes =
    [
        .. Named("s", 1, [1, 2, 5, 10, 20, 30]), .. Named("min", 60, [1, 2, 3, 5, 10, 20, 30]), .. Named("h", 3600, [1, 2, 3, 5, 10]),
        .. Named("d", 86400, [1, 2, 3, 5, 10, 20, 50, 100, 200, 500]),
    ];

    /// <summary>The figure.</summary>
    /// <param name="map">The map.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskMap map, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(map);
        int[] openings = Chosen(map);
        string title = Title(map, openings, units);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet =>
        {
            float top = s_frame.DrawHeadings(sheet, title, [.. new[] { subtitle, Under(map, openings) }.Where(l => l.Length > 0)]);
            Stack(map, openings, units).Draw(sheet, s_frame, top, Height);
        });
    }

    private static IEnumerable<(double Seconds, string Text)> Named(string unit, double seconds, double[] counts) =>
        counts.Select(c => (c * seconds, Invariant($"{c:0} {unit}")));

    /// <summary>Openings that are drawn: evenly chosen, first and last included, and that of the setup where it was tried.</summary>
    private static int[] Chosen(RiskMap map)
    {
        int count = Math.Min(MostOpenings, map.Openings.Count);
        int[] chosen = [.. Enumerable.Range(0, count).Select(i => count == 1 ? 0 : (int)Math.Round(i * (map.Openings.Count - 1) / (count - 1.0)))];
        int own = map.Question.Setup.Control is FixedOpening { Opening: var opening }
            ? map.Openings.ToList().FindIndex(o => Math.Abs(o.Percent - opening.Percent) < 0.05)
            : -1;
        if (own >= 0 && count > 2 && !chosen.Contains(own))
            chosen[Enumerable.Range(1, count - 2).MinBy(i => Math.Abs(chosen[i] - own))] = own;
        return chosen;
    }

    private static string Title(RiskMap map, int[] openings, DisplayUnits units)
    {
        if (openings.Length == 0 || map.Cells.Count == 0)
            return "No times were kept";

        // The widest of them at which straining gets there.
        bool Strains(int opening) => map.Cells[0][opening].Strain.P50 is not null && map.Cells[^1][opening].Strain.P50 is not null;
        int widest = openings.Any(Strains) ? openings.Last(Strains) : openings[^1];
        string opening = Invariant($"{map.Openings[widest].Percent:0.#} % open");
        string At(int row) =>
            (map.Cells[row][widest].Strain.P50 is { } half ? RiskTitle.Moment(half) : "mostly never") + " at " + UnitScales.TemperatureText(units, map.Temperatures[row]);
        return "Strained " + opening + ": " + At(0) + (map.Cells.Count > 1 ? ", " + At(map.Cells.Count - 1) : "");
    }

    private static string Under(RiskMap map, int[] openings) =>
        map.Openings.Count > openings.Length && openings.Length > 0 ? Invariant($"{openings.Length} of {map.Openings.Count} openings; lines: half of the runs are there") : "Lines: half of the runs are there";

    private static PanelStack Stack(RiskMap map, int[] openings, DisplayUnits units)
    {
        double[] xs = [.. map.Temperatures.Select(t => UnitScales.Temperature(units, t.DegreesCelsius))];
        double longestS = map.Cells
            .SelectMany(row => openings.Select(o => row[o]))
            .SelectMany(cell => new[] { cell.Drain.P50, cell.Drain.P90, cell.Strain.P50, cell.Strain.P90 })
            .Select(t => t?.Seconds ?? 0).DefaultIfEmpty(0).Max();
        TimeScale time = TimeScale.For(longestS);
        double leastSpan = UnitScales.LeastTemperatureSpan(units);
        double first = xs.DefaultIfEmpty(0).Min();
        double last = xs.DefaultIfEmpty(0).Max();
        double spare = Math.Max(0, leastSpan - (last - first)) / 2 + 0.02 * (last - first);
        return new()
        {
            Panels =
            [
                Times("95 % drained", map, openings, xs, time, cell => cell.Drain, named: true),
                Times("95 % strained", map, openings, xs, time, cell => cell.Strain, named: false),
            ],
            XLimits = (first - spare, last + spare),
            XLabel = "Temperature of the honey at the start, " + UnitScales.TemperatureUnit(units),
            EmptyWords = longestS > 0 ? "" : "No run gets there.",
        };
    }

    /// <summary>Times that people name, as many as there is room for; places are logarithms of the axis' unit.</summary>
    private static (double Y, string Text)[] TimeTicks(double low, double high, TimeScale time)
    {
        const int MostTicks = 10;
        (double Seconds, string Text)[] within = [.. s_namedTimes.Where(t => t.Seconds >= 0.93 * low * time.SecondsPerUnit && t.Seconds <= 1.07 * high * time.SecondsPerUnit)];
        int every = (within.Length + MostTicks - 1) / MostTicks;
        return [.. within.Where((_, i) => i % Math.Max(1, every) == 0).Select(t => (Math.Log10(t.Seconds / time.SecondsPerUnit), t.Text))];
    }

    private static Panel Times(string heading, RiskMap map, int[] openings, double[] xs, TimeScale time, Func<RiskCell, TimeSpread> pick, bool named)
    {
        double At(Duration? moment) => moment is { Seconds: > 0 } t ? t.Seconds / time.SecondsPerUnit : double.NaN;
        double[][] Columns(Func<TimeSpread, Duration?> quantile) => [.. openings.Select(o => map.Cells.Select(row => At(quantile(pick(row[o])))).ToArray())];
        double[][] lows = Columns(t => t.P90 is null ? null : t.P10);
        double[][] middles = Columns(t => t.P50);
        double[][] highs = Columns(t => t.P90);
        double[] all = [.. lows.Concat(middles).Concat(highs).SelectMany(c => c).Where(double.IsFinite)];
        bool logarithmic = all.Length > 0 && all.Max() > MostOnEvenAxis * all.Min();
        double Y(double value) => logarithmic ? Math.Log10(value) : value;
        double[] Ys(double[] column) => [.. column.Select(Y)];

        List<Band> bands = [];
        List<Curve> curves = [];
        List<(double Y, string Text)> names = [];
        for (int i = 0; i < openings.Length; i++)
        {
            string name = Invariant($"{map.Openings[openings[i]].Percent:0.#} %");
            bands.AddRange(Band.WithGaps("", s_looks[i].BandHex, xs, Ys(lows[i]), Ys(highs[i])));
            curves.AddRange(Curve.WithGaps(named ? name + " open" : "", s_looks[i].Look, xs, Ys(middles[i])));
            if (middles[i].Length > 0 && double.IsFinite(middles[i][^1]))
                names.Add((Y(middles[i][^1]), name));
        }

        (double, double)? range = null;
        if (logarithmic)
        {
            double low = Math.Log10(all.Min());
            double high = Math.Log10(all.Max());
            range = (low - 0.05 * (high - low), high + 0.05 * (high - low));
        }

        return new()
        {
            // Names of times leave no room beside them.
            Heading = heading + (logarithmic ? " (logarithmic)" : ""),
            YLabel = logarithmic ? "" : "Time, " + time.Unit,
            Bands = bands,
            Curves = curves,
            EndNames = names,
            YTicks = logarithmic ? TimeTicks(all.Min(), all.Max(), time) : null,
            YRange = range,
            ExtraLegend = named && bands.Count > 0 ? [new("eight runs in ten", new("#BBBBBB", 20))] : [],
        };
    }
}
