using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Plots.Drawing;
using MathNet.Numerics.Distributions;
using ScottPlot;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>Inputs one below the other: what was known before as a pale bar, what is known now as a dark one, on one axis of normal scores.</summary>
internal sealed class SpreadRows
{
    private const float NameRowPx = 32;
    private const float PriorPx = 30;
    private const float PosteriorPx = 12;
    private const float RowGapPx = 16;
    private const float AxisPx = 80;
    private const float LeftPx = 34;
    private const float RightPx = 34;
    private const float BracketPx = 30;
    private const float ArrowPx = 11;

    // Engineering choice: the axis reaches no further; beyond, an arrow stands.
    private const double MostScore = 6;
    private const double LeastScore = 2.4;

    public const string PriorHex = "#BFDDF2";
    private static readonly LineLook s_grid = new("#DDDDDD", 1);
    private static readonly LineLook s_ink = new(OkabeIto.Black, 1.5f);
    private static readonly LineLook s_arrow = new(OkabeIto.Black, 3f);
    private static readonly LineLook s_bracket = new(OkabeIto.Vermillion, 3f);
    private static readonly LegendEntry[] s_legend =
    [
        new("before", new(PriorHex, PriorPx)), new("now", new(OkabeIto.Blue, PosteriorPx)), new("median now", null, MarkerShape.FilledDiamond),
    ];

    private readonly FittedInput[] _inputs;
    private readonly string _others;
    private readonly FittedInput[][] _groups;
    private readonly Frame _frame;
    private readonly DisplayUnits _units;
    private readonly int _legendRows;
    private readonly double _half;

    /// <summary>Lays out the rows.</summary>
    /// <param name="sheet">A sheet, to measure on.</param>
    /// <param name="frame">Where things stand.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="most">So many inputs are drawn, the rest is counted.</param>
    /// <param name="mostGroups">So many groups of inputs that cannot be told apart are tied by a bracket.</param>
    /// <param name="units">Units of the values.</param>
    public SpreadRows(FigureSheet sheet, Frame frame, CalibrationAnswer answer, int most, int mostGroups, DisplayUnits units)
    {
        _frame = frame;
        _units = units;
        FittedInput[] all = [.. answer.Inputs.OrderBy(i => i.Run is not null).ThenBy(i => i.Left)];
        _inputs = [.. all.Take(most)];
        _others = all.Length > most ? Invariant($"and {all.Length - most} more") : "";
        _groups = [.. answer.Indistinct.Take(mostGroups).Select(g => _inputs.Where(i => i.Run is null && g.Inputs.Contains(i.Input)).ToArray())];
        _legendRows = LegendRows.Draw(sheet, true, Heading, s_legend, Frame.MarginPx, frame.Width - Frame.MarginPx, 0, frame.TextPx);
        double reach = _inputs.SelectMany(i => new[] { Score(i, i.Low), Score(i, i.High) }).Where(double.IsFinite).Select(Math.Abs).DefaultIfEmpty(0).Max();
        _half = Math.Clamp(1.06 * reach, LeastScore, MostScore);
    }

    /// <summary>The letter of a group of inputs that cannot be told apart.</summary>
    public static string Letter(int group) => ((char)('A' + group)).ToString();

    /// <summary>Height, px.</summary>
    public float HeightPx => _legendRows * LegendRows.RowPx + 6 + _inputs.Length * RowPx + (_others.Length > 0 ? NameRowPx : 0) + AxisPx;

    private const string Heading = "95 % intervals";

    private static float RowPx => 2 * NameRowPx + PriorPx + RowGapPx;

    public void Draw(FigureSheet sheet, float top)
    {
        float text = _frame.TextPx;
        LegendRows.Draw(sheet, false, Heading, s_legend, Frame.MarginPx, _frame.Width - Frame.MarginPx, top, text);
        top += _legendRows * LegendRows.RowPx + 6;
        float right = _frame.Width - RightPx - _groups.Length * BracketPx;
        float X(double score) => LeftPx + (float)((Math.Clamp(score, -_half, _half) + _half) / (2 * _half)) * (right - LeftPx);
        int[] ticks = [.. Enumerable.Range(-(int)_half, 2 * (int)_half + 1)];
        Brackets(sheet, top, right);
        foreach (FittedInput input in _inputs)
        {
            DrawRow(sheet, input, top, right, X, ticks);
            top += RowPx;
        }

        if (_others.Length > 0)
        {
            sheet.Text(_others, LeftPx, top + NameRowPx / 2 - 4, text);
            top += NameRowPx;
        }

        sheet.Line(LeftPx, top, right, top, s_ink);
        foreach (int tick in ticks)
        {
            string words = Invariant($"{tick}").Replace('-', '−');
            sheet.Line(X(tick), top, X(tick), top + 7, s_ink);
            sheet.Text(words, X(tick) - sheet.Measure(words, text) / 2, top + 22, text);
        }

        const string Label = "Distance from the median before, in standard deviations before";
        sheet.Text(Label, (LeftPx + right - sheet.Measure(Label, text)) / 2, top + 54, text);
    }

