using System.Text;
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

    /// <summary>Draws and encodes the figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="format">PNG or SVG.</param>
    /// <param name="units">Units of the labels; shares are the same in both.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    public static byte[] Encode(RiskAnswer answer, FigureFormat format, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        _ = units;
        string title = Title(answer);
        string subtitle = FigureText.Clean(name);
        string wholeTitle = subtitle.Length == 0 ? title : title + " – " + subtitle;
        return FigureSheet.EncodeToFit(format, Width, wholeTitle, sheet => Draw(sheet, answer, title, subtitle));
    }

    /// <summary>The figure as PNG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static byte[] RenderPng(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encode(answer, FigureFormat.Png, units, name);

    /// <summary>The figure as SVG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static string RenderSvg(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encoding.UTF8.GetString(Encode(answer, FigureFormat.Svg, units, name));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called.</param>
    /// <exception cref="ArgumentException">The ending is neither.</exception>
    public static void Save(RiskAnswer answer, string path, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        File.WriteAllBytes(path, Encode(answer, FigureFormats.OfPath(path), units, name));

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
