namespace FlowSim.Plots.Drawing;

/// <summary>Where figures come from, in lines at the foot of a sheet.</summary>
internal static class SourceNotes
{
    public static string Of(Source source) => FigureText.Clean(source.Citation) + " [" + InWords(source.Standing) + "]";

    /// <summary>Breaks text into lines; a word that is too wide by itself is cut.</summary>
    public static IEnumerable<string> Wrap(string text, FigureSheet sheet, float size, float widest)
    {
        string line = "";
        foreach (string word in Words(text))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && sheet.Measure(longer, size) > widest)
            {
                yield return FigureText.Fit(line, sheet.Font(size), widest);
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        yield return FigureText.Fit(line, sheet.Font(size), widest);
    }

    /// <summary>Words, a number and the unit after it as one.</summary>
    private static IEnumerable<string> Words(string text)
    {
        const int LongestUnit = 6;
        string? held = null;
        foreach (string word in text.Split(' '))
        {
            bool belongs = held is { Length: > 0 } && char.IsAsciiDigit(held[^1]) && word.Length is > 0 and <= LongestUnit && (char.IsLetter(word[0]) || word[0] is '°' or '%');
            if (belongs)
            {
                held += " " + word;
                continue;
            }

            if (held is not null)
                yield return held;
            held = word;
        }

        if (held is not null)
            yield return held;
    }

    private static string InWords(Standing standing) => standing switch
    {
        Standing.Opened => "opened",
        Standing.SecondaryCopy => "read in a copy",
        Standing.AbstractOnly => "abstract read",
        Standing.Derived => "derived",
        Standing.FromMemory => "from memory",
        Standing.EngineeringChoice => "engineering choice",
        Standing.CommonPractice => "common practice, no source",
        Standing.GivenByUser => "given by you",
        _ => standing.ToString(),
    };
}
