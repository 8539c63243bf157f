using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of what a calibration teaches about each input: its spread before and now, what cannot be told apart, and what goes together.</summary>
/// <remarks>All bars share one axis, on which every spread before has the same width; how much narrower the dark bar is, so much was learnt.</remarks>
public static class CalibratedSpreadsFigure
{
    /// <summary>Width, px; the height goes with the number of inputs.</summary>
    public const int Width = 1000;

    // Engineering choices: more would make the sheet too long to be read as one.
    private const int MostInputs = 14;
    private const int MostGroups = 3;
    private const int MostCorrelated = 7;

    // Engineering choice: a matrix of two says no more than a sentence.
    private const int FewestCorrelated = 3;

    // Engineering choice: weaker ones cannot be told from chance, and are said in words.
    private const double WeakCorrelation = 0.1;

    private const float LinePx = 32;
    private const float BetweenPx = 24;
    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 40);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(CalibrationAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string title = CalibrationTitle.OfSpreads(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, units, title, subtitle));
    }

    private static float Draw(FigureSheet sheet, CalibrationAnswer answer, DisplayUnits units, string title, string subtitle)
    {
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]) + 8;
        if (answer.Inputs.Count > 0)
        {
            SpreadRows rows = new(sheet, s_frame, answer, MostInputs, MostGroups, units);
            rows.Draw(sheet, top);
            top += rows.HeightPx + BetweenPx;
        }

        for (int g = 0; g < answer.Indistinct.Count; g++)
            top = Paragraph(sheet, (g < MostGroups ? SpreadRows.Letter(g) + ": " : "") + Together(answer.Indistinct[g]), top);
        top = DrawCorrelations(sheet, answer, top);
        if (answer.Check is { } check)
            top = Paragraph(sheet, Checked(check), top + BetweenPx / 2);
        return top + BetweenPx / 2;
    }

    private static float DrawCorrelations(FigureSheet sheet, CalibrationAnswer answer, float top)
    {
        FittedInput[] shared = [.. answer.Inputs.Where(input => input.Run is null)];
        if (shared.Length != answer.Correlations.Count || shared.Length < FewestCorrelated || answer.Correlations.Any(row => row.Count != shared.Length))
            return top;

        double Strongest(int i) => Enumerable.Range(0, shared.Length).Where(j => j != i).Select(j => Math.Abs(answer.Correlations[i][j])).Where(double.IsFinite).DefaultIfEmpty(0).Max();
        int[] kept = [.. Enumerable.Range(0, shared.Length).Where(i => Strongest(i) >= WeakCorrelation).OrderByDescending(Strongest).Take(MostCorrelated).Order()];
        if (kept.Length == 0)
            return Paragraph(sheet, Invariant($"No two inputs of honey and kit go together: all correlations are below {WeakCorrelation:0.#}."), top);

        top += BetweenPx / 2;
        sheet.Text("What goes together: correlation, −1 to 1", Frame.MarginPx, top + LinePx / 2, s_frame.TextPx, bold: true);
        top += LinePx + 6;
        CorrelationGrid grid = new(s_frame, [.. kept.Select(i => shared[i].Input.Words)], [.. kept.Select(i => kept.Select(j => answer.Correlations[i][j]).ToArray())]);
        grid.Draw(sheet, top);
        top += grid.HeightPx + 8;
        double most = Enumerable.Range(0, shared.Length).Except(kept).Select(Strongest).DefaultIfEmpty(0).Max();
        return kept.Length == shared.Length ? top : Paragraph(sheet, Invariant($"The other {shared.Length - kept.Length}: {most:0.00} at most."), top);
    }

    private static string Together(IndistinctInputs group)
    {
        string[] names = [.. group.Inputs.Select(input => input.Words)];
        string listed = names.Length < 2 ? string.Concat(names) : string.Join(", ", names[..^1]) + " and " + names[^1];
        string words = FigureText.Clean(group.Words);
        return CalibrationTitle.Capital(listed) + " cannot be told apart by these runs" + (words.Length == 0 ? "." : ": " + words + (words[^1] is '.' or '…' ? "" : "."));
    }

    private static string Checked(SamplerCheck check) =>
        Invariant($"Checked with {ChanceText.Thousands(check.Draws)} draws: medians within {FigureText.Short(check.MedianShift)} standard deviations, widths {check.WidthRatio:0.00} times those of the fit at {(check.WidthRatio < 1 ? "least" : "most")}")
        + (check.Used ? "; the intervals are those of the draws." : ".");

    private static float Paragraph(FigureSheet sheet, string text, float top)
    {
        foreach (string line in SourceNotes.Wrap(text, sheet, s_frame.TextPx, s_frame.Widest))
        {
            sheet.Text(line, Frame.MarginPx, top + LinePx / 2, s_frame.TextPx);
            top += LinePx;
        }

        return top + 6;
    }
}
