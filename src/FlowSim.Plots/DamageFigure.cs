using FlowSim.Plots.Drawing;
using FlowSim.HeatDamage;
using FlowSim.Warming;
using ScottPlot;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of what heat costs the honey over a warming run: HMF and diastase as bands against a limit.</summary>
/// <remarks>With the honey known before, its level is drawn against the limit, and where it hardly moves also by itself; else what is gained and what is left.</remarks>
public static class DamageFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1650;

    private const float NotePx = 20;
    private const float NoteRowPx = 27;

    // Engineering choice: a limit further away than this would flatten the gain to a line.
    private const double LimitWithinGains = 4;

    // Engineering choice: what moves by less than this share of its axis gets a panel of its own.
    private const double FlatShare = 0.15;
    private const double LeastDiastaseSpanPercent = 1;

    private const string HmfBandHex = "#F6D3C0";
    private const string DiastaseBandHex = "#C9E2F2";

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 138);
    private static readonly LegendEntry s_worst = new("worst honey at the end", null, MarkerShape.FilledSquare);
    private static readonly LineLook s_limit = new(OkabeIto.Black, 2.5f, 14, 4, 3, 4);

    /// <summary>The figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <param name="limit">The limit to draw; null for none.</param>
    public static DrawnFigure Of(WarmingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null, HeatLimit? limit = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        HeatedHoney? after = result.Setup.Before is { } before ? result.Damage.After(before) : null;
        string title = Title(result, after);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, result, after, limit, units, title, subtitle));
    }

    private static void Draw(FigureSheet sheet, WarmingResult result, HeatedHoney? after, HeatLimit? limit, DisplayUnits units, string title, string subtitle)
    {
        string[] under = [.. Sentences(result, after, limit, units).SelectMany(s => SourceNotes.Wrap(s, sheet, s_frame.TextPx, s_frame.Widest))];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]);
        string[] notes = [.. Notes(result, limit).SelectMany(n => SourceNotes.Wrap(n, sheet, NotePx, s_frame.Widest))];
        float bottom = Height - 12 - notes.Length * NoteRowPx;
        for (int i = 0; i < notes.Length; i++)
            sheet.Text(notes[i], Frame.MarginPx, bottom + (i + 0.5f) * NoteRowPx, NotePx);

        double lastS = result.Series.TimeS.Append(result.Elapsed.Seconds).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        double endS = lastS > 0 ? lastS : 1;
        TimeScale time = TimeScale.For(endS);
        double end = endS / time.SecondsPerUnit;
        PanelStack stack = new()
        {
            Panels = [.. Panels(result, limit, time, end)],
            XLimits = (0, 1.06 * end),
            XLabel = "Time from the start, " + time.Unit,
            EmptyWords = result.Series.TimeS.Count == 0 ? "No series was kept for this run." : "",
        };
        stack.Draw(sheet, s_frame, top, bottom);
    }

    /// <summary>Level and gain of HMF, and the same of diastase: against the limit, and by itself where it would be a flat line there.</summary>
    private static IEnumerable<Panel> Panels(WarmingResult result, HeatLimit? limit, TimeScale time, double end)
    {
        HoneyBeforeHeat? before = result.Setup.Before;
        double highest = result.Series.HmfGainHigh.Append(result.WorstDamage.HmfGainHigh.MilligramsPerKilogram).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        double? most = limit?.HmfAtMost?.MilligramsPerKilogram;
        if (before?.Hmf.MilligramsPerKilogram is { } start)
        {
            yield return Hmf(result, time, end, "HMF", "HMF, ", start, most, highest);
            if (highest < FlatShare * Math.Max(most ?? 0, start))
                yield return Hmf(result, time, end, "Gain of HMF", "Gain, ", 0, null, highest, withWorst: false);
        }
        else
        {
            yield return Hmf(result, time, end, "Gain of HMF", "Gain, ", 0, most <= LimitWithinGains * highest ? most : null, highest);
        }

        double least = result.Series.DiastaseLeftLow.Append(result.WorstDamage.DiastaseLeftLow.DecimalFractions).Where(double.IsFinite).DefaultIfEmpty(1).Min();
        if (before?.DiastaseNumber is { } number)
            yield return Diastase(result, time, end, "Diastase number", "Number", number, limit?.DiastaseAtLeast, null);
        if (before?.DiastaseNumber is null || 1 - least < FlatShare)
            yield return Diastase(result, time, end, "Diastase left", "Left, %", 100, null, 1 - least < FlatShare ? LeastDiastaseSpanPercent : null);
    }

    private static Panel Hmf(WarmingResult result, TimeScale time, double end, string name, string label, double start, double? most, double highest, bool withWorst = true)
    {
        WarmingSeries series = result.Series;
        HoneyHeatDamage worst = result.WorstDamage;
        Scale scale = UnitScales.Hmf(Math.Max(start + highest, most ?? 0));
        double Of(double gain) => scale.Of(start + gain);
        return new()
        {
            Heading = name,
            YLabel = label + scale.Unit,
            Bands = [Band.Of(result.Setup.Response.IncludeFloralSpread ? "band, floral types included" : "band of the source", HmfBandHex, series.TimeS, 1 / time.SecondsPerUnit, series.HmfGainLow, series.HmfGainHigh, Of)],
            Curves = [Curve.Of("average honey", new(OkabeIto.Vermillion, 4f), series.TimeS, 1 / time.SecondsPerUnit, series.HmfGain, Of)],
            Whiskers = [new(1.03 * end, Of(worst.HmfGainLow.MilligramsPerKilogram), Of(worst.HmfGain.MilligramsPerKilogram), Of(worst.HmfGainHigh.MilligramsPerKilogram), MarkerShape.FilledSquare, OkabeIto.Black)],
            References = most is { } value ? [(scale.Of(value), Invariant($"limit {scale.Of(value):0.#}"), s_limit)] : [],
            ExtraLegend = withWorst ? [s_worst] : [],
        };
    }

    private static Panel Diastase(WarmingResult result, TimeScale time, double end, string name, string label, double scale, double? least, double? leastSpan)
    {
        WarmingSeries series = result.Series;
        HoneyHeatDamage worst = result.WorstDamage;
        return new()
        {
            Heading = name,
            YLabel = label,
            Bands = [Band.Of("spread between honeys", DiastaseBandHex, series.TimeS, 1 / time.SecondsPerUnit, series.DiastaseLeftLow, series.DiastaseLeftHigh, d => scale * d)],
            Curves = [Curve.Of("average honey", new(OkabeIto.Blue, 4f), series.TimeS, 1 / time.SecondsPerUnit, series.DiastaseLeft, d => scale * d)],
            Whiskers = [new(1.03 * end, scale * worst.DiastaseLeftLow.DecimalFractions, scale * worst.DiastaseLeft.DecimalFractions, scale * worst.DiastaseLeftHigh.DecimalFractions, MarkerShape.FilledSquare, OkabeIto.Black)],
            References = least is { } value ? [(value, Invariant($"limit {value:0.#}"), s_limit)] : [],
            LeastSpan = leastSpan,
        };
    }

    private static string Title(WarmingResult result, HeatedHoney? after)
    {
        HoneyHeatDamage damage = result.Damage;
        string hmf = after is null
            ? Invariant($"HMF up {FigureText.Short(damage.HmfGain.MilligramsPerKilogram)} mg/kg ({FigureText.Short(damage.HmfGainLow.MilligramsPerKilogram)}–{FigureText.Short(damage.HmfGainHigh.MilligramsPerKilogram)})")
            : Invariant($"HMF {after.Hmf.MilligramsPerKilogram:0.0} mg/kg ({after.HmfLow.MilligramsPerKilogram:0.0}–{after.HmfHigh.MilligramsPerKilogram:0.0})");
        string diastase = after is { DiastaseNumber: { } number, DiastaseNumberLow: { } low, DiastaseNumberHigh: { } high }
            ? Invariant($"diastase number {number:0.0} ({low:0.0}–{high:0.0})")
            : Invariant($"diastase {damage.DiastaseLeft.Percent:0.#} % left");
        return hmf + ", " + diastase;
    }

    private static IEnumerable<string> Sentences(WarmingResult result, HeatedHoney? after, HeatLimit? limit, DisplayUnits units)
    {
        (double byHmf, double byDiastase) = result.Damage.EquivalentDaysAt20C;
        if (double.IsFinite(byHmf) && double.IsFinite(byDiastase))
            yield return Invariant($"Costs as much as {FigureText.Short(byHmf)} days at {UnitScales.TemperatureText(units, Temperature.FromDegreesCelsius(20))} by HMF, {FigureText.Short(byDiastase)} by diastase.");
        if (after is not null && limit is not null)
            yield return FigureText.Clean(LimitCheck.Of(after, limit).Text);
        else if (limit is not null)
            yield return "The limit (" + InWords(limit) + ") cannot be checked: the honey at the start is not known.";
    }

    private static string InWords(HeatLimit limit)
    {
        string? hmf = limit.HmfAtMost is { } most ? Invariant($"HMF at most {most.MilligramsPerKilogram:0.#} mg/kg") : null;
        string? diastase = limit.DiastaseAtLeast is { } least ? Invariant($"diastase number at least {least:0.#}") : null;
        return string.Join(", ", new[] { hmf, diastase }.OfType<string>());
    }

    private static IEnumerable<string> Notes(WarmingResult result, HeatLimit? limit)
    {
        if (limit is not null)
            yield return (limit.IsOfTheHouse ? "Limit: " : "Limit for " + FigureText.Clean(limit.AppliesTo) + ": ") + SourceNotes.Of(limit.Source);
        yield return "HMF: " + SourceNotes.Of(result.Setup.Response.Law.Source);
        yield return "Diastase: " + SourceNotes.Of(DiastaseLoss.Source);
    }
}
