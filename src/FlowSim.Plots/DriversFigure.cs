using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;

namespace FlowSim.Plots;

/// <summary>The figure of what drives the overflow and the time to strain: Sobol' indices with their intervals.</summary>
/// <remarks>An index by itself is the share of the variance that would go if the input were known; with others, what would stay if all others were.</remarks>
public static class DriversFigure
{
    /// <summary>Width, px; the height goes with the number of drivers.</summary>
    public const int Width = 1000;

    // Engineering choice: further ones are too weak to matter.
    private const int MostDrivers = 8;

    private const float BetweenPx = 24;
    private static readonly Frame s_frame = new(Width, 0, TextPx: 24, RightPx: 40);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels; shares are the same in both.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        _ = units;
        string title = Title(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.ToFit(Width, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, title, subtitle));
    }

    /// <summary>Draws both tables one above the other.</summary>
    /// <returns>Where they end.</returns>
    internal static float DrawTables(FigureSheet sheet, Frame frame, RiskAnswer answer, int most, float top)
    {
        foreach (DriverTable table in new[] { answer.Drivers, answer.DriversOfTime })
        {
            DriverBars bars = new(sheet, frame, table, most);
            bars.Draw(sheet, top);
            top += bars.HeightPx + BetweenPx;
        }

        return top - BetweenPx;
    }

    private static string Title(RiskAnswer answer)
    {
        DriverTable? first = new[] { answer.Drivers, answer.DriversOfTime }.FirstOrDefault(t => t.Refused is null && t.Drivers.Count > 0);
        return first is null
            ? "What drives it could not be told"
            : (first.Of == DriverOutput.Overflow ? "The overflow" : "The time to strain") + " depends most on: " + RiskTitle.Words(first.Drivers.MaxBy(d => d.Total)!.Name);
    }

    private static float Draw(FigureSheet sheet, RiskAnswer answer, string title, string subtitle)
    {
        string[] under = answer.MeasureNext is { } next ? [.. SourceNotes.Wrap(RiskTitle.MeasureNext(next), sheet, s_frame.TextPx, s_frame.Widest)] : [];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]) + 8;
        return DrawTables(sheet, s_frame, answer, MostDrivers, top) + 10;
    }
}
