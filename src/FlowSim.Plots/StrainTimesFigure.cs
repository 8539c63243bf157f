using System.Text;
using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;

namespace FlowSim.Plots;

/// <summary>The figure of the times to drain and strain against temperature for some openings, each with its spread.</summary>
public static class StrainTimesFigure
{
    /// <summary>Draws and encodes the figure.</summary>
    /// <param name="map">The map.</param>
    /// <param name="format">PNG or SVG.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    public static byte[] Encode(RiskMap map, FigureFormat format, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(map);
        throw new NotSupportedException("Not yet.");
    }

    /// <summary>The figure as PNG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static byte[] RenderPng(RiskMap map, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encode(map, FigureFormat.Png, units, name);

    /// <summary>The figure as SVG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static string RenderSvg(RiskMap map, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encoding.UTF8.GetString(Encode(map, FigureFormat.Svg, units, name));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="map">The map.</param>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called.</param>
    /// <exception cref="ArgumentException">The ending is neither.</exception>
    public static void Save(RiskMap map, string path, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        File.WriteAllBytes(path, Encode(map, FigureFormats.OfPath(path), units, name));
}