    /// <summary>Where a value lies in the spread before, in standard deviations of its normal score; ±∞ beyond it.</summary>
    private static double Score(FittedInput input, double value)
    {
        Distribution prior = input.Prior.Spread;
        if (double.IsNaN(value))
            return double.NaN;

        // Of a normal spread, and of the logarithm of a log-normal one, that is the distance itself, which no rounding of 1 − p ends.
        double score = prior switch
        {
            NormalDistribution normal => (value - normal.Mean) / normal.StandardDeviation,
            LogNormalDistribution factor => Math.Log(value / factor.Median) / factor.LogStandardDeviation,
            _ => Normal.InvCDF(0, 1, prior.Cumulative(value)),
        };
        return double.IsNaN(score) ? double.NegativeInfinity : score;
    }

    private void DrawRow(FigureSheet sheet, FittedInput input, float top, float right, Func<double, float> x, int[] ticks)
    {
        float text = _frame.TextPx;
        float widest = right - LeftPx;
        string hidden = input.Identified ? "" : " – not shown by these runs";
        string name = FigureText.Fit(
            CalibrationTitle.Capital(input.Input.Words) + (input.Run is { } run ? " (run: " + FigureText.Clean(run) + ")" : ""), sheet.Font(text, bold: true), widest - sheet.Measure(hidden, text));
        sheet.Text(name, LeftPx, top + NameRowPx / 2, text, bold: true);
        sheet.Text(hidden.TrimStart(), LeftPx + sheet.Measure(name + " ", text, bold: true), top + NameRowPx / 2, text);
        string values = "before " + InputText.Interval(input.Input, input.Prior.Spread, _units) + ", now " + InputText.Estimate(input.Input, input.Posterior, _units);
        sheet.Text(FigureText.Fit(values, sheet.Font(text), widest), LeftPx, top + 1.5f * NameRowPx, text);

        float bar = top + 2 * NameRowPx;
        float middle = bar + PriorPx / 2;
        const double Ends = NormalDistribution.HalfWidth95;
        sheet.Fill(x(-Ends), bar, x(Ends), bar + PriorPx, PriorHex);
        foreach (int tick in ticks)
            sheet.Line(x(tick), bar, x(tick), bar + PriorPx, tick == 0 ? s_ink : s_grid);
        double low = Score(input, input.Low);
        double high = Score(input, input.High);
        if (!double.IsNaN(low) && !double.IsNaN(high))
        {
            // At least a line's width, or an exactly known input would have no bar.
            float left = Math.Min(x(low), x(high) - 3);
            sheet.Fill(left, middle - PosteriorPx / 2, Math.Max(x(high), left + 3), middle + PosteriorPx / 2, OkabeIto.Blue);
            if (low < -_half)
                Arrow(sheet, x(-_half), middle, -ArrowPx);
            if (high > _half)
                Arrow(sheet, x(_half), middle, ArrowPx);
            sheet.Marker(x(Score(input, input.Middle)), middle, MarkerShape.FilledDiamond, 19, OkabeIto.Black);
        }
    }

    private static void Arrow(FigureSheet sheet, float tip, float middle, float length) =>
        sheet.Pieces([(tip - length, middle - ArrowPx, tip, middle), (tip - length, middle + ArrowPx, tip, middle)], s_arrow);

    /// <summary>Ties the bars of inputs that cannot be told apart, at the right.</summary>
    private void Brackets(FigureSheet sheet, float top, float right)
    {
        for (int g = 0; g < _groups.Length; g++)
        {
            float x = right + (g + 0.7f) * BracketPx;
            float[] ys = [.. _groups[g].Select(i => top + Array.IndexOf(_inputs, i) * RowPx + 2 * NameRowPx + PriorPx / 2).Order()];
            if (ys.Length == 0)
                continue;

            sheet.Line(x, ys[0] - s_bracket.WidthPx / 2, x, ys[^1] + s_bracket.WidthPx / 2, s_bracket);
            foreach (float y in ys)
                sheet.Line(x - BracketPx / 2, y, x, y, s_bracket);
            sheet.Text(Letter(g), x - sheet.Measure(Letter(g), _frame.TextPx, bold: true) / 2, ys[0] - 20, _frame.TextPx, bold: true);
        }
    }
}
