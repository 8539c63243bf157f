using System.Text;
using FlowSim.Plots.Drawing;
using FlowSim.Warming;

namespace FlowSim.Plots;

/// <summary>The figure of a warming run: temperatures over time, the heater's power below, crystals if there are any.</summary>
/// <remarks>Curves differ in colour, dash pattern and width. The same result gives the same bytes. Figures that are not numbers are left out.</remarks>
public static class WarmingFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1300;

    /// <summary>Draws and encodes the figure.</summary>
    /// <param name="result">The run.</param>
    /// <param name="format">PNG or SVG.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <param name="bounds">The run between its bounds, whose span is then shaded; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    public static byte[] Encode(WarmingResult result, FigureFormat format, DisplayUnits units = DisplayUnits.Metric, string? name = null, WarmingBounds? bounds = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        string title = FigureText.Clean(name);
        return FigureSheet.Encode(format, Width, Height, title, sheet => sheet.Text(title, 22, 34, 30, bold: true));
    }

    /// <summary>The figure as PNG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static byte[] RenderPng(WarmingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null, WarmingBounds? bounds = null) =>
        Encode(result, FigureFormat.Png, units, name, bounds);

    /// <summary>The figure as SVG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static string RenderSvg(WarmingResult result, DisplayUnits units = DisplayUnits.Metric, string? name = null, WarmingBounds? bounds = null) =>
        Encoding.UTF8.GetString(Encode(result, FigureFormat.Svg, units, name, bounds));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="result">The run.</param>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="bounds">The run between its bounds, whose span is then shaded; null for none.</param>
    /// <exception cref="ArgumentException">The ending is neither.</exception>
    public static void Save(WarmingResult result, string path, DisplayUnits units = DisplayUnits.Metric, string? name = null, WarmingBounds? bounds = null) =>
        File.WriteAllBytes(path, Encode(result, FigureFormats.OfPath(path), units, name, bounds));
}
