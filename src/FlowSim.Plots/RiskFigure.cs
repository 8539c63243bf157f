using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;

namespace FlowSim.Plots;

/// <summary>One sheet about the risk: depth of the pond, chance against time, drivers.</summary>
public static class RiskFigure
{
    /// <summary>Width, px; the height goes with the number of drivers.</summary>
    public const int Width = 1000;

    // Engineering choice: what matters of them; a figure of its own has more.
    private const int MostDrivers = 4;

    private const float FanPx = 640;
    private const float AbsencePx = 520;
    private const float BetweenPx = 14;
    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 138);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string title = RiskTitle.Of(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, units, title, subtitle));
    }

    private static float Draw(FigureSheet sheet, RiskAnswer answer, DisplayUnits units, string title, string subtitle)
    {
        string[] under = [.. RiskTitle.Sentences(answer, units).SelectMany(s => SourceNotes.Wrap(s, sheet, s_frame.TextPx, s_frame.Widest))];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]) + 6;
        PondFanFigure.Stack(answer, units).Draw(sheet, s_frame, top, top + FanPx);
        top += FanPx + BetweenPx;
        AbsenceFigure.Stack(answer).Draw(sheet, s_frame, top, top + AbsencePx);
        top += AbsencePx + BetweenPx;
        return DriversFigure.DrawTables(sheet, s_frame, answer, MostDrivers, top) + 10;
    }
}
