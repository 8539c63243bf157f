using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using ScottPlot;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The two panels of one fitted series: readings with the fitted course, and below them how far off they lie.</summary>
/// <param name="fit">The series.</param>
/// <param name="time">Unit of the time axis.</param>
/// <param name="units">Units of the labels.</param>
internal sealed class FittedSeriesPanels(SeriesFit fit, TimeScale time, DisplayUnits units)
{
    /// <summary>Share of the height of the panels that the residuals take.</summary>
    private const double ResidualWeight = 0.5;

    // Engineering choices: readings further off are marked at the edge, where they would flatten all others.
    private const double OffScaleSpans = 0.6;
    private const double LeastResidual = 3.6;
    private const double MostResidual = 8;

    // What a constant reading spans, in units of its first figure: ticks then have three figures, which there is room for.
    private const double LeastSpan = 0.06;

    // Engineering choices: up to so many readings stand as rings, up to so many as dark points, further ones as pale ones.
    private const int MostRings = 80;
    private const int MostDark = 800;

    // Engineering choice: more outliers than these are drawn small and below the fit, which they would hide.
    private const int MostLargeOutliers = 60;

    // Of readings that lie within such a part of the panel one is drawn: two pixels or so.
    private const double Columns = 400;
    private const double Rows = 150;

    // Alpha in the last two digits: readings show through. The second is what that makes on white.
    private const string BandHex = "#0072B238";
    private const string BandOnWhiteHex = "#C7E0EE";

    private static readonly LineLook s_course = new(OkabeIto.Blue, 4f);
    private static readonly LineLook s_two = new("#444444", 2f, 9, 5);
    private static readonly LineLook s_zero = new(OkabeIto.Black, 2f);
    private static readonly LegendEntry s_outlier = new("outlier", null, MarkerShape.Eks, OkabeIto.Vermillion);
    private static readonly LegendEntry s_offScale = new("off the scale", null, MarkerShape.FilledTriangleUp, OkabeIto.Vermillion);

    private readonly Scale _scale = ObservableText.Scale(fit.Series.Quantity, units);
    private readonly FittedReading[] _readings = [.. fit.Readings.Where(r => double.IsFinite(r.At.Seconds) && double.IsFinite(r.Read))];
    private readonly (MarkerShape Shape, float SizePx, string Hex) _reading =
        fit.Readings.Count <= MostRings ? (MarkerShape.OpenCircle, 12, "#333333") : fit.Readings.Count <= MostDark ? (MarkerShape.FilledCircle, 7, "#333333") : (MarkerShape.FilledCircle, 4.5f, "#B4B4B4");

    /// <summary>What was read, with the name of its column.</summary>
    public string Name { get; } = ObservableText.Words(fit.Series.Quantity) + (fit.Series.Name.Length == 0 ? "" : ": " + FigureText.Clean(fit.Series.Name));

    /// <summary>How the series was met, for people.</summary>
    public string Sentence
    {
        get
        {
            List<string> parts = [Invariant($"{ChanceText.Thousands(fit.Readings.Count)} reading{(fit.Readings.Count == 1 ? "" : "s")}")];
            if (fit.Outliers > 0)
                parts.Add(Invariant($"{ChanceText.Thousands(fit.Outliers)} outlier{(fit.Outliers == 1 ? "" : "s")}"));
            if (double.IsFinite(fit.Noise))
                parts.Add("scatter " + WithUnit(fit.Noise));
            if (IsOff(fit.Clock.Value.Seconds, fit.Clock.Sd.Seconds))
                parts.Add(Invariant($"clock {FigureText.Short(Math.Abs(fit.Clock.Value.Seconds))}\u00A0±\u00A0{FigureText.Short(fit.Clock.Sd.Seconds)} s {(fit.Clock.Value.Seconds < 0 ? "ahead" : "behind")}"));
            if (IsOff(fit.Zero.Value, fit.Zero.Sd))
                parts.Add(Invariant($"zero of the scale off by {FigureText.Short(_scale.Of(fit.Zero.Value)).Replace('-', '−')}\u00A0±\u00A0{FigureText.Short(_scale.Of(fit.Zero.Sd))} {_scale.Unit}"));
            if (double.IsFinite(fit.Explained))
                parts.Add(Invariant($"the fit explains {Math.Max(0, 100 * fit.Explained):0.##} %"));
            if (fit.Inflation > 1.005 && double.IsFinite(fit.Inflation) && double.IsFinite(fit.Autocorrelation))
                parts.Add(Invariant($"neighbours go together ({fit.Autocorrelation:0.00}), so their variance counts {FigureText.Short(fit.Inflation)} times"));
            return string.Join(", ", parts) + ".";
        }
    }

    private LegendEntry[] Common => [new("95 % of new readings", new(BandOnWhiteHex, 20)), new("reading", null, _reading.Shape, _reading.Hex)];

    private bool FewOutliers => fit.Outliers <= MostLargeOutliers;

