using System.Globalization;
using System.Text;

namespace FlowSim.Commands.Output;

/// <summary>Makes foreign text fit to print: nothing in it can steer a terminal, turn its direction or flood it.</summary>
internal static class Printable
{
    /// <summary>Longest text echoed, characters.</summary>
    public const int Longest = 60;

    /// <summary>The text with control, format and stray surrogate characters written out, cut to length.</summary>
    /// <param name="text">Text from a file, an option or a path.</param>
    /// <param name="longest">Longest result before the sign of the cut.</param>
    public static string Of(string text, int longest = Longest)
    {
        StringBuilder result = new();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (result.Length >= longest)
                return result.Append('…').ToString();
            if (IsPlain(rune))
                result.Append(rune.ToString());
            else
                result.Append(CultureInfo.InvariantCulture, $"\\u{{{rune.Value:X4}}}");
        }

        return result.ToString();
    }

    /// <summary>Whether a character is seen where it stands and steers nothing.</summary>
    /// <param name="rune">Character.</param>
    public static bool IsPlain(Rune rune) => Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate
        or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned
        or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);
}
