using System.Globalization;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace FlowSim.Plots.Drawing;

/// <summary>One set of axes of a figure, drawn by ScottPlot, with its words around it.</summary>
internal sealed class Panel
{
    public required string Heading { get; init; }

    public required string YLabel { get; init; }

    public IReadOnlyList<Band> Bands { get; init; } = [];

    public IReadOnlyList<Curve> Curves { get; init; } = [];

    public IReadOnlyList<Whisker> Whiskers { get; init; } = [];

    public IReadOnlyList<LabelledPoint> Points { get; init; } = [];

    /// <summary>Points without words that lie under bands and curves, which are to let them through; the range is to be given.</summary>
    public IReadOnlyList<LabelledPoint> PointsBelow { get; init; } = [];

    public IReadOnlyList<LegendEntry> ExtraLegend { get; init; } = [];

    /// <summary>Levels that have a name of their own; it stands in the right margin.</summary>
    public IReadOnlyList<(double Y, string Text, LineLook Look)> References { get; init; } = [];

    /// <summary>Words in the right margin at the height where a curve ends.</summary>
    public IReadOnlyList<(double Y, string Text)> EndNames { get; init; } = [];

    /// <summary>Moments marked with a triangle at the top of the panel.</summary>
    public IReadOnlyList<double> Triangles { get; init; } = [];

    public double? FixedTop { get; init; }

    /// <summary>Whether all vertical places are logarithms to base 10 of what the axis says.</summary>
    public bool LogarithmicY { get; init; }

    /// <summary>Names on the vertical axis; null for numbers.</summary>
    public IReadOnlyList<(double Y, string Text)>? YTicks { get; init; }

    /// <summary>Ends of the vertical axis; null to find them from what is drawn.</summary>
    public (double Low, double High)? YRange { get; init; }

    /// <summary>Share of the height left free below zero.</summary>
    public double BelowZero { get; init; } = 0.04;

    /// <summary>When the axis need not begin at zero: the least it spans, in its unit.</summary>
    public double? LeastSpan { get; init; }

    /// <summary>Share of the height of a stack.</summary>
    public double Weight { get; init; } = 1;

    public IEnumerable<LegendEntry> Legend =>
        Curves.Select(c => new LegendEntry(c.Name, c.Look)).Concat(Bands.Select(b => new LegendEntry(b.Name, new(b.Hex, 20)))).Where(e => e.Text.Length > 0).Concat(ExtraLegend);

    public (double Low, double High) YLimits()
    {
        if (YRange is { } range)
            return range;

        double[] drawn = [.. Curves.SelectMany(c => c.Ys)
            .Concat(Bands.SelectMany(b => b.Lows.Concat(b.Highs)))
            .Concat(Whiskers.SelectMany(w => new[] { w.Low, w.High }))
            .Concat(References.Select(r => r.Y))
            .Concat(Points.Select(p => p.Y))
            .Where(double.IsFinite)];
        if (LeastSpan is { } leastSpan)
        {
            double lowest = drawn.DefaultIfEmpty(0).Min();
            double highest = drawn.DefaultIfEmpty(0).Max();
            double middle = (lowest + highest) / 2;
            double half = Math.Max(highest - lowest, leastSpan) / 2;
            return (middle - 1.1 * half, middle + 1.16 * half);
        }

        double high = FixedTop ?? drawn.DefaultIfEmpty(0).Max();
        double low = FixedTop is null ? drawn.DefaultIfEmpty(0).Min() : 0;
        if (low < 0)
        {
            double span = Math.Max(high, 0) - low;
            return (low - 0.08 * span, Math.Max(high, 0) + 0.08 * span);
        }

        if (!(high > 0))
            high = 1;
        return (-BelowZero * high, high * 1.08);
    }