    /// <summary>Both panels.</summary>
    /// <param name="scrapes">When the cloth was scraped, in units of the axis.</param>
    /// <param name="heading">Heading of the first.</param>
    /// <param name="course">Name of the fitted course; empty where the lines are named elsewhere.</param>
    /// <param name="extra">What else the first one's legend names.</param>
    /// <param name="xLimits">Ends of the axis.</param>
    public IEnumerable<Panel> Panels(IReadOnlyList<double> scrapes, string heading, string course, IReadOnlyList<LegendEntry> extra, (double Low, double High) xLimits)
    {
        double xSpan = xLimits.High - xLimits.Low;
        (double low, double high) = ReadRange();
        double[] xs = [.. fit.Course.Select(p => p.At.Seconds / time.SecondsPerUnit)];
        LabelledPoint[] outliers = Apart(Outliers(r => _scale.Of(r.Read), low, high), xSpan, high - low);
        yield return new()
        {
            Heading = heading,
            YLabel = ObservableText.Label(fit.Series.Quantity) + ", " + _scale.Unit,
            Bands = [Band.Of("", BandHex, xs, 1, [.. fit.Course.Select(p => p.Low)], [.. fit.Course.Select(p => p.High)], _scale.Of)],
            Curves = [Curve.Of(course, s_course, xs, 1, [.. fit.Course.Select(p => p.Value)], _scale.PerSi)],
            PointsBelow = [.. Regular(r => _scale.Of(r.Read), xSpan, high - low), .. FewOutliers ? [] : outliers],
            Points = FewOutliers ? outliers : [],
            Triangles = scrapes,
            YRange = (low, high),
            ExtraLegend = [.. course.Length > 0 ? Common : [], .. Named(outliers), .. extra],
        };

        double most = _readings.Select(r => Math.Abs(r.Residual)).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        double half = Math.Clamp(1.15 * most, LeastResidual, MostResidual);
        LabelledPoint[] farOff = Apart(Outliers(r => r.Residual, -half, half), xSpan, 2 * half);
        double every = half > 4.2 ? 4 : 2;
        yield return new()
        {
            Heading = "Residuals" + (fit.Noise > 0 ? ", in scatters of " + WithUnit(fit.Noise) : ""),
            YLabel = "",
            Curves = [Curve.Of("", s_zero, [xLimits.Low, xLimits.High], 1, [0, 0], 1)],
            References = [(2, "", s_two), (-2, "", s_two)],
            PointsBelow = [.. Regular(r => r.Residual, xSpan, 2 * half), .. FewOutliers ? [] : farOff],
            Points = FewOutliers ? farOff : [],
            YRange = (-half, half),
            YTicks = [.. Enumerable.Range(-4, 9).Select(i => i * every).Where(y => Math.Abs(y) < 0.9 * half).Select(y => (y, Invariant($"{y:0}").Replace('-', '−')))],
            ExtraLegend = course.Length > 0 ? [new("2 scatters off", s_two)] : [],
            Weight = ResidualWeight,
        };
    }

    private static bool IsOff(double value, double deviation) => double.IsFinite(value) && double.IsFinite(deviation) && (value != 0 || deviation > 0);

    private static IEnumerable<LegendEntry> Named(LabelledPoint[] outliers)
    {
        if (outliers.Any(p => p.Marker == s_outlier.Marker))
            yield return s_outlier;
        if (outliers.Any(p => p.Marker != s_outlier.Marker))
            yield return s_offScale;
    }

    private string WithUnit(double si) => FigureText.Short(_scale.Of(si)) + " " + _scale.Unit;

    /// <summary>What the readings, outliers that are not too far off, and the band span.</summary>
    private (double Low, double High) ReadRange()
    {
        double[] inside =
        [
            .. _readings.Where(r => !r.IsOutlier).Select(r => _scale.Of(r.Read)),
            .. fit.Course.SelectMany(p => new[] { p.Low, p.Value, p.High }).Where(double.IsFinite).Select(_scale.Of),
        ];
        if (inside.Length == 0)
            inside = [.. _readings.Select(r => _scale.Of(r.Read)).DefaultIfEmpty(0)];
        double low = inside.Min();
        double high = inside.Max();
        double spare = OffScaleSpans * (high - low);
        double[] near = [.. _readings.Select(r => _scale.Of(r.Read)).Where(y => y >= low - spare && y <= high + spare)];
        low = Math.Min(low, near.DefaultIfEmpty(low).Min());
        high = Math.Max(high, near.DefaultIfEmpty(high).Max());
        double half = Math.Max(high - low, LeastSpan * Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(Math.Max(Math.Abs(low), Math.Abs(high))))))) / 2;
        return ((low + high) / 2 - 1.08 * half, (low + high) / 2 + 1.16 * half);
    }

    /// <summary>Readings that are no outliers; of those that would cover each other only one.</summary>
    private LabelledPoint[] Regular(Func<FittedReading, double> yOf, double xSpan, double ySpan) =>
        Apart(
            _readings.Where(r => !r.IsOutlier && double.IsFinite(yOf(r)))
                .Select(r => new LabelledPoint(r.At.Seconds / time.SecondsPerUnit, yOf(r), _reading.Shape, _reading.Hex, _reading.SizePx)),
            xSpan,
            ySpan);

    private static LabelledPoint[] Apart(IEnumerable<LabelledPoint> points, double xSpan, double ySpan) =>
        [.. points.DistinctBy(p => (Math.Round(p.X / xSpan * Columns), Math.Round(p.Y / ySpan * Rows)))];

    /// <summary>Readings that are outliers, at the edge where they lie beyond it.</summary>
    private IEnumerable<LabelledPoint> Outliers(Func<FittedReading, double> yOf, double low, double high)
    {
        foreach (FittedReading reading in _readings.Where(r => r.IsOutlier))
        {
            double y = yOf(reading);
            double edge = 0.055 * (high - low);
            MarkerShape shape = y > high ? MarkerShape.FilledTriangleUp : y < low ? MarkerShape.FilledTriangleDown : s_outlier.Marker;
            if (!double.IsNaN(y))
                yield return new(reading.At.Seconds / time.SecondsPerUnit, Math.Clamp(y, low + edge, high - edge), shape, OkabeIto.Vermillion, FewOutliers ? 16 : 8);
        }
    }
}
