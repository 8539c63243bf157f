using System.Globalization;
using System.Text;
using SkiaSharp;

namespace FlowSim.Plots.Drawing;

/// <summary>Makes words from outside fit to draw.</summary>
internal static class FigureText
{
    private const int LongestChars = 400;

    /// <summary>Title and subtitle in one, for the title of a file.</summary>
    public static string Whole(string title, string subtitle) => subtitle.Length == 0 ? title : title + " – " + subtitle;

    /// <summary>One line of visible characters: control and direction marks dropped, gaps closed, glyphs the font lacks replaced.</summary>
    /// <remarks>Markup needs no care here: the SVG writer escapes it.</remarks>
    public static string Clean(string? text)
    {
        if (string.IsNullOrEmpty(text))
            return "";

        StringBuilder clean = new(Math.Min(text.Length, LongestChars));
        bool gap = false;
        foreach (Rune rune in text.EnumerateRunes())
        {
            UnicodeCategory category = Rune.GetUnicodeCategory(rune);
            if (Rune.IsWhiteSpace(rune) || category == UnicodeCategory.Control)
            {
                gap = clean.Length > 0;
                continue;
            }

            // Format marks (Cf) reorder or hide what stands beside them.
            if (category is UnicodeCategory.Format or UnicodeCategory.OtherNotAssigned or UnicodeCategory.PrivateUse)
                continue;

            if (gap)
                clean.Append(' ');
            gap = false;
            if (FigureFont.Regular.ContainsGlyph(rune.Value))
                clean.Append(rune.ToString());
            else
                clean.Append('□');
            if (clean.Length >= LongestChars)
                return clean.Append('…').ToString();
        }

        return clean.ToString();
    }

    /// <summary>The text, shortened at its end until it is no wider than <paramref name="widest"/>.</summary>
    public static string Fit(string text, SKFont font, float widest)
    {
        if (font.MeasureText(text) <= widest)
            return text;

        int[] starts = StringInfo.ParseCombiningCharacters(text);
        int low = 0;
        int high = starts.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (font.MeasureText(Shortened(text, starts[middle])) <= widest)
                low = middle;
            else
                high = middle - 1;
        }

        return Shortened(text, starts[low]);
    }

    /// <summary>A number with two figures or so that count.</summary>
    public static string Short(double value) => Math.Abs(value) switch
    {
        < 0.00995 => value.ToString("0.####", CultureInfo.InvariantCulture),
        < 0.995 => value.ToString("0.00", CultureInfo.InvariantCulture),
        < 9.95 => value.ToString("0.0", CultureInfo.InvariantCulture),
        _ => value.ToString("0", CultureInfo.InvariantCulture),
    };

    private static string Shortened(string text, int length) => string.Concat(text.AsSpan(0, length).TrimEnd(), "…");
}
