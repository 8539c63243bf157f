using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using ScottPlot;
using ScottPlot.TickGenerators;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The map of the chance of an overflow over openings and temperatures, with the line of the tolerance.</summary>
/// <remarks>The line is drawn by the best estimates. Between the openings and temperatures that were tried, the standard normal quantile of the chance is taken as even.</remarks>
public static class RiskMapFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1100;

    private const float TextPx = 24;
    private const float RightPx = 44;
    private const float BelowDataPx = 88;
    private const float SwatchPx = 44;

    // Engineering choice: more points than these would cover the map.
    private const int MostPointsMarked = 400;

    private static readonly Frame s_frame = new(Width, Height, TextPx, RightPx);
    private static readonly LineLook s_tolerance = new(OkabeIto.Black, 5f);
    private static readonly LineLook s_edge = new("#999999", 1.2f);
    private static readonly LineLook s_halo = new("#FFFFFF", 10f);

    /// <summary>The figure.</summary>
    /// <param name="map">The map.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskMap map, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(map);
        string title = Title(map);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, map, units, title, subtitle));
    }

    private static bool IsDrawable(RiskMap map) =>
        map.Openings.Count > 0 && map.Temperatures.Count > 0 && map.Cells.Count == map.Temperatures.Count
        && map.Cells.All(row => row.Count == map.Openings.Count && row.All(cell => double.IsFinite(cell.Overflow.Value)));

    /// <summary>Whether what was never seen may well be more likely than the tolerance.</summary>
    private static bool TooFewRuns(RiskMap map)
    {
        double tolerance = map.Question.Tolerance.DecimalFractions;
        return map.Cells.SelectMany(row => row).Any(c => c.Overflow.Value <= 0 && c.Overflow.High > tolerance);
    }

    private static string Title(RiskMap map)
    {
        if (!IsDrawable(map))
            return "The map is not complete";

        double tolerance = map.Question.Tolerance.DecimalFractions;
        string words = "the tolerance you set, " + ChanceText.Percent(tolerance);
        RiskCell[] cells = [.. map.Cells.SelectMany(row => row)];
        return TooFewRuns(map) ? "Too few runs for " + words
            : cells.All(c => c.Overflow.Value <= tolerance) ? "Everywhere within " + words
            : cells.All(c => c.Overflow.Value > tolerance) ? "Nowhere within " + words
            : "Where an overflow is within " + words;
    }

    private static void Draw(FigureSheet sheet, RiskMap map, DisplayUnits units, string title, string subtitle)
    {
        bool drawable = IsDrawable(map);
        string[] under = drawable ? [.. Sentences(map, units).SelectMany(s => SourceNotes.Wrap(s, sheet, TextPx, s_frame.Widest))] : [];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]);
        if (!drawable)
            return;

        double[] xs = [.. map.Openings.Select(o => o.Percent)];
        double[] ys = [.. map.Temperatures.Select(t => UnitScales.Temperature(units, t.DegreesCelsius))];
        (double Low, double High) x = Ends(xs);
        (double Low, double High) y = Ends(ys);
        ChanceClasses classes = new(map);
        GridField field = new(xs, ys, [.. map.Cells.Select(row => row.Select(cell => classes.Score(cell.Overflow.Value)).ToArray())]);
        List<(double X1, double Y1, double X2, double Y2)> line = TooFewRuns(map) ? [] : field.Contour(classes.Score(map.Question.Tolerance.DecimalFractions), Tried(xs), Tried(ys));
        (double X, double Y)? setup = SetupPoint(map, units) is { } point && point.X >= x.Low && point.X <= x.High && point.Y >= y.Low && point.Y <= y.High ? point : null;
        bool marked = xs.Length * ys.Length <= MostPointsMarked;

        top += DrawKey(sheet, classes, top);
        List<LegendEntry> legend = [];
        if (line.Count > 0)
            legend.Add(new("tolerance, " + ChanceText.Percent(map.Question.Tolerance.DecimalFractions), s_tolerance));
        if (setup is not null)
            legend.Add(new("your setup", null, MarkerShape.FilledDiamond));
        if (marked)
            legend.Add(new(Invariant($"tried, {ChanceText.Thousands(map.RunsPerCell)} runs each"), null, MarkerShape.FilledCircle, "#777777"));
        top += LegendRows.RowPx * LegendRows.Draw(sheet, false, "Map", legend, Frame.MarginPx, Width - Frame.MarginPx, top, TextPx) + 18;

        PixelRect data = new(Frame.DataLeftPx, s_frame.DataRightPx, Height - BelowDataPx, top);
        float XPx(double at) => data.Left + (float)((at - x.Low) / (x.High - x.Low)) * data.Width;
        float YPx(double at) => data.Bottom - (float)((at - y.Low) / (y.High - y.Low)) * data.Height;

        // Beyond what was tried the paper stays white.
        PixelRect inner = new(XPx(Tried(xs).Low), XPx(Tried(xs).High), YPx(Tried(ys).Low), YPx(Tried(ys).High));
        int columns = (int)inner.Width;
        int rows = (int)inner.Height;
        byte[,] classOf = new byte[columns, rows];
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
                classOf[column, row] = (byte)classes.OfScore(field.At(Along(Tried(xs), (column + 0.5) / columns), Along(Tried(ys), 1 - (row + 0.5) / rows)));
        }

        int ClassAt(float px, float py) => classOf[Math.Clamp((int)(px - inner.Left), 0, columns - 1), Math.Clamp((int)(py - inner.Top), 0, rows - 1)];
        Color[] colours = [.. Enumerable.Range(0, classes.Count).Select(i => Color.FromHex(classes.Hex(i)))];
        sheet.Picture(inner, columns, rows, (column, row) => colours[classOf[column, row]]);
        sheet.Pieces(
            [(inner.Left, inner.Top, inner.Right, inner.Top), (inner.Right, inner.Top, inner.Right, inner.Bottom), (inner.Right, inner.Bottom, inner.Left, inner.Bottom), (inner.Left, inner.Bottom, inner.Left, inner.Top)],
            s_edge);
        DrawAxes(sheet, data, xs, ys, units);

        (float X1, float Y1, float X2, float Y2)[] pieces = [.. line.Select(p => (XPx(p.X1), YPx(p.Y1), XPx(p.X2), YPx(p.Y2)))];
        sheet.Pieces(pieces, s_halo);
        sheet.Pieces(pieces, s_tolerance);
        PixelRect[] labels = DrawClassNames(sheet, classes, inner, ClassAt, pieces, setup is { } s ? (XPx(s.X), YPx(s.Y)) : null);
        if (marked)
            DrawPoints(sheet, [.. ys.SelectMany(b => xs.Select(a => (XPx(a), YPx(b))))], labels, (px, py) => Ink(classes.Hex(ClassAt(px, py))));
        if (setup is { } own)
        {
            sheet.Marker(XPx(own.X), YPx(own.Y), MarkerShape.FilledDiamond, 30, "#FFFFFF");
            sheet.Marker(XPx(own.X), YPx(own.Y), MarkerShape.FilledDiamond, 21, OkabeIto.Black);
        }
    }

    /// <summary>How far the gate may be opened in the coldest and the warmest row, or that the runs do not suffice to tell.</summary>
    private static IEnumerable<string> Sentences(RiskMap map, DisplayUnits units)
    {
        double tolerance = map.Question.Tolerance.DecimalFractions;
        RiskCell[] cells = [.. map.Cells.SelectMany(row => row)];
        string Row(int row)
        {
            int within = map.Cells[row].TakeWhile(cell => cell.Overflow.Value <= tolerance).Count();
            string at = " at " + UnitScales.TemperatureText(units, map.Temperatures[row]);
            return (within == 0 ? "none of the openings tried" : within == map.Openings.Count ? "all openings tried" : Invariant($"up to {map.Openings[within - 1].Percent:0.#} % open")) + at;
        }

        if (TooFewRuns(map))
            yield return ChanceText.Thousands(map.RunsPerCell) + " runs each cannot tell a chance of " + ChanceText.Percent(tolerance) + " from none.";
        else if (cells.Any(c => c.Overflow.Value <= tolerance) && cells.Any(c => c.Overflow.Value > tolerance))
            yield return "Within it: " + Row(0) + (map.Temperatures.Count > 1 ? "; " + Row(map.Temperatures.Count - 1) : "") + ".";
    }

    private static (double X, double Y)? SetupPoint(RiskMap map, DisplayUnits units) =>
        map.Question.Setup.Control is FixedOpening { Opening: var opening }
            ? (opening.Percent, UnitScales.Temperature(units, map.Question.Setup.HoneyTemperature.DegreesCelsius))
            : null;

    /// <summary>From the first to the last; around a single one, a band.</summary>
    private static (double Low, double High) Tried(double[] values) => values.Length == 1 ? Ends(values) : (values[0], values[^1]);

    private static double Along((double Low, double High) ends, double share) => ends.Low + (ends.High - ends.Low) * share;

    /// <summary>From the first to the last with some room, so that points and names at the corners stay clear of each other.</summary>
    private static (double Low, double High) Ends(double[] values)
    {
        double room = values.Length == 1 ? 1 : 0.025 * (values[^1] - values[0]);
        return (values[0] - room, values[^1] + room);
    }

    /// <summary>Draws the classes as swatches with their words, the rarest first.</summary>
    /// <returns>Height, px.</returns>
    private static float DrawKey(FigureSheet sheet, ChanceClasses classes, float top)
    {
        const float Gap = 24;
        const string Heading = "Chance of an overflow";
        sheet.Text(Heading, Frame.MarginPx, top + LegendRows.RowPx / 2, TextPx, bold: true);
        float x = Frame.MarginPx + sheet.Measure(Heading, TextPx, bold: true) + Gap;
        float y = top;
        for (int i = 0; i < classes.Count; i++)
        {
            float width = SwatchPx + 8 + sheet.Measure(classes.Words(i), TextPx);
            if (x + width > Width - Frame.MarginPx)
                (x, y) = (Frame.MarginPx, y + LegendRows.RowPx);
            sheet.Fill(x, y + 5, x + SwatchPx, y + LegendRows.RowPx - 5, OkabeIto.Black);
            sheet.Fill(x + 1.5f, y + 6.5f, x + SwatchPx - 1.5f, y + LegendRows.RowPx - 6.5f, classes.Hex(i));
            sheet.Text(classes.Words(i), x + SwatchPx + 8, y + LegendRows.RowPx / 2, TextPx);
            x += width + Gap;
        }

        return y + LegendRows.RowPx - top;
    }

    private static void DrawAxes(FigureSheet sheet, PixelRect data, double[] xs, double[] ys, DisplayUnits units)
    {
        (double Low, double High) x = Ends(xs);
        (double Low, double High) y = Ends(ys);
        using Plot plot = new();
        AxesStyle.Apply(plot, TextPx, xTickLabels: true);
        plot.HideGrid();
        plot.Axes.SetLimits(x.Low, x.High, y.Low, y.High);

        // Where there is but one, nothing beside it was tried.
        if (xs.Length == 1)
            plot.Axes.Bottom.TickGenerator = Only(xs[0]);
        if (ys.Length == 1)
            plot.Axes.Left.TickGenerator = Only(ys[0]);
        plot.Layout.Fixed(new PixelPadding(data.Left, sheet.Width - data.Right, 60, 5));
        sheet.Render(plot, new(0, sheet.Width, data.Bottom + 60, data.Top - 5));
        const string Across = "Opening of the gate, % of the bore";
        sheet.Text(Across, data.HorizontalCenter - sheet.Measure(Across, TextPx) / 2, Height - 24, TextPx);
        sheet.TextUpward("Temperature of the honey at the start, " + UnitScales.TemperatureUnit(units), 26, data.VerticalCenter, TextPx);
    }

    private static NumericManual Only(double value) => new([new Tick(value, Invariant($"{value:0.#}"))]);

    /// <summary>Writes each class's words into it where there is room.</summary>
    private static PixelRect[] DrawClassNames(
        FigureSheet sheet, ChanceClasses classes, PixelRect data, Func<float, float, int> classAt, (float X1, float Y1, float X2, float Y2)[] line, (float X, float Y)? setup)
    {
        const float Clear = 10;
        HashSet<(int, int)> taken = [];
        void Take(float px, float py)
        {
            for (float dx = -Clear; dx <= Clear; dx += 5)
            {
                for (float dy = -Clear; dy <= Clear; dy += 5)
                    taken.Add(((int)((px + dx) / 5), (int)((py + dy) / 5)));
            }
        }

        foreach ((float x1, float y1, float x2, float y2) in line)
        {
            int steps = (int)Math.Ceiling(Math.Max(Math.Abs(x2 - x1), Math.Abs(y2 - y1)) / 5) + 1;
            for (int i = 0; i <= steps; i++)
                Take(x1 + (x2 - x1) * i / steps, y1 + (y2 - y1) * i / steps);
        }

        if (setup is { } own)
        {
            foreach (float dx in (ReadOnlySpan<float>)[-10, 0, 10])
            {
                foreach (float dy in (ReadOnlySpan<float>)[-10, 0, 10])
                    Take(own.X + dx, own.Y + dy);
            }
        }

        List<PixelRect> labels = [];
        for (int i = 0; i < classes.Count; i++)
        {
            int index = i;
            string words = classes.Words(i);
            if (RegionLabels.Place(data, sheet.Measure(words, TextPx), TextPx, (px, py) => classAt(px, py) == index && !taken.Contains(((int)(px / 5), (int)(py / 5)))) is not { } place)
                continue;

            sheet.Text(words, place.Left, place.VerticalCenter, TextPx, hex: Ink(classes.Hex(i)));
            labels.Add(place);
        }

        return [.. labels];
    }

    private static void DrawPoints(FigureSheet sheet, (float X, float Y)[] points, PixelRect[] labels, Func<float, float, string> ink)
    {
        foreach ((float px, float py) in points)
        {
            if (!labels.Any(l => px > l.Left - 14 && px < l.Right + 14 && py > l.Top - 8 && py < l.Bottom + 8))
                sheet.Marker(px, py, MarkerShape.FilledCircle, 5, ink(px, py) == OkabeIto.Black ? "#777777" : "#CCCCCC");
        }
    }

    private static string Ink(string hex) => ColourScale.InkOn(Color.FromHex(hex));
}
