using FlowSim.Bottling;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of a filling: how long each jar takes, between thinner and thicker honey, and the level in the tank.</summary>
public static class FillingFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1000;

    // Engineering choice: times that differ by more are read better as ratios.
    private const double MostOnEvenAxis = 8;

    private const double GramsPerOunce = 28.349523125;

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 172);
    private static readonly LineLook s_likely = new(OkabeIto.Blue, 4f);
    private static readonly LineLook s_idle = new("#444444", 2.2f, 9, 5);

    /// <summary>The figure.</summary>
    /// <param name="band">The filling and its quick and slow neighbours.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(FillingBand band, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(band);
        string title = Title(band.Likely, units);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet =>
        {
            float top = s_frame.DrawHeadings(sheet, title, [.. new[] { subtitle, Under(band) }.Where(line => line.Length > 0)]);
            Stack(band, units).Draw(sheet, s_frame, top, Height);
        });
    }

    private static string Title(FillingResult result, DisplayUnits units)
    {
        if (result.Jars == 0 || result.FillTimes is not { } times)
            return "No jar was filled";
        double grams = result.Target.Question.Label.Grams;
        string label = units == DisplayUnits.UsCustomary ? Invariant($"{grams / GramsPerOunce:0.##} oz") : Invariant($"{grams:0.#} g");
        return Invariant($"{result.Jars} jars of {label} in {Span(result.Elapsed.Seconds)}: {Span(times.First.Seconds)} the first, {Span(times.Last.Seconds)} the last");
    }

    private static string Under(FillingBand band) => band.Slow.Elapsed > band.Quick.Elapsed
        ? Invariant($"Honey as thin or thick as one in ten: {Span(band.Quick.Elapsed.Seconds)} to {Span(band.Slow.Elapsed.Seconds)}")
        : "";

    private static string Span(double seconds)
    {
        TimeScale scale = TimeScale.For(seconds);
        return Invariant($"{FigureText.Short(seconds / scale.SecondsPerUnit)} {scale.Unit}");
    }

    private static PanelStack Stack(FillingBand band, DisplayUnits units)
    {
        FillingResult likely = band.Likely;
        double[] jars = [.. Enumerable.Range(1, likely.Series.FillS.Count).Select(n => (double)n)];
        Scale length = UnitScales.Length(units);
        double gate = likely.Setup.Tank.GateHeight.Meters;
        double last = Math.Max(2, jars.DefaultIfEmpty(1).Max());
        return new()
        {
            Panels =
            [
                Times(band, jars),
                new()
                {
                    Heading = "Honey above the gate when the jar is full",
                    YLabel = "Level, " + length.Unit,
                    Curves = [Curve.Of("", s_likely, jars, 1, likely.Series.TankLevelM, level => length.Of(level - gate))],
                    Weight = 0.7,
                },
            ],
            XLimits = (1 - 0.02 * last, last * 1.02),
            XLabel = "Jar",
            EmptyWords = jars.Length == 0 ? "No jar was filled." : "",
        };
    }

    private static Panel Times(FillingBand band, double[] jars)
    {
        FillingResult likely = band.Likely;
        int both = Math.Min(jars.Length, Math.Min(band.Quick.Series.FillS.Count, band.Slow.Series.FillS.Count));
        double[] all = [.. likely.Series.FillS.Concat(band.Quick.Series.FillS.Take(both)).Concat(band.Slow.Series.FillS.Take(both)).Where(s => s > 0 && double.IsFinite(s))];
        double idleS = likely.Setup.ChangeOver.Seconds;
        bool logarithmic = all.Length > 0 && all.Max() > MostOnEvenAxis * all.Min();
        double Y(double seconds) => logarithmic ? Math.Log10(seconds) : seconds;
        bool drawsIdle = idleS > 0 && (!logarithmic || (idleS > all.Min() && idleS < all.Max()));
        return new()
        {
            Heading = "Time to fill a jar" + (logarithmic ? " (logarithmic)" : ""),
            YLabel = logarithmic ? "" : "Time, s",
            Bands = band.Slow.Elapsed > band.Quick.Elapsed ? [.. Band.WithGaps("", "#0072B238", jars[..both], [.. band.Quick.Series.FillS.Take(both).Select(Y)], [.. band.Slow.Series.FillS.Take(both).Select(Y)])] : [],
            Curves = [Curve.Of("as described", s_likely, jars, 1, likely.Series.FillS, Y)],
            ExtraLegend = band.Slow.Elapsed > band.Quick.Elapsed ? [new("thin to thick honey", new("#C7DFEE", 20))] : [],
            References = drawsIdle ? [(Y(idleS), "change-over", s_idle)] : [],
            YTicks = logarithmic ? Ticks(all.Min(), all.Max()) : null,
            YRange = logarithmic ? (Math.Log10(all.Min()) - 0.08, Math.Log10(all.Max()) + 0.08) : null,
        };
    }

    private static readonly (double Seconds, string Text)[] s_named =
    [
        .. Named("s", 1, [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30]), .. Named("min", 60, [1, 2, 5, 10, 20, 30]), .. Named("h", 3600, [1, 2, 5, 10, 20]),
    ];

    private static IEnumerable<(double Seconds, string Text)> Named(string unit, double seconds, double[] counts) =>
        counts.Select(count => (count * seconds, Invariant($"{count:0.#} {unit}")));

    private static (double Y, string Text)[] Ticks(double low, double high) =>
        [.. s_named.Where(tick => tick.Seconds >= 0.9 * low && tick.Seconds <= 1.1 * high).Select(tick => (Math.Log10(tick.Seconds), tick.Text))];
}
