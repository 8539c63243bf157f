using System.Globalization;
using FlowSim.Plots.Drawing;
using FlowSim.Properties;
using ScottPlot;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of viscosity against temperature: this honey with its spread, other moistures, and the published figures.</summary>
/// <remarks>The logarithm of viscosity is drawn; a curve is dashed where its correlation goes beyond the range that data support.</remarks>
public static class ViscosityFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1200;

    /// <summary>Height, px.</summary>
    public const int Height = 1400;

    private const float TitlePx = 30;
    private const float SmallestTitlePx = 20;
    private const float TextPx = 22;
    private const float NotePx = 18;
    private const float MarginPx = 22;
    private const float DataLeftPx = 122;
    private const float DataRightPx = Width - 116;

    // Engineering choice: from thick to thin as honeys are sold.
    private static readonly double[] s_moisturesPercent = [14, 16, 18, 20];

    private static readonly LineLook s_supported = new("#666666", 2f);
    private static readonly LineLook s_extrapolated = new("#666666", 2f, 7, 6);
    private static readonly LineLook s_this = new(OkabeIto.Vermillion, 5f);
    private static readonly LineLook s_thisExtrapolated = new(OkabeIto.Vermillion, 5f, 12, 8);
    private const string BandHex = "#F9D9C8";

    private static readonly (MarkerShape Shape, string Hex)[] s_markers =
    [
        (MarkerShape.FilledCircle, OkabeIto.Blue),
        (MarkerShape.OpenSquare, OkabeIto.Black),
        (MarkerShape.FilledTriangleUp, OkabeIto.BluishGreen),
        (MarkerShape.OpenDiamond, OkabeIto.ReddishPurple),
        (MarkerShape.Cross, OkabeIto.Black),
        (MarkerShape.OpenCircle, OkabeIto.SkyBlue),
        (MarkerShape.Eks, OkabeIto.Blue),
        (MarkerShape.OpenTriangleDown, OkabeIto.Black),
    ];

    /// <summary>The figure.</summary>
    /// <param name="honey">This honey.</param>
    /// <param name="units">Units of the temperature axis; viscosity is in Pa·s in both.</param>
    /// <param name="name">What the honey is called; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(HoneyProperties honey, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(honey);
        string title = Invariant($"Viscosity of {(name is null ? "honey" : FigureText.Clean(name))}, {honey.Honey.Moisture.Percent:0.#} % moisture, against temperature");
        return FigureSheet.Of(Width, Height, title, sheet => Draw(sheet, honey, units, title));
    }

    private static void Draw(FigureSheet sheet, HoneyProperties honey, DisplayUnits units, string title)
    {
        const float Widest = Width - 2 * MarginPx;
        float size = TitlePx;
        while (size > SmallestTitlePx && sheet.Measure(title, size, bold: true) > Widest)
            size--;
        sheet.Text(FigureText.Fit(title, sheet.Font(size, bold: true), Widest), MarginPx, 34, size, bold: true);

        PublishedViscosity[][] groups = [.. PublishedViscosities.All
            .GroupBy(p => (p.Series, Floral: p.MoisturePercent is null ? p.Floral : "", p.Source))
            .Select(g => g.ToArray())];
        float y = 62;
        y += LegendRows.RowPx * LegendRows.Draw(sheet, false, "Curves", CurveLegend(honey), MarginPx, Width - MarginPx, y, TextPx);
        LegendEntry[] points = [.. groups.Select((g, i) => new LegendEntry(GroupName(g, units), null, s_markers[i % s_markers.Length].Shape, s_markers[i % s_markers.Length].Hex))];
        y += LegendRows.RowPx * LegendRows.Draw(sheet, false, "Published", points, MarginPx, Width - MarginPx, y, TextPx);
        y += 14;

        string[] notes = [.. Notes(sheet, honey)];
        float bottom = Height - 20 - notes.Length * 25;
        for (int i = 0; i < notes.Length; i++)
            sheet.Text(notes[i], MarginPx, bottom + 12 + i * 25, NotePx);

        PixelRect data = new(DataLeftPx, DataRightPx, bottom - 86, y);
        DrawAxes(sheet, honey, units, groups, data);
        string xLabel = "Temperature, " + UnitScales.TemperatureUnit(units);
        sheet.Text(xLabel, data.HorizontalCenter - sheet.Measure(xLabel, TextPx) / 2, data.Bottom + 54, TextPx);
        sheet.TextUpward("Viscosity, Pa·s (logarithmic)", 26, data.VerticalCenter, TextPx);
    }

    private static LegendEntry[] CurveLegend(HoneyProperties honey)
    {
        PropertySpread spread = SpreadOf(honey);
        List<LegendEntry> entries = [new(Invariant($"this honey, {honey.Viscosity.Name}{(honey.Honey.LotFactor == 1 ? "" : Invariant($", lot factor {honey.Honey.LotFactor:0.##}"))}"), s_this)];
        if (spread.Kind == SpreadKind.Factor)
            entries.Add(new(Invariant($"its spread, {spread}"), new(BandHex, 20)));
        entries.Add(new("other moistures" + (honey.Viscosity.IsMeasured ? ", " + Family(honey).Name : ""), s_supported));
        entries.Add(new("beyond the data", s_extrapolated));
        return [.. entries];
    }

    private static void DrawAxes(FigureSheet sheet, HoneyProperties honey, DisplayUnits units, PublishedViscosity[][] groups, PixelRect data)
    {
        ViscosityCorrelation family = Family(honey);
        List<Sampled> curves = [.. s_moisturesPercent
            .Where(w => family.MoistureRange.Supports(w))
            .Select(w => Sample(HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(w), Viscosity = family })))];
        Sampled own = Sample(honey);
        double[] temperaturesC = [.. groups.SelectMany(g => g).Select(p => p.TemperatureC), .. own.TemperaturesC, .. curves.SelectMany(c => c.TemperaturesC)];
        double left = UnitScales.Temperature(units, Math.Floor(temperaturesC.Min() / 5) * 5);
        double right = UnitScales.Temperature(units, Math.Ceiling(temperaturesC.Max() / 5) * 5);
        double[] logs = [.. groups.SelectMany(g => g).Select(p => Math.Log10(p.ViscosityPaS)), .. own.Lows, .. own.Highs, .. curves.SelectMany(c => c.Logs)];
        double low = logs.Min() - 0.08;
        double high = logs.Max() + 0.08;

        using Plot plot = new();
        AxesStyle.Apply(plot, TextPx, xTickLabels: true);
        plot.Axes.SetLimits(left, right, low, high);
        plot.Axes.Left.TickGenerator = AxesStyle.LogTicks(low, high, data.Height / 40);
        if (SpreadOf(honey).Kind == SpreadKind.Factor)
        {
            Coordinates[] outline = [
                .. own.TemperaturesC.Select((t, i) => new Coordinates(UnitScales.Temperature(units, t), own.Lows[i])),
                .. own.TemperaturesC.Select((t, i) => new Coordinates(UnitScales.Temperature(units, t), own.Highs[i])).Reverse()];
            var band = plot.Add.Polygon(outline);
            band.FillColor = Color.FromHex(BandHex);
            band.LineWidth = 0;
        }

        foreach (Sampled curve in curves)
            AddCurve(plot, curve, units, s_supported, s_extrapolated);
        AddCurve(plot, own, units, s_this, s_thisExtrapolated);
        PixelRect outer = new(0, sheet.Width, data.Bottom + 60, data.Top - 5);
        plot.Layout.Fixed(new PixelPadding(data.Left, sheet.Width - data.Right, 60, 5));
        sheet.Render(plot, outer);

        // Not by ScottPlot: its markers take over the dashes of the line drawn before them.
        for (int i = 0; i < groups.Length; i++)
        {
            (MarkerShape shape, string hex) = s_markers[i % s_markers.Length];
            foreach (PublishedViscosity point in groups[i])
            {
                double x = (UnitScales.Temperature(units, point.TemperatureC) - left) / (right - left);
                double y = (Math.Log10(point.ViscosityPaS) - low) / (high - low);
                sheet.Marker(data.Left + (float)x * data.Width, data.Bottom - (float)y * data.Height, shape, 15, hex);
            }
        }

        NameCurves(sheet, [.. curves, own], honey, data, low, high);
    }

    /// <summary>Writes each curve's moisture in the right margin at the height where it ends, moved apart where they would touch.</summary>
    private static void NameCurves(FigureSheet sheet, List<Sampled> curves, HoneyProperties honey, PixelRect data, double low, double high)
    {
        float lowestFree = data.Top + TextPx / 2;
        foreach (Sampled curve in curves.Where(c => c.Logs.Length > 0).OrderByDescending(c => c.Logs[^1]))
        {
            bool own = ReferenceEquals(curve.Honey, honey);
            float y = data.Bottom - (float)((curve.Logs[^1] - low) / (high - low)) * data.Height;
            y = Math.Max(y, lowestFree);
            sheet.Text(own ? "this" : Invariant($"{curve.Honey.Honey.Moisture.Percent:0.#} %"), data.Right + 12, y, TextPx, bold: own);
            lowestFree = y + TextPx + 2;
        }
    }

    private static void AddCurve(Plot plot, Sampled curve, DisplayUnits units, LineLook supported, LineLook extrapolated)
    {
        ViscosityCorrelation correlation = curve.Honey.Viscosity;
        bool moistureSupported = correlation.MoistureRange.Supports(curve.Honey.Honey.Moisture.Percent);
        ValidityRange range = correlation.TemperatureRange;
        (double From, double To, LineLook Look)[] parts =
        [
            (range.OuterLow, range.Low, extrapolated),
            (range.Low, range.High, moistureSupported ? supported : extrapolated),
            (range.High, range.OuterHigh, extrapolated),
        ];
        foreach ((double from, double to, LineLook look) in parts)
        {
            int[] within = [.. Enumerable.Range(0, curve.TemperaturesC.Length).Where(i => curve.TemperaturesC[i] >= from && curve.TemperaturesC[i] <= to)];
            if (within.Length < 2)
                continue;

            double[] xs = [.. within.Select(i => UnitScales.Temperature(units, curve.TemperaturesC[i]))];
            double[] ys = [.. within.Select(i => curve.Logs[i])];
            var line = plot.Add.ScatterLine(xs, ys);
            line.LineWidth = look.WidthPx;
            line.LinePattern = look.Pattern;
            line.Color = look.Color;
        }
    }

    /// <summary>Samples a honey's viscosity over the outer range, the ends of the supported range among the samples.</summary>
    private static Sampled Sample(HoneyProperties honey)
    {
        const int Pieces = 40;
        ValidityRange range = honey.Viscosity.TemperatureRange;
        List<double> temperatures = [];
        (double From, double To)[] stretches = [(range.OuterLow, range.Low), (range.Low, range.High), (range.High, range.OuterHigh)];
        foreach ((double from, double to) in stretches)
        {
            for (int i = 0; i <= Pieces && to > from; i++)
                temperatures.Add(i == Pieces ? to : from + (to - from) * i / Pieces);
        }

        if (temperatures.Count == 0)
            temperatures.Add(range.Low);

        PropertySpread spread = SpreadOf(honey);
        double[] temperaturesC = [.. temperatures.Distinct()];
        double[] viscosities = [.. temperaturesC.Select(t => honey.LineAt(HoneyProperty.Viscosity, Temperature.FromDegreesCelsius(t)).Value ?? double.NaN)];
        int[] usable = [.. Enumerable.Range(0, viscosities.Length).Where(i => double.IsFinite(viscosities[i]) && viscosities[i] > 0)];
        return new Sampled(
            honey,
            [.. usable.Select(i => temperaturesC[i])],
            [.. usable.Select(i => Math.Log10(viscosities[i]))],
            [.. usable.Select(i => Math.Log10(spread.Around(viscosities[i]).Low))],
            [.. usable.Select(i => Math.Log10(spread.Around(viscosities[i]).High))]);
    }

    private static PropertySpread SpreadOf(HoneyProperties honey) =>
        honey.LineAt(HoneyProperty.Viscosity, Temperature.FromDegreesCelsius(honey.Viscosity.TemperatureRange.Low)).Spread;

    /// <summary>Figures measured on one honey say nothing about other moistures; the default correlation stands in for those.</summary>
    private static ViscosityCorrelation Family(HoneyProperties honey) =>
        honey.Viscosity.IsMeasured ? ViscosityCorrelations.Default : honey.Viscosity;

    private static string GroupName(PublishedViscosity[] group, DisplayUnits units)
    {
        string[] florals = [.. group.Select(p => p.Floral).Distinct(StringComparer.Ordinal)];
        string floral = florals.Length > 1 ? Invariant($"{florals.Length} plants") : florals[0] == "not stated" ? "plant not stated" : florals[0];
        double[] moistures = [.. group.Select(p => p.MoisturePercent).OfType<double>()];
        string moisture = moistures.Length == 0 ? "moisture unknown" : Range(moistures, " %");
        double[] temperatures = [.. group.Select(p => UnitScales.Temperature(units, p.TemperatureC))];
        string temperature = temperatures.Min() == temperatures.Max() ? ", " + Range(temperatures, " " + UnitScales.TemperatureUnit(units)) : "";
        return floral + ", " + moisture + temperature;
    }

    private static string Range(double[] values, string unit) =>
        values.Min() == values.Max() ? Invariant($"{values[0]:0.#}{unit}") : Invariant($"{values.Min():0.#}–{values.Max():0.#}{unit}");

    private static IEnumerable<string> Notes(FigureSheet sheet, HoneyProperties honey)
    {
        List<Source> sources = [honey.Viscosity.Source, .. PublishedViscosities.All.Select(p => p.Source).Distinct()];
        for (int i = 0; i < sources.Count; i++)
        {
            string note = (i == 0 ? "Curve: " : i == 1 ? "Points: " : "") + SourceNotes.Of(sources[i]);
            foreach (string line in SourceNotes.Wrap(note, sheet, NotePx, Width - 2 * MarginPx))
                yield return line;
        }
    }

    private sealed record Sampled(HoneyProperties Honey, double[] TemperaturesC, double[] Logs, double[] Lows, double[] Highs);
}
