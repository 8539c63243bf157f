using System.Globalization;
using System.Text;

namespace FlowSim.RunSheets;

/// <summary>The one place where text becomes markup.</summary>
internal static class SafeText
{
    /// <summary>Text that stands for itself and steers nothing: markup is escaped; what is invisible or turns the direction of writing is written out.</summary>
    /// <param name="text">Any text, from anywhere.</param>
    /// <param name="keepLines">Whether ends of lines and tabs stay; else they are spaces.</param>
    public static string Of(string text, bool keepLines = false)
    {
        StringBuilder safe = new(text.Length + 16);
        foreach (Rune rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => safe.Append("&amp;"),
                '<' => safe.Append("&lt;"),
                '>' => safe.Append("&gt;"),
                '"' => safe.Append("&quot;"),
                '\'' => safe.Append("&#39;"),
                '\n' or '\t' => safe.Append(keepLines ? (char)rune.Value : ' '),
                '\r' => safe.Append(keepLines ? "" : " "),
                _ when IsPlain(rune) => safe.Append(rune.ToString()),
                _ => safe.Append(CultureInfo.InvariantCulture, $"\\u{{{rune.Value:X4}}}"),
            };
        }

        return safe.ToString();
    }

    /// <summary>Lone surrogates come as the replacement character, which is plain.</summary>
    private static bool IsPlain(Rune rune) => Rune.GetUnicodeCategory(rune) is not (
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned
        or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate);
}
