using FlowSim.Plots.Drawing;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Plots;

/// <summary>The figure of a warming run: temperatures over time, the heater's power below, crystals if there are any.</summary>
/// <remarks>Curves differ in colour, dash pattern and width. The same result gives the same bytes. Figures that are not numbers are left out.</remarks>
public static class WarmingFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1300;

    // More targets than these are told by one mark.
    private const int MostTargetsMarked = 6;

    // Blocks of equal time that the heater's power is averaged over for drawing.
    private const int MostHeaterBlocks = 500;

    // With more switchings than this per row the series shows no cycle, only where it swings; engineering choices.
    private const double MostSwitchingsPerRow = 0.25;
    private const int SwingWindows = 30;

    private const double PercentOfShare = 100;

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 118);
    private static readonly LineLook s_cutOut = new(OkabeIto.Vermillion, 2.4f, 14, 4, 3, 4);
    private static readonly LineLook s_reached = new("#444444", 1.8f, 9, 5);

    /// <summary>The figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <param name="bounds">The run between its bounds, whose span is then shaded; null for none.</param>
    public static DrawnFigure Of(WarmingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null, WarmingBounds? bounds = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        double endS = EndS(result, bounds);
        TimeScale time = TimeScale.For(endS);
        string title = WarmingTitle.Of(result, units, time);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, result, bounds, units, time, endS, title, subtitle));
    }

    private static double EndS(WarmingResult result, WarmingBounds? bounds)
    {
        double[] ends = [.. result.Series.TimeS, result.Elapsed.Seconds, bounds?.TimeToTargetHigh?.Seconds ?? 0];
        double endS = ends.Where(double.IsFinite).DefaultIfEmpty(0).Max();
        return endS > 0 ? endS : 1;
    }

    private static void Draw(FigureSheet sheet, WarmingResult result, WarmingBounds? bounds, DisplayUnits units, TimeScale time, double endS, string title, string subtitle)
    {
        string[] figures = [.. SourceNotes.Wrap(WarmingTitle.Figures(result, units, time), sheet, s_frame.TextPx, s_frame.Widest)];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? figures : [subtitle, .. figures]);
        PanelStack stack = new()
        {
            Panels = [.. Panels(result, bounds, units, time, endS)],
            XLimits = (0, 1.02 * endS / time.SecondsPerUnit),
            XLabel = "Time from the start, " + time.Unit,
            Spells = Bounds(bounds, time, endS) is { } spell ? [spell] : [],
            Marks = [.. Marks(result, units, time)],
            EmptyWords = result.Series.TimeS.Count == 0 ? "No series was kept for this run." : "",
        };
        stack.Draw(sheet, s_frame, top, Height);
    }

    private static TimeSpell? Bounds(WarmingBounds? bounds, TimeScale time, double endS) =>
        bounds?.TimeToTargetLow is { } low
            ? new(low.Seconds / time.SecondsPerUnit, (bounds.TimeToTargetHigh?.Seconds ?? endS) / time.SecondsPerUnit, TimeSpell.PaleBlue)
            : null;

    private static IEnumerable<TimeMark> Marks(WarmingResult result, DisplayUnits units, TimeScale time)
    {
        TimeMark At(Duration at, string text, LineLook look) => new(at.Seconds / time.SecondsPerUnit, text + " at " + time.Moment(at.Seconds), look);
        if (result.CutOutAt is { } cutOut)
            yield return At(cutOut, "cut out", s_cutOut);

        IReadOnlyList<WarmingTarget> targets = result.Setup.Targets;
        if (targets.Count > MostTargetsMarked)
        {
            if (result.TimeToTarget is { } all)
                yield return At(all, FormattableString.Invariant($"all {targets.Count} targets"), s_reached);
            yield break;
        }

        for (int i = 0; i < Math.Min(targets.Count, result.TargetTimes.Count); i++)
        {
            if (result.TargetTimes[i] is { } reached)
                yield return At(reached, WarmingTitle.Name(targets[i], units), s_reached);
        }
    }

    private static IEnumerable<Panel> Panels(WarmingResult result, WarmingBounds? bounds, DisplayUnits units, TimeScale time, double endS)
    {
        WarmingSeries series = result.Series;
        yield return Temperatures(result, bounds, units, time, endS);
        yield return Heater(result, time);
        if (result.Setup.Crystals is { } crystals && crystals.Share.DecimalFractions > 0)
        {
            yield return new()
            {
                Heading = "Crystals",
                YLabel = "Crystals, %",
                Curves = [Curve.Of("left, share of the honey's mass", new(OkabeIto.Black, 3.5f), series.TimeS, 1 / time.SecondsPerUnit, series.CrystalsLeft, PercentOfShare)],
                BelowZero = 0.08,
            };
        }
    }

    private static Panel Temperatures(WarmingResult result, WarmingBounds? bounds, DisplayUnits units, TimeScale time, double endS)
    {
        WarmingSeries series = result.Series;
        HeatingKit kit = result.Setup.Heating;
        Curve Of(string name, LineLook look, IReadOnlyList<double> kelvins) =>
            Curve.Of(name, look, series.TimeS, 1 / time.SecondsPerUnit, kelvins, k => UnitScales.TemperatureOfK(units, k));
        double Level(Temperature temperature) => UnitScales.Temperature(units, temperature.DegreesCelsius);

        bool probeIsBody = kit.Thermostat is { Sensor: SensorPlace.Body, Lag.Seconds: 0 };
        List<Curve> curves =
        [
            Of("setpoint", new(OkabeIto.Black, 2f, 3, 4), series.SetpointK),
            Of("hottest wall", new(OkabeIto.Vermillion, 3.5f, 12, 5, 3, 5), series.WallK),
            Of("mean honey", new(OkabeIto.BluishGreen, 4f, 9, 5), series.MeanK),
            Of("coldest honey", new(OkabeIto.Blue, 5f), series.ColdestK),
        ];
        string body = probeIsBody ? Body(kit) + " and probe" : Body(kit);
        List<Band> bands = [];
        if (result.Switchings > MostSwitchingsPerRow * series.TimeS.Count)
        {
            (double[] lows, double[] highs) = Swing(series.BodyK);
            bands.Add(Band.Of(body + ", switching", "#CFCFCF", series.TimeS, 1 / time.SecondsPerUnit, lows, highs, k => UnitScales.TemperatureOfK(units, k)));
        }
        else
        {
            curves.Insert(0, Of(body, new("#8A8A8A", 3.5f, 20, 6), series.BodyK));
        }

        if (!probeIsBody)
            curves.Insert(curves.Count - 2, Of("probe", new(OkabeIto.ReddishPurple, 2.5f, 5, 3), series.ProbeK));

        List<(double Y, string Text, LineLook Look)> levels = [(Level(result.Setup.RoomTemperature), "room", new("#555555", 1.5f, 4, 4))];
        levels.AddRange(result.Setup.Targets
            .Take(result.Setup.Targets.Count > MostTargetsMarked ? 0 : MostTargetsMarked)
            .Select(t => t switch
            {
                MeanAtLeast mean => mean.Temperature,
                ColdestAtLeast coldest => coldest.Temperature,
                MeanAtMost mean => mean.Temperature,
                _ => (Temperature?)null,
            })
            .OfType<Temperature>()
            .DistinctBy(t => Math.Round(t.DegreesCelsius, 1))
            .Select(t => (Level(t), "target", new LineLook("#444444", 1.5f, 9, 5))));

        // A cut-out far above everything would only flatten the rest.
        if (kit.Thermostat.CutOut is { } limit && result.CutOutAt is not null)
            levels.Add((Level(limit), "cut-out", s_cutOut));

        return new()
        {
            Heading = "Temperatures",
            YLabel = "Temperature, " + UnitScales.TemperatureUnit(units),
            Bands = bands,
            Curves = curves,
            References = levels,
            ExtraLegend = Bounds(bounds, time, endS) is null ? [] : [new(BoundsInWords(bounds!, time), new(TimeSpell.PaleBlue, 20))],
            LeastSpan = UnitScales.LeastTemperatureSpan(units),
            Weight = 3,
        };
    }

    /// <summary>Lowest and highest of a column around each row.</summary>
    private static (double[] Lows, double[] Highs) Swing(IReadOnlyList<double> values)
    {
        int half = Math.Max(1, values.Count / SwingWindows / 2);
        IEnumerable<double> Around(int i) => Enumerable.Range(Math.Max(0, i - half), Math.Min(values.Count, i + half + 1) - Math.Max(0, i - half)).Select(j => values[j]).Where(double.IsFinite);
        return (
            [.. values.Select((_, i) => Around(i).DefaultIfEmpty(double.NaN).Min())],
            [.. values.Select((_, i) => Around(i).DefaultIfEmpty(double.NaN).Max())]);
    }

    private static string BoundsInWords(WarmingBounds bounds, TimeScale time)
    {
        double lowS = bounds.TimeToTargetLow!.Value.Seconds;
        return bounds.TimeToTargetHigh is { } high
            ? "reached between the bounds " + time.Span(lowS, high.Seconds)
            : "reached at " + time.Moment(lowS) + " at the earliest, not by all bounds";
    }

    private static Panel Heater(WarmingResult result, TimeScale time)
    {
        (double[] edgesS, double[] powersW) = Blocks(result.Series);
        double mostW = (double)(result.Setup.Heating.HeaterPower?.Watts ?? 0);
        double peakW = powersW.Select(Math.Abs).Append(mostW).Max();
        Scale scale = UnitScales.Power(peakW);
        bool cools = powersW.Any(p => p < 0);
        string name = "average power" + (cools ? ", below zero it cools" : "");
        if (result.Switchings > 0)
            name += result.Switchings == 1 ? ", switched once" : FormattableString.Invariant($", switched {result.Switchings} times");

        // Each block has its own level: two points at every edge.
        double[] xs = [.. Enumerable.Range(0, powersW.Length).SelectMany(i => new[] { edgesS[i], edgesS[i + 1] })];
        double[] ys = [.. powersW.SelectMany(p => new[] { p, p })];
        return new()
        {
            Heading = "Heater",
            YLabel = "Power, " + scale.Unit,
            Bands = [Band.Of("", "#F3D9A4", xs, 1 / time.SecondsPerUnit, [.. ys.Select(y => Math.Min(y, 0))], [.. ys.Select(y => Math.Max(y, 0))], scale.Of)],
            Curves = [Curve.Of(name, new(OkabeIto.Black, 1.8f), xs, 1 / time.SecondsPerUnit, ys, scale.PerSi)],
            References = mostW > 0 ? [(scale.Of(mostW), "most", new("#555555", 1.5f, 4, 4))] : [],
            BelowZero = 0.08,
        };
    }

    /// <summary>The heater's power in blocks of at least one row each, averaged so that the heat stays the same.</summary>
    private static (double[] EdgesS, double[] PowersW) Blocks(WarmingSeries series)
    {
        int rows = Math.Min(series.TimeS.Count, series.HeaterW.Count);
        int perBlock = Math.Max(1, (rows + MostHeaterBlocks - 1) / MostHeaterBlocks);
        List<double> edges = [];
        List<double> powers = [];
        for (int first = 1; first < rows; first += perBlock)
        {
            int last = Math.Min(first + perBlock, rows) - 1;
            double heatJ = 0;
            for (int i = first; i <= last; i++)
                heatJ += series.HeaterW[i] * (series.TimeS[i] - series.TimeS[i - 1]);
            double seconds = series.TimeS[last] - series.TimeS[first - 1];
            double power = heatJ / seconds;
            if (!double.IsFinite(power))
                continue;

            if (edges.Count == 0)
                edges.Add(series.TimeS[first - 1]);
            edges.Add(series.TimeS[last]);
            powers.Add(power);
        }

        return ([.. edges], [.. powers]);
    }

    /// <summary>What the body of a kit is called.</summary>
    internal static string Body(HeatingKit kit) => kit switch
    {
        WarmAir => "air",
        HeatedBath => "water",
        HeatedJacket => "jacket",
        BandHeater => "heating band",
        ImmersionHeater => "element",
        _ => "body",
    };
}
