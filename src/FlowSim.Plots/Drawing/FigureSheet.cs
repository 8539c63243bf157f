using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using ScottPlot;
using SkiaSharp;

namespace FlowSim.Plots.Drawing;

/// <summary>A white sheet, measured in pixels from its top left corner, that ends up as PNG or SVG.</summary>
internal sealed class FigureSheet : IDisposable
{
    private readonly SKCanvas _canvas;
    private readonly Dictionary<(float Size, bool Bold), SKFont> _fonts = [];

    private FigureSheet(SKCanvas canvas, int width, int height)
    {
        _canvas = canvas;
        Width = width;
        Height = height;
        using SKPaint white = new() { Color = SKColors.White };
        canvas.DrawRect(0, 0, width, height, white);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>A figure on a sheet of a given size.</summary>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="title">Title of the file.</param>
    /// <param name="draw">Draws it.</param>
    public static DrawnFigure Of(int width, int height, string title, Action<FigureSheet> draw) => new(format => Encode(format, width, height, title, draw));

    /// <summary>A figure on a sheet that is as high as what stands on it.</summary>
    /// <param name="width">Width, px.</param>
    /// <param name="title">Title of the file.</param>
    /// <param name="draw">Draws from the top and says where it ended, px.</param>
    public static DrawnFigure ToFit(int width, string title, Func<FigureSheet, float> draw) => new(format =>
    {
        int height = Tried(width, sheet => (int)Math.Ceiling(draw(sheet)));
        return Encode(format, width, height, title, sheet => draw(sheet));
    });

    /// <summary>What drawing on a sheet that nobody sees tells, as how much room it takes.</summary>
    /// <param name="width">Width, px.</param>
    /// <param name="draw">Draws and tells.</param>
    public static int Tried(int width, Func<FigureSheet, int> draw)
    {
        int told = 0;
        _ = Encode(FigureFormat.Png, width, 1, "", sheet => told = draw(sheet));
        return told;
    }

    private static byte[] Encode(FigureFormat format, int width, int height, string title, Action<FigureSheet> draw)
    {
        FigureFont.Register();
        switch (format)
        {
            case FigureFormat.Png:
                using (SKSurface surface = SKSurface.Create(new SKImageInfo(width, height)))
                {
                    using (FigureSheet sheet = new(surface.Canvas, width, height))
                        draw(sheet);
                    using SKImage image = surface.Snapshot();
                    using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
                    return data.ToArray();
                }

            case FigureFormat.Svg:
                using (MemoryStream stream = new())
                {
                    // The canvas writes its last tag when it is disposed.
                    using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, width, height), stream))
                    using (FigureSheet sheet = new(canvas, width, height))
                        draw(sheet);
                    return TidySvg(stream.ToArray(), width, height, title);
                }

