using System.Text;
using FlowSim.Plots.Drawing;

namespace FlowSim.Plots;

/// <summary>The figure of a scan: each output against the input that was varied, outputs of different units one panel above the other.</summary>
public static class ScanFigure
{
    /// <summary>Draws and encodes the figure.</summary>
    /// <param name="table">What came out, in the units it is to be shown in.</param>
    /// <param name="format">PNG or SVG.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    /// <exception cref="ArgumentException">A series has not as many values as there are of the input.</exception>
    public static byte[] Encode(ScanTable table, FigureFormat format)
    {
        ArgumentNullException.ThrowIfNull(table);
        throw new NotSupportedException("Not yet.");
    }

    /// <summary>The figure as PNG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static byte[] RenderPng(ScanTable table) => Encode(table, FigureFormat.Png);

    /// <summary>The figure as SVG.</summary>
    /// <inheritdoc cref="Encode"/>
    public static string RenderSvg(ScanTable table) => Encoding.UTF8.GetString(Encode(table, FigureFormat.Svg));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="table">What came out, in the units it is to be shown in.</param>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <exception cref="ArgumentException">The ending is neither, or a series has not as many values as there are of the input.</exception>
    public static void Save(ScanTable table, string path) => File.WriteAllBytes(path, Encode(table, FigureFormats.OfPath(path)));
}