    /// <summary>Draws axes, spells, curves and lines; the data area is <paramref name="data"/> exactly.</summary>
    public void Draw(FigureSheet sheet, PixelRect data, (double Low, double High) xLimits, bool xTickLabels, IReadOnlyList<TimeSpell> spells, IReadOnlyList<TimeMark> marks, float tickSize, bool logarithmicX = false)
    {
        (double low, double high) = YLimits();
        double highestNamed = high - (high - low) * 0.55 * tickSize / data.Height;
        using Plot plot = new();
        AxesStyle.Apply(plot, tickSize, xTickLabels);
        plot.Axes.SetLimits(xLimits.Low, xLimits.High, low, high);
        AxesStyle.KeepBelowHeading(plot, highestNamed);
        if (LogarithmicY)
            plot.Axes.Left.TickGenerator = AxesStyle.LogTicks(low, high, data.Height / 40, highestNamed);
        if (YTicks is { } named)
            plot.Axes.Left.TickGenerator = new NumericManual([.. named.Where(t => t.Y <= highestNamed).Select(t => new Tick(t.Y, t.Text))]);
        if (logarithmicX)
            plot.Axes.Bottom.TickGenerator = AxesStyle.LogTicks(xLimits.Low, xLimits.High, data.Width / 110);
        foreach (TimeSpell spell in spells)
            AddArea(plot, [new(spell.From, low), new(spell.To, low), new(spell.To, high), new(spell.From, high)], spell.Hex);
        foreach (var alike in PointsBelow.GroupBy(p => (p.Marker, p.Hex, p.SizePx)))
        {
            var points = plot.Add.ScatterPoints(alike.Select(p => new Coordinates(p.X, p.Y)).ToArray(), Color.FromHex(alike.Key.Hex));
            points.MarkerStyle = new MarkerStyle(alike.Key.Marker, alike.Key.SizePx, Color.FromHex(alike.Key.Hex)) { LineWidth = 2.5f };
        }

        foreach (Band band in Bands)
            AddArea(plot, band.Outline, band.Hex);
        foreach (TimeMark mark in marks)
            AddLine(plot, mark.X, low, mark.X, high, mark.Look);
        foreach ((double y, _, LineLook look) in References)
            AddLine(plot, xLimits.Low, y, xLimits.High, y, look);
        foreach (Curve curve in Curves)
        {
            if (curve.Xs.Length == 0)
                continue;

            var scatter = plot.Add.Scatter(curve.Xs, curve.Ys);
            scatter.LineWidth = curve.Look.WidthPx;
            scatter.LinePattern = curve.Look.Pattern;
            scatter.Color = curve.Look.Color;
            scatter.MarkerSize = curve.Xs.Length == 1 ? 12 : 0;
        }

        float XPx(double x) => data.Left + (float)((x - xLimits.Low) / (xLimits.High - xLimits.Low)) * data.Width;
        float YPx(double y) => data.Bottom - (float)((y - low) / (high - low)) * data.Height;
        PixelRect outer = new(0, sheet.Width, data.Bottom + (xTickLabels ? 60 : 10), data.Top - 5);
        plot.Layout.Fixed(new PixelPadding(data.Left, sheet.Width - data.Right, outer.Bottom - data.Bottom, data.Top - outer.Top));
        sheet.Render(plot, outer);
        foreach (double x in Triangles)
        {
            if (x >= xLimits.Low && x <= xLimits.High)
                sheet.Marker(XPx(x), data.Top + 11, MarkerShape.FilledTriangleDown, 15, OkabeIto.Black);
        }

        foreach (Whisker whisker in Whiskers)
            whisker.Draw(sheet, XPx(whisker.X), YPx);

        // Words of points stay off everything drawn as a line.
        List<(float, float, float, float)> lines = [.. Whiskers.Select(w => (XPx(w.X), YPx(w.Low), XPx(w.X), YPx(w.High)))];
        lines.AddRange(References.Select(r => (data.Left, YPx(r.Y), data.Right, YPx(r.Y))));
        lines.AddRange(marks.Select(m => (XPx(m.X), data.Top, XPx(m.X), data.Bottom)));
        foreach (Curve curve in Curves)
            lines.AddRange(Enumerable.Range(1, Math.Max(0, curve.Xs.Length - 1)).Select(i => (XPx(curve.Xs[i - 1]), YPx(curve.Ys[i - 1]), XPx(curve.Xs[i]), YPx(curve.Ys[i]))));
        PointLabels.Draw(sheet, data, [.. Points.Where(p => double.IsFinite(p.X) && double.IsFinite(p.Y)).Select(p => (p, XPx(p.X), YPx(p.Y)))], lines, tickSize);
    }

