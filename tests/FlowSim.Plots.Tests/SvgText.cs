using System.Globalization;
using System.Xml.Linq;
using FlowSim.Plots.Drawing;
using SkiaSharp;

namespace FlowSim.Plots.Tests;

/// <summary>A text of an SVG with the box its letters fill, px: found from the file alone, by measuring with the same font.</summary>
internal sealed record SvgText(string Text, float Size, float Left, float Top, float Right, float Bottom)
{
    private static readonly XNamespace s_svg = "http://www.w3.org/2000/svg";

    public bool Overlaps(SvgText other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    public static SvgText[] In(string svg) => [.. XDocument.Parse(svg).Root!.Descendants(s_svg + "text").Select(Of)];

    private static SvgText Of(XElement element)
    {
        float size = Number(element, "font-size");
        bool bold = element.Attribute("font-weight") is not null;
        using SKFont font = new(bold ? FigureFont.Bold : FigureFont.Regular, size);
        font.MeasureText(element.Value, out SKRect box);
        box.Offset(Number(element, "x"), Number(element, "y"));

        // Skia writes translate(x y), matrix(a b c d x y) or nothing; only shifts and quarter turns occur here.
        string transform = element.Attribute("transform")?.Value ?? "";
        float[] n = [.. transform[(transform.IndexOf('(', StringComparison.Ordinal) + 1)..].TrimEnd(')').Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(v => float.Parse(v, CultureInfo.InvariantCulture))];
        SKMatrix matrix = n.Length switch
        {
            0 => SKMatrix.Identity,
            1 => SKMatrix.CreateTranslation(n[0], 0),
            2 => SKMatrix.CreateTranslation(n[0], n[1]),
            6 => new SKMatrix(n[0], n[2], n[4], n[1], n[3], n[5], 0, 0, 1),
            _ => throw new FormatException("Unknown transform " + transform),
        };
        SKRect placed = matrix.MapRect(box);
        return new(element.Value, size, placed.Left, placed.Top, placed.Right, placed.Bottom);
    }

    private static float Number(XElement element, string attribute) => float.Parse(element.Attribute(attribute)!.Value, CultureInfo.InvariantCulture);
}
