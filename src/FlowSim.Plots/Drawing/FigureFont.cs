using ScottPlot;
using SkiaSharp;

namespace FlowSim.Plots.Drawing;

/// <summary>The one font of all figures. It is embedded, so that a figure looks the same on every machine, fonts installed or not.</summary>
internal static class FigureFont
{
    public const string Family = "DejaVu Sans";

    /// <summary>What an SVG asks its viewer for; the second has nearly the same widths.</summary>
    public const string SvgFamily = "'DejaVu Sans', Verdana, sans-serif";

    public static SKTypeface Regular { get; } = Load("DejaVuSans.ttf");

    public static SKTypeface Bold { get; } = Load("DejaVuSans-Bold.ttf");

    // A static constructor, not an initializer: the resolver must stand before the first panel measures a tick label.
    static FigureFont() => ScottPlot.Fonts.FontResolvers.Insert(0, new EmbeddedFontResolver());

    /// <summary>Makes sure the font is known to ScottPlot.</summary>
    public static void Register() => System.Runtime.CompilerServices.RuntimeHelpers.RunClassConstructor(typeof(FigureFont).TypeHandle);

    private static SKTypeface Load(string resource)
    {
        using Stream stream = typeof(FigureFont).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException("The embedded font " + resource + " is missing.");
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data) ?? SKTypeface.Default;
    }

    private sealed class EmbeddedFontResolver : IFontResolver
    {
        public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
            CreateTypeface(fontName, weight >= FontWeight.SemiBold, italic: false);

        public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) =>
            fontName != Family ? null : bold ? Bold : Regular;
    }
}
