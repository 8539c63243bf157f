using System.Text;

namespace FlowSim.Plots;

/// <summary>A figure of some result, to be had as PNG or SVG: drawn when it is asked for, the same bytes each time.</summary>
public sealed class DrawnFigure
{
    private readonly Func<FigureFormat, byte[]> _encode;

    internal DrawnFigure(Func<FigureFormat, byte[]> encode) => _encode = encode;

    /// <summary>The figure as the content of a file.</summary>
    /// <param name="format">PNG or SVG.</param>
    /// <exception cref="ArgumentOutOfRangeException">The format is unknown.</exception>
    public byte[] Encode(FigureFormat format) => _encode(format);

    /// <summary>The figure as PNG.</summary>
    public byte[] ToPng() => Encode(FigureFormat.Png);

    /// <summary>The figure as SVG.</summary>
    public string ToSvg() => Encoding.UTF8.GetString(Encode(FigureFormat.Svg));

    /// <summary>Writes the figure to a file, replacing one that is there.</summary>
    /// <param name="path">File; its ending, <c>.png</c> or <c>.svg</c>, names the format.</param>
    /// <exception cref="ArgumentException">The ending is neither.</exception>
    public void Save(string path) => File.WriteAllBytes(path, Encode(FigureFormats.OfPath(path)));
}
