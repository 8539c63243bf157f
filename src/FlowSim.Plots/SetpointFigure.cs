using System.Text;
using FlowSim.Plots.Drawing;
using FlowSim.Setpoints;

namespace FlowSim.Plots;

/// <summary>The figure of a search for the setpoint: damage against time along the setpoints, and what each setpoint takes.</summary>
/// <remarks>Setpoints that break a limit are shown as such.</remarks>
public static class SetpointFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1300;

    /// <summary>Draws and encodes the figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="format">PNG or SVG.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    public static byte[] Encode(SetpointAnswer answer, FigureFormat format, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string title = FigureText.Clean(name);
        return FigureSheet.Encode(format, Width, Height, title, sheet => sheet.Text(title, 22, 34, 30, bold: true));
    }

    /// <summary>The figure as PNG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static byte[] RenderPng(SetpointAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encode(answer, FigureFormat.Png, units, name);

    /// <summary>The figure as SVG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static string RenderSvg(SetpointAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        Encoding.UTF8.GetString(Encode(answer, FigureFormat.Svg, units, name));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called.</param>
    /// <exception cref="ArgumentException">The ending is neither.</exception>
    public static void Save(SetpointAnswer answer, string path, DisplayUnits units = DisplayUnits.Metric, string? name = null) =>
        File.WriteAllBytes(path, Encode(answer, FigureFormats.OfPath(path), units, name));
}
