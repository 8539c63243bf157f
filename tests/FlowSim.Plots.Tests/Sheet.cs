using System.Buffers.Binary;
using SkiaSharp;

namespace FlowSim.Plots.Tests;

/// <summary>What holds for every sheet of these figures.</summary>
internal static class Sheet
{
    /// <summary>On a phone 500 px wide the sheet is drawn at half its size: 10 px are left of this.</summary>
    private const float SmallestTextPx = 20;

    public static string[] Texts(string svg) => [.. SvgText.In(svg).Select(t => t.Text)];

    /// <summary>Words stay on the sheet, off each other, large enough, and none is drawn twice.</summary>
    public static void AssertReadable(string svg)
    {
        System.Xml.Linq.XElement root = System.Xml.Linq.XDocument.Parse(svg).Root!;
        float[] box = [.. root.Attribute("viewBox")!.Value.Split(' ').Select(v => float.Parse(v, System.Globalization.CultureInfo.InvariantCulture))];
        Assert.DoesNotContain(root.DescendantsAndSelf().SelectMany(e => e.Attributes()), a => a.Name.LocalName != "href" && a.Value.Contains("NaN", StringComparison.OrdinalIgnoreCase));
        SvgText[] texts = SvgText.In(svg);
        Assert.NotEmpty(texts);
        for (int i = 0; i < texts.Length; i++)
        {
            Assert.True(texts[i].Left >= 0 && texts[i].Right <= box[2] && texts[i].Top >= 0 && texts[i].Bottom <= box[3], texts[i].ToString());
            Assert.True(texts[i].Size >= SmallestTextPx, texts[i].ToString());
            for (int j = 0; j < i; j++)
                Assert.False(texts[i].Overlaps(texts[j]), texts[i] + " on " + texts[j]);
        }
    }

    /// <summary>A picture with something on it and a white rim.</summary>
    public static SKBitmap AssertPicture(byte[] png, int width)
    {
        // PNG specification (ISO/IEC 15948), 5.2 and 11.2.2: signature, then the IHDR chunk with width and height. From memory.
        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        Assert.Equal(width, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        SKBitmap picture = SKBitmap.Decode(png);
        Assert.Equal(SKColors.White, picture.GetPixel(2, 2));
        Assert.Equal(SKColors.White, picture.GetPixel(picture.Width - 3, picture.Height - 3));
        return picture;
    }

    /// <summary>First and last column and row of the pixels of exactly one colour, within some rows.</summary>
    public static (int Left, int Top, int Right, int Bottom) Extent(SKBitmap picture, string hex, int fromRow = 0, int toRow = int.MaxValue)
    {
        SKColor colour = SKColor.Parse(hex);
        (int left, int top, int right, int bottom) = (int.MaxValue, int.MaxValue, -1, -1);
        for (int y = fromRow; y < Math.Min(toRow, picture.Height); y++)
        {
            for (int x = 0; x < picture.Width; x++)
            {
                if (picture.GetPixel(x, y) == colour)
                    (left, top, right, bottom) = (Math.Min(left, x), Math.Min(top, y), Math.Max(right, x), Math.Max(bottom, y));
            }
        }

        return (left, top, right, bottom);
    }

    /// <summary>Number of pixels of exactly one colour.</summary>
    public static int Count(SKBitmap picture, string hex)
    {
        SKColor colour = SKColor.Parse(hex);
        return picture.Pixels.Count(p => p == colour);
    }
}
