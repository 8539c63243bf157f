using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>Drivers of one output as bars, the names above them so that they may be long on a narrow sheet.</summary>
internal sealed class DriverBars
{
    private const float NameRowPx = 32;
    private const float BarPx = 19;
    private const float BetweenBarsPx = 3;
    private const float RowGapPx = 12;
    private const float BelowLegendPx = 5;
    private const float AxisPx = 76;
    private const float LeftPx = 34;
    private const float RightPx = 40;

    // Engineering choice: intervals that reach further are cut there, where they say no more than that little is known.
    private const double LowestShare = -0.15;
    private const double HighestShare = 1.2;

    private static readonly LineLook s_alone = new(OkabeIto.Blue, 19);
    private static readonly LineLook s_together = new("#A9D3EE", 19);
    private static readonly LineLook s_whisker = new(OkabeIto.Black, 2.4f);
    private static readonly LineLook s_grid = new("#DDDDDD", 1);
    private static readonly LegendEntry[] s_legend =
    [
        new("by itself", s_alone), new("with others", s_together), new("95 % interval", s_whisker),
    ];

    private readonly string _heading;
    private readonly Driver[] _drivers;
    private readonly string _others;
    private readonly string[] _refused;
    private readonly Frame _frame;
    private readonly int _legendRows;

    /// <summary>Lays out the bars.</summary>
    /// <param name="sheet">A sheet, to measure on.</param>
    /// <param name="frame">Where things stand.</param>
    /// <param name="table">The drivers.</param>
    /// <param name="most">So many are drawn, the rest is counted.</param>
    public DriverBars(FigureSheet sheet, Frame frame, DriverTable table, int most)
    {
        _frame = frame;
        _heading = table.Of == DriverOutput.Overflow ? "Drivers of overflow" : "Drivers of the time";
        Driver[] all = [.. table.Drivers.Where(d => double.IsFinite(d.FirstOrder) && double.IsFinite(d.Total)).OrderByDescending(d => d.Total)];
        _drivers = table.Refused is null ? [.. all.Take(most)] : [];
        _others = all.Length > _drivers.Length && _drivers.Length > 0
            ? Invariant($"and {all.Length - _drivers.Length} more, {100 * Math.Max(0, all.Skip(_drivers.Length).Max(d => d.Total)):0} % at most with others")
            : "";
        string reason = _drivers.Length > 0 ? "" : table.Refused is { Length: > 0 } refused ? RiskTitle.Sentence(refused) : "No drivers were found.";
        _refused = reason.Length == 0 ? [] : [.. SourceNotes.Wrap(reason, sheet, frame.TextPx, frame.Widest)];
        _legendRows = LegendRows.Draw(sheet, true, _heading, Legend, Frame.MarginPx, frame.Width - Frame.MarginPx, 0, frame.TextPx);
    }

    /// <summary>Height, px.</summary>
    public float HeightPx => _legendRows * LegendRows.RowPx + BelowLegendPx + (_drivers.Length == 0
        ? _refused.Length * NameRowPx + RowGapPx
        : _drivers.Length * RowPx + (_others.Length > 0 ? NameRowPx : 0) + AxisPx);

    private static float RowPx => NameRowPx + 2 * BarPx + BetweenBarsPx + RowGapPx;

    private IReadOnlyList<LegendEntry> Legend => _drivers.Length == 0 ? [] : s_legend;

    public void Draw(FigureSheet sheet, float top)
    {
        float text = _frame.TextPx;
        LegendRows.Draw(sheet, false, _heading, Legend, Frame.MarginPx, _frame.Width - Frame.MarginPx, top, text);
        top += _legendRows * LegendRows.RowPx + BelowLegendPx;
        for (int i = 0; i < _refused.Length; i++)
            sheet.Text(_refused[i], Frame.MarginPx, top + (i + 0.5f) * NameRowPx, text);
        if (_drivers.Length == 0)
            return;

        double low = Math.Clamp(_drivers.Min(d => Math.Min(Finite(d.FirstLow, 0), Finite(d.TotalLow, 0))), LowestShare, 0);
        double high = Math.Clamp(_drivers.Max(d => Math.Max(Finite(d.FirstHigh, 1), Finite(d.TotalHigh, 1))), 1, HighestShare);
        float right = _frame.Width - RightPx;
        float X(double share) => LeftPx + (float)((Math.Clamp(share, low, high) - low) / (high - low)) * (right - LeftPx);
        foreach (Driver driver in _drivers)
        {
            float bars = top + NameRowPx;
            for (int tick = 0; tick <= 5; tick++)
                sheet.Line(X(0.2 * tick), bars, X(0.2 * tick), bars + 2 * BarPx + BetweenBarsPx, s_grid);
            string words = Invariant($"{RiskTitle.Words(driver.Name)}: {Percent(driver.FirstOrder)} by itself, {Percent(driver.Total)} with others");
            sheet.Text(FigureText.Fit(words, sheet.Font(text), _frame.Width - LeftPx - Frame.MarginPx), LeftPx, top + NameRowPx / 2, text);
            Bar(driver.FirstOrder, driver.FirstLow, driver.FirstHigh, s_alone, bars);
            Bar(driver.Total, driver.TotalLow, driver.TotalHigh, s_together, bars + BarPx + BetweenBarsPx);
            sheet.Line(X(0), bars - 2, X(0), bars + 2 * BarPx + BetweenBarsPx + 2, new(OkabeIto.Black, 2));
            top += RowPx;
        }

        if (_others.Length > 0)
        {
            sheet.Text(_others, LeftPx, top + NameRowPx / 2 - 4, text);
            top += NameRowPx;
        }

        sheet.Line(X(low), top, X(high), top, new(OkabeIto.Black, 1.5f));
        for (int tick = 0; tick <= 5; tick++)
        {
            string words = Invariant($"{20 * tick}");
            sheet.Line(X(0.2 * tick), top, X(0.2 * tick), top + 7, new(OkabeIto.Black, 1.5f));
            sheet.Text(words, X(0.2 * tick) - sheet.Measure(words, text) / 2, top + 22, text);
        }

        const string Label = "Share of the variance, %";
        sheet.Text(Label, (LeftPx + right - sheet.Measure(Label, text)) / 2, top + 52, text);

        void Bar(double share, double from, double to, LineLook look, float y)
        {
            sheet.Fill(X(0), y, Math.Max(X(share), X(0)), y + BarPx, look.Hex);
            float middle = y + BarPx / 2;
            if (!double.IsFinite(from) || !double.IsFinite(to))
                return;

            sheet.Line(X(from), middle, X(to), middle, s_whisker);
            foreach (double end in (ReadOnlySpan<double>)[from, to])
            {
                // One that reaches past the axis has no end here.
                if (end >= low && end <= high)
                    sheet.Line(X(end), middle - 6, X(end), middle + 6, s_whisker);
            }
        }
    }

    private static string Percent(double share) => Invariant($"{Math.Clamp(100 * share, 0, 100):0} %");

    private static double Finite(double value, double otherwise) => double.IsFinite(value) ? value : otherwise;
}