            default:
                throw new ArgumentOutOfRangeException(nameof(format), format, "must be Png or Svg");
        }
    }

    public SKFont Font(float size, bool bold = false)
    {
        if (!_fonts.TryGetValue((size, bold), out SKFont? font))
        {
            font = new SKFont(bold ? FigureFont.Bold : FigureFont.Regular, size) { Subpixel = true, Edging = SKFontEdging.Antialias };
            _fonts.Add((size, bold), font);
        }

        return font;
    }

    public float Measure(string text, float size, bool bold = false) => Font(size, bold).MeasureText(text);

    /// <summary>Text with its left end at x and its middle (half the height of a capital) at y.</summary>
    public void Text(string text, float x, float y, float size, bool bold = false, string hex = OkabeIto.Black)
    {
        if (text.Length == 0)
            return;

        using SKPaint paint = new() { Color = SKColor.Parse(hex), IsAntialias = true };
        _canvas.DrawText(text, x, y + 0.36f * size, SKTextAlign.Left, Font(size, bold), paint);
    }

    /// <summary>Text that reads upward, centred on a point.</summary>
    public void TextUpward(string text, float x, float y, float size)
    {
        _canvas.Save();
        _canvas.Translate(x, y);
        _canvas.RotateDegrees(-90);
        Text(text, -Measure(text, size) / 2, 0, size);
        _canvas.Restore();
    }

    public void Line(float x1, float y1, float x2, float y2, LineLook look)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(look.Hex), StrokeWidth = look.WidthPx, IsStroke = true, IsAntialias = true };
        using SKPathEffect? dash = look.Dash.Length == 0 ? null : SKPathEffect.CreateDash(look.Dash, 0);
        paint.PathEffect = dash;
        _canvas.DrawLine(x1, y1, x2, y2, paint);
    }

    /// <summary>Separate straight pieces, drawn as one path.</summary>
    public void Pieces(IReadOnlyList<(float X1, float Y1, float X2, float Y2)> pieces, LineLook look)
    {
        if (pieces.Count == 0)
            return;

        using SKPaint paint = new() { Color = SKColor.Parse(look.Hex), StrokeWidth = look.WidthPx, IsStroke = true, IsAntialias = true, StrokeCap = SKStrokeCap.Round };
        using SKPath path = new();
        foreach ((float x1, float y1, float x2, float y2) in pieces)
        {
            path.MoveTo(x1, y1);
            path.LineTo(x2, y2);
        }

        _canvas.DrawPath(path, paint);
    }

    /// <summary>A picture of colours, stretched smoothly over a rectangle.</summary>
    /// <param name="rect">Where it goes.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="rows">Its rows, the first at the top.</param>
    /// <param name="colourOf">Colour of a column and row.</param>
    public void Picture(PixelRect rect, int columns, int rows, Func<int, int, Color> colourOf)
    {
        byte[] pixels = new byte[4 * columns * rows];
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                Color colour = colourOf(column, row);
                int at = 4 * (row * columns + column);
                (pixels[at], pixels[at + 1], pixels[at + 2], pixels[at + 3]) = (colour.R, colour.G, colour.B, byte.MaxValue);
            }
        }

        using SKBitmap bitmap = new(columns, rows, SKColorType.Rgba8888, SKAlphaType.Opaque);
        Marshal.Copy(pixels, 0, bitmap.GetPixels(), pixels.Length);
        using SKImage image = SKImage.FromBitmap(bitmap);
        _canvas.DrawImage(image, new SKRect(rect.Left, rect.Top, rect.Right, rect.Bottom), new SKSamplingOptions(SKFilterMode.Linear));
    }

    public void Fill(float left, float top, float right, float bottom, string hex)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(hex), IsAntialias = false };
        _canvas.DrawRect(left, top, right - left, bottom - top, paint);
    }

    public void Marker(float x, float y, MarkerShape shape, float size, string hex, float linePx = 2.5f)
    {
        using Paint paint = Paint.NewDisposablePaint();
        MarkerStyle style = new(shape, size, Color.FromHex(hex)) { LineWidth = linePx };
        ScottPlot.Drawing.DrawMarker(_canvas, paint, new Pixel(x, y), style);
    }

    /// <summary>Draws a panel whose rectangle includes its axes.</summary>
    public void Render(Plot plot, PixelRect rect)
    {
        plot.RenderManager.ClearCanvasBeforeEachRender = false;

        // ScottPlot draws a plot twice the first time, relying on the canvas being cleared in between; here that would stay.
        using (SKNoDrawCanvas nowhere = new(Width, Height))
            plot.Render(nowhere, rect);
        plot.Render(_canvas, rect);
    }

    public void Dispose()
    {
        foreach (SKFont font in _fonts.Values)
            font.Dispose();
    }

    /// <summary>
    /// Gives the drawing a title for those who hear it, a view box so that it scales, other fonts to fall back on, and leaves the
    /// spacing of letters to the viewer: Skia's fixed position of each letter reads badly in any other font. Skia numbers its clips
    /// through the life of the process; here they are numbered from 1, so that the same figure is the same file.
    /// </summary>
    private static byte[] TidySvg(byte[] skia, int width, int height, string title)
    {
        XDocument document = XDocument.Parse(Encoding.UTF8.GetString(skia));
        XElement root = document.Root!;
        XNamespace ns = root.Name.Namespace;
        root.SetAttributeValue("viewBox", FormattableString.Invariant($"0 0 {width} {height}"));
        root.SetAttributeValue("role", "img");
        root.AddFirst(new XElement(ns + "title", title));
        foreach (XElement text in root.Descendants(ns + "text"))
        {
            text.Value = text.Value.Trim();
            text.SetAttributeValue("font-family", FigureFont.SvgFamily);
            foreach (string place in (ReadOnlySpan<string>)["x", "y"])
            {
                string? places = text.Attribute(place)?.Value;
                if (places is not null)
                    text.SetAttributeValue(place, places.Split(',')[0].Trim());
            }
        }

        Dictionary<string, string> clips = new(StringComparer.Ordinal);
        foreach (XElement clip in root.Descendants(ns + "clipPath"))
        {
            string id = "clip" + (clips.Count + 1).ToString(CultureInfo.InvariantCulture);
            clips["url(#" + clip.Attribute("id")!.Value + ")"] = "url(#" + id + ")";
            clip.SetAttributeValue("id", id);
        }

        foreach (XAttribute use in root.Descendants().Attributes("clip-path"))
            use.Value = clips.GetValueOrDefault(use.Value, use.Value);

        using MemoryStream stream = new();
        XmlWriterSettings settings = new() { Encoding = new UTF8Encoding(false), Indent = false, NewLineHandling = NewLineHandling.None };
        using (XmlWriter writer = XmlWriter.Create(stream, settings))
            document.Save(writer);
        return stream.ToArray();
    }
}
