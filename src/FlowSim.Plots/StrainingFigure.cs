using FlowSim.Plots.Drawing;
using FlowSim.Screens;
using FlowSim.Straining;
using ScottPlot;

namespace FlowSim.Plots;

/// <summary>The figure of a straining run: levels, pond, flow and condition of the cloth over one time axis.</summary>
/// <remarks>
/// Curves differ in colour (the Okabe–Ito palette), in dash pattern and in width, so the figure reads in black and white and
/// without colour vision. The same result gives the same bytes. Figures that are not numbers are left out.
/// </remarks>
public static class StrainingFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1200;

    /// <summary>Height, px.</summary>
    public const int Height = 1500;

    private static readonly Frame s_frame = new(Width, Height, TextPx: 22, RightPx: 112);

    // More spells than these are told in one sentence.
    private const int MostSpellsNamed = 3;

    // A gate that is ridden stands wide open until the pond is up: seconds that would flatten all the rest. Engineering choice.
    private const double CutAboveOthers = 3;

    private static readonly LineLook DrainedLook = new("#444444", 1.8f, 9, 5);
    private static readonly LineLook HeelLook = new("#444444", 1.8f, 2, 4);
    private static readonly LineLook StrainedLook = new("#444444", 1.8f);
    private static readonly LineLook FullLook = new("#444444", 2.4f, 14, 4, 3, 4);
    private static readonly LineLook SpellLook = new(OkabeIto.Vermillion, 1.5f);

    private static readonly LineLook[] ClothLooks =
    [
        new(OkabeIto.Blue, 5f),
        new(OkabeIto.Vermillion, 3.5f, 12, 6),
        new(OkabeIto.Black, 2.5f, 3, 4),
        new(OkabeIto.BluishGreen, 3.5f, 18, 5, 4, 5),
        new(OkabeIto.ReddishPurple, 4.5f, 6, 3),
        new(OkabeIto.SkyBlue, 2.5f),
        new(OkabeIto.Orange, 3.5f, 24, 8),
        new("#555555", 2f, 8, 3, 2, 3, 2, 3),
    ];

    /// <summary>The figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What the run is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(StrainingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        double endS = EndS(result);
        TimeScale time = TimeScale.For(endS);
        string title = StrainingTitle.Of(result, time);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, result, units, time, endS, title, subtitle));
    }

    private static double EndS(StrainingResult result)
    {
        double lastS = result.Series.TimeS.Where(double.IsFinite).DefaultIfEmpty(0).Max();
        double elapsedS = result.Elapsed.Seconds;
        double endS = Math.Max(lastS, double.IsFinite(elapsedS) ? elapsedS : 0);
        return endS > 0 ? endS : 1;
    }

    private static void Draw(FigureSheet sheet, StrainingResult result, DisplayUnits units, TimeScale time, double endS, string title, string subtitle)
    {
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]);
        PanelStack stack = new()
        {
            Panels = Panels(result, units, time),
            XLimits = (0, 1.02 * endS / time.SecondsPerUnit),
            XLabel = "Time from the start, " + time.Unit,
            Spells = [.. result.Overflows
                .Select(o => new TimeSpell(o.From.Seconds / time.SecondsPerUnit, o.To.Seconds / time.SecondsPerUnit))
                .Where(s => double.IsFinite(s.From) && double.IsFinite(s.To))],
            Marks = [.. Marks(result, units, time, endS)],
            EmptyWords = result.Series.TimeS.Count == 0 ? "No series was kept for this run." : "",
        };
        stack.Draw(sheet, s_frame, top, Height);
    }

    private static IEnumerable<TimeMark> Marks(StrainingResult result, DisplayUnits units, TimeScale time, double endS)
    {
        double X(UnitsNet.Duration at) => at.Seconds / time.SecondsPerUnit;
        IReadOnlyList<Overflow> spells = result.Overflows;
        if (spells.Count > MostSpellsNamed)
        {
            double massKg = spells.Sum(o => o.Mass.Kilograms);
            yield return new(X(spells[0].From), FormattableString.Invariant($"over the rim {spells.Count} times, {time.Span(spells[0].From.Seconds, spells[^1].To.Seconds)}, {UnitScales.Mass(units, massKg)}"), SpellLook);
        }
        else
        {
            foreach (Overflow spell in spells)
            {
                string when = spell.To.Seconds >= endS ? "from " + time.Moment(spell.From.Seconds) + " to the end" : time.Span(spell.From.Seconds, spell.To.Seconds);
                yield return new(X(spell.From), "over the rim " + when + ", " + UnitScales.Mass(units, spell.Mass.Kilograms), SpellLook);
            }
        }

        (UnitsNet.Duration? At, string Text, LineLook Look)[] moments =
        [
            (result.ReceiverFullAt, "receiver full", FullLook),
            (result.Drain.To95, "95 % drained", DrainedLook),
            (result.DrainToHeel, "tank at its heel", HeelLook),
            (result.Strain.To95, "95 % strained", StrainedLook),
        ];
        foreach ((UnitsNet.Duration? at, string text, LineLook look) in moments)
        {
            if (at is { } moment && double.IsFinite(moment.Seconds))
                yield return new(X(moment), text + " " + time.Moment(moment.Seconds), look);
        }
    }

    private static Panel[] Panels(StrainingResult result, DisplayUnits units, TimeScale time)
    {
        StrainingSeries series = result.Series;
        StrainingSetup setup = result.Setup;
        Scale length = UnitScales.Length(units);
        double gatePeak = Peak(series.GateFlowKgPerS);
        double otherPeak = Math.Max(Peak(series.ClothFlowKgPerS), Peak(series.OverRimFlowKgPerS));
        bool gateCut = otherPeak > 0 && gatePeak > CutAboveOthers * otherPeak;
        Scale flow = UnitScales.MassFlow(units, gateCut ? otherPeak : Math.Max(gatePeak, otherPeak));
        Curve Over(string name, LineLook look, IReadOnlyList<double> ys, double perSi) =>
            Curve.Of(name, look, series.TimeS, 1 / time.SecondsPerUnit, ys, perSi);

        List<(double Y, string Text, LineLook Look)> pondLines =
        [
            (length.Of(setup.Strainer.Shape.RimHeight.Meters), "rim", new(OkabeIto.Black, 2.5f)),
            (0, "cloth", new(OkabeIto.Black, 1.5f, 10, 4, 2, 4)),
        ];
        if (setup.Control is RiddenGate ridden)
            pondLines.Add((length.Of(ridden.PondDepth.Meters), "hold", new("#555555", 1.5f, 4, 4)));
        if (setup.Scraping.AtPondDepth is { } scrapeDepth)
            pondLines.Add((length.Of(scrapeDepth.Meters), "scrape", new("#555555", 1.5f, 12, 6)));

        double[] scrapes = [.. result.Scrapes.Select(s => s.Seconds / time.SecondsPerUnit).Where(double.IsFinite)];
        LegendEntry[] scrapeLegend = scrapes.Length == 0
            ? []
            : [new(scrapes.Length == 1 ? "scraped once" : FormattableString.Invariant($"scraped {scrapes.Length} times"), null, MarkerShape.FilledTriangleDown)];

        return
        [
            new()
            {
                Heading = "Tank and receiver",
                YLabel = "Level, " + length.Unit,
                Curves =
                [
                    Over("level in the tank", new(OkabeIto.Blue, 4f), series.TankLevelM, length.PerSi),
                    Over("level in the receiver", new(OkabeIto.Vermillion, 3.5f, 14, 6), series.ReceiverLevelM, length.PerSi),
                ],
                References = [(length.Of(setup.Receiver.Shape.Height.Meters), "brim", new(OkabeIto.Black, 2f, 3, 4))],
            },
            new()
            {
                Heading = "Strainer",
                YLabel = "Pond, " + length.Unit,
                Curves = [Over("depth of the pond", new(OkabeIto.BluishGreen, 4f), series.PondDepthM, length.PerSi)],
                References = pondLines,
                BelowZero = 0.08,
            },
            new()
            {
                Heading = "Flow",
                YLabel = "Flow, " + flow.Unit,
                Curves =
                [
                    Over(gateCut ? FormattableString.Invariant($"through the gate (up to {flow.Of(gatePeak):0}, off scale)") : "through the gate", new(OkabeIto.SkyBlue, 6f), series.GateFlowKgPerS, flow.PerSi),
                    Over("through the cloth", new(OkabeIto.Black, 2.5f, 10, 5), series.ClothFlowKgPerS, flow.PerSi),
                    Over("over the rim", new(OkabeIto.Vermillion, 4f, 4, 4), series.OverRimFlowKgPerS, flow.PerSi),
                ],
                FixedTop = gateCut ? 1.5 * flow.Of(otherPeak) : null,
            },
            new()
            {
                Heading = "Cloth",
                YLabel = "Open share, %",
                Curves = [.. series.OpenShare.Select((share, i) => Over(ClothName(setup.Strainer.Cloths, i), ClothLooks[i % ClothLooks.Length], share, 100))],
                ExtraLegend = scrapeLegend,
                Triangles = scrapes,
                FixedTop = 100,
            },
        ];
    }

    private static double Peak(IReadOnlyList<double> flowKgPerS) => flowKgPerS.Where(double.IsFinite).DefaultIfEmpty(0).Max();

    private static string ClothName(IReadOnlyList<Cloth> cloths, int i)
    {
        string size = i < cloths.Count ? FormattableString.Invariant($"{cloths[i].Opening.Micrometers:0} µm") : FormattableString.Invariant($"cloth {i + 1}");
        return cloths.Count > 1 && i < cloths.Count ? FormattableString.Invariant($"{i + 1}: {size}") : size + (i < cloths.Count ? " cloth" : "");
    }
}