    /// <summary>Writes the axis label on the left and the names of the levels on the right, moved apart where they would touch.</summary>
    public void DrawMarginWords(FigureSheet sheet, PixelRect data, float textPx)
    {
        sheet.TextUpward(YLabel, 26, data.VerticalCenter, textPx);
        (double low, double high) = YLimits();
        (double Y, string Text)[] levels = [.. References.Select(r => (r.Y, r.Text)).Concat(EndNames).OrderByDescending(r => r.Y)];
        float[] ys = [.. levels.Select(l => data.Bottom - (float)((l.Y - low) / (high - low)) * data.Height)];
        float apart = textPx + 2;
        for (int i = 1; i < ys.Length; i++)
            ys[i] = Math.Max(ys[i], ys[i - 1] + apart);

        // What was pushed out at the foot pushes back.
        for (int i = ys.Length - 1; i >= 0; i--)
            ys[i] = Math.Min(ys[i], data.Bottom - (ys.Length - 1 - i) * apart);
        for (int i = 0; i < ys.Length; i++)
            sheet.Text(levels[i].Text, data.Right + 10, ys[i], textPx);
    }

    private static void AddArea(Plot plot, Coordinates[] outline, string hex)
    {
        if (outline.Length < 3)
            return;

        var area = plot.Add.Polygon(outline);
        area.FillColor = Color.FromHex(hex);
        area.LineWidth = 0;
    }

    private static void AddLine(Plot plot, double x1, double y1, double x2, double y2, LineLook look)
    {
        var line = plot.Add.Line(x1, y1, x2, y2);
        line.LineWidth = look.WidthPx;
        line.LinePattern = look.Pattern;
        line.Color = look.Color;
        line.MarkerSize = 0;
    }
}

/// <summary>How the axes of all panels look.</summary>
internal static class AxesStyle
{
    public static void Apply(Plot plot, float tickSize, bool xTickLabels)
    {
        plot.FigureBackground.Color = Colors.Transparent;
        plot.DataBackground.Color = Colors.Transparent;
        plot.Grid.MajorLineColor = Color.FromHex("#E4E4E4");
        plot.Grid.MajorLineWidth = 1;
        foreach (IAxis axis in plot.Axes.GetAxes())
        {
            axis.TickLabelStyle.FontName = FigureFont.Family;
            axis.TickLabelStyle.FontSize = tickSize;
            axis.FrameLineStyle.Width = 1.5f;

            // ScottPlot centres the line box, whose room below the baseline digits do not use.
            if (axis is IYAxis)
                axis.TickLabelStyle.OffsetY = 0.17f * tickSize;
        }

        plot.Axes.Left.TickGenerator = Numeric(46);
        plot.Axes.Bottom.TickGenerator = Numeric(95);
        plot.Axes.Bottom.TickLabelStyle.IsVisible = xTickLabels;
    }

    /// <summary>A label at the very top would stand in the panel's heading: its tick goes unnamed.</summary>
    public static void KeepBelowHeading(Plot plot, double highest)
    {
        if (plot.Axes.Left.TickGenerator is not NumericAutomatic ticks)
            return;
        Func<double, string> usual = ticks.LabelFormatter;
        ticks.LabelFormatter = value => value > highest ? "" : usual(value);
    }

    /// <summary>Ticks of an axis whose places are logarithms to base 10: at 1, 2 and 5 of each decade, where there is no room for these at 1 alone.</summary>
    /// <param name="low">Low end, logarithm.</param>
    /// <param name="high">High end, logarithm.</param>
    /// <param name="most">Names that there is room for.</param>
    /// <param name="highestNamed">Ticks above it go unnamed, logarithm.</param>
    public static NumericManual LogTicks(double low, double high, double most, double highestNamed = double.PositiveInfinity)
    {
        NumericManual ticks = new();
        double decades = high - low;
        int everyDecade = Math.Max(1, (int)Math.Ceiling(decades / most));
        int[] named = 3 * decades <= most ? [1, 2, 5] : 2 * decades <= most ? [1, 3] : [1];
        for (int decade = (int)Math.Floor(low); decade <= high; decade++)
        {
            for (int digit = 1; digit <= 9; digit++)
            {
                double place = decade + Math.Log10(digit);
                if (place < low - 1e-9 || place > high + 1e-9)
                    continue;

                if (named.Contains(digit) && decade % everyDecade == 0 && place <= highestNamed)
                    ticks.AddMajor(place, (digit * Math.Pow(10, decade)).ToString("0.#########", CultureInfo.InvariantCulture));
                else
                    ticks.AddMinor(place);
            }
        }

        return ticks;
    }

    private static NumericAutomatic Numeric(float spacingPx) => new()
    {
        MinimumTickSpacing = spacingPx,
        LabelFormatter = value => Math.Round(value, 9).ToString("0.#######", CultureInfo.InvariantCulture),
    };
}
