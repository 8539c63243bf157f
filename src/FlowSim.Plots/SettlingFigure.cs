using FlowSim.Plots.Drawing;
using FlowSim.Settling;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of honey that stands: what is left and how much of it is clear over time, and what is left over the depth at some times.</summary>
/// <remarks>Curves differ in colour, dash pattern and width. The same result gives the same bytes. Figures that are not numbers are left out.</remarks>
public static class SettlingFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1500;

    /// <summary>Share of the height that is for the panels over time.</summary>
    private const float OverTimeShare = 0.6f;

    /// <summary>More profiles than these are not drawn: their lines could no longer be told apart.</summary>
    private const int MostProfiles = 4;

    private static readonly Frame s_frame = new(Width, Height, TextPx: 23, RightPx: 130);
    private static readonly LineLook s_bubbles = new(OkabeIto.Blue, 4f);
    private static readonly LineLook s_debris = new(OkabeIto.Vermillion, 3.5f, 12, 6);
    private static readonly LineLook s_clear = new("#444444", 1.8f);
    private static readonly LineLook s_stood = new("#444444", 1.8f, 9, 5);
    private static readonly LineLook s_limit = new(OkabeIto.Black, 2f, 3, 4);
    private static readonly float[] s_profileWidths = [1.5f, 2.5f, 4f, 5.5f];

    /// <summary>The figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <param name="band">How the time to be clear spreads, shaded; null for none.</param>
    public static DrawnFigure Of(SettlingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null, SettlingBand? band = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        double endS = EndS(result);
        TimeScale time = TimeScale.For(endS);
        string title = Title(result, time);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, result, units, time, endS, title, subtitle, band));
    }

    private static double EndS(SettlingResult result)
    {
        double endS = result.Series.TimeS.Append(result.Setup.StandsFor.Seconds).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        return endS > 0 ? endS : 1;
    }

    private static string Title(SettlingResult result, TimeScale time)
    {
        string stood = time.Moment(result.Setup.StandsFor.Seconds);
        return (result.Status, result.ClearAfter) switch
        {
            (SettlingStatus.Clear, { } clear) => "Clear after " + time.Moment(clear.Seconds),
            (_, { } clear) => $"Not clear after {stood}; it would be after {time.Moment(clear.Seconds)}",
            _ => $"Not clear after {stood}, nor in the time looked ahead",
        };
    }

    private static void Draw(
        FigureSheet sheet, SettlingResult result, DisplayUnits units, TimeScale time, double endS, string title, string subtitle, SettlingBand? band)
    {
        string[] sentences = [.. SourceNotes.Wrap(Sentence(result, units, time), sheet, s_frame.TextPx, s_frame.Widest)];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? sentences : [subtitle, .. sentences]);
        float middle = top + OverTimeShare * (Height - top);
        TimeSpell? spell = Spell(band, time, endS);
        PanelStack overTime = new()
        {
            Panels = [LeftOverTime(result, time, spell is not null), ClearOverTime(result, units, time)],
            XLimits = (0, 1.02 * endS / time.SecondsPerUnit),
            XLabel = "Time from the start, " + time.Unit,
            Spells = spell is null ? [] : [spell],
            Marks = [.. Marks(result, time)],
            EmptyWords = result.Series.TimeS.Count == 0 ? "No series was kept for this run." : "",
        };
        overTime.Draw(sheet, s_frame, top, middle);
        PanelStack overDepth = new()
        {
            Panels = [OverDepth(result, units, time)],
            XLimits = (0, 102),
            XLabel = "Left at that height, % of the start",
            EmptyWords = result.Profiles.Count == 0 ? "No profile was kept for this run." : "",
        };
        overDepth.Draw(sheet, s_frame, middle + 14, Height);
    }

    private static string Sentence(SettlingResult result, DisplayUnits units, TimeScale time)
    {
        Scale length = UnitScales.Length(units);
        List<string> left = [];
        if (result.Bubbles is { } bubbles)
            left.Add(Invariant($"{bubbles.Left.Percent:0.#} % of the bubbles"));
        if (result.Debris is { } debris)
            left.Add(Invariant($"{debris.Left.Percent:0.#} % of the debris"));
        return Invariant($"After {time.Moment(result.Setup.StandsFor.Seconds)} {string.Join(" and ", left)} are left; the scum is {length.Of(result.Scum.Thickness.Meters):0.##} {length.Unit} thick, {result.Scum.HoneyShare.Percent:0.##} % of the honey is in it.");
    }

    private static TimeSpell? Spell(SettlingBand? band, TimeScale time, double endS) => band?.Quick is { } quick && quick.Seconds < endS
        ? new(quick.Seconds / time.SecondsPerUnit, Math.Min(endS, band.Slow?.Seconds ?? endS) / time.SecondsPerUnit, TimeSpell.PaleBlue)
        : null;

    private static IEnumerable<TimeMark> Marks(SettlingResult result, TimeScale time)
    {
        yield return Mark(result.Setup.StandsFor, "it stands for", s_stood);
        if (result.Bubbles?.ClearAfter is { } bubbles)
            yield return Mark(bubbles, "clear of bubbles", s_clear);
        if (result.Debris?.ClearAfter is { } debris && debris.Seconds <= EndS(result))
            yield return Mark(debris, "clear of debris", s_clear);

        TimeMark Mark(Duration at, string text, LineLook look) => new(at.Seconds / time.SecondsPerUnit, text + " " + time.Moment(at.Seconds), look);
    }

    private static Panel LeftOverTime(SettlingResult result, TimeScale time, bool withBand)
    {
        SettlingSeries series = result.Series;
        return new()
        {
            Heading = "Left",
            YLabel = "Mean left, %",
            Curves = Kinds(result, series.BubblesLeft, series.DebrisLeft, (name, look, values) => Curve.Of(name, look, series.TimeS, 1 / time.SecondsPerUnit, values, 100)),
            References = result.Setup.ClearTo is ShareLeft share ? [(share.AtMost.Percent, "clear", s_limit)] : [],
            ExtraLegend = withBand ? [new("clear, quick to slow", new(TimeSpell.PaleBlue, 20))] : [],
            FixedTop = 100,
        };
    }

    private static Panel ClearOverTime(SettlingResult result, DisplayUnits units, TimeScale time)
    {
        SettlingSeries series = result.Series;
        Scale length = UnitScales.Length(units);
        return new()
        {
            Heading = "Clear depth",
            YLabel = "Depth, " + length.Unit,
            Curves = Kinds(result, series.BubblesClearM, series.DebrisClearM, (name, look, values) => Curve.Of(name, look, series.TimeS, 1 / time.SecondsPerUnit, values, length.PerSi)),
            References = [(length.Of(result.Setup.Depth.Meters), "layer", s_limit)],
        };
    }

    private static Panel OverDepth(SettlingResult result, DisplayUnits units, TimeScale time)
    {
        Scale length = UnitScales.Length(units);
        SettlingProfile[] profiles = [.. result.Profiles.TakeLast(MostProfiles)];
        return new()
        {
            Heading = "Over the depth",
            YLabel = "Height, " + length.Unit,
            Curves = [.. profiles.SelectMany((profile, i) => Kinds(result, profile.BubblesLeft, profile.DebrisLeft, (name, look, shares) => Curve.Of(
                name + " " + time.Moment(profile.At.Seconds),
                look with { WidthPx = s_profileWidths[i + MostProfiles - profiles.Length] },
                shares,
                100,
                profile.HeightM,
                length.PerSi)))],
            References = [(length.Of(result.Setup.Depth.Meters), "surface", s_limit)],
        };
    }

    private static Curve[] Kinds(SettlingResult result, IReadOnlyList<double> bubbles, IReadOnlyList<double> debris, Func<string, LineLook, IReadOnlyList<double>, Curve> of)
    {
        List<Curve> curves = [];
        if (result.Bubbles is not null)
            curves.Add(of("bubbles", s_bubbles, bubbles));
        if (result.Debris is not null)
            curves.Add(of("debris", s_debris, debris));
        return [.. curves];
    }
}
