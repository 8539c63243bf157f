namespace FlowSim.Plots.Drawing;

/// <summary>Where figures come from, in lines at the foot of a sheet.</summary>
internal static class SourceNotes
{
    public static string Of(Source source) => FigureText.Clean(source.Citation) + " [" + InWords(source.Standing) + "]";

    /// <summary>Breaks text into lines; a word that is too wide by itself is cut.</summary>
    public static IEnumerable<string> Wrap(string text, FigureSheet sheet, float size, float widest)
    {
        string line = "";
        foreach (string word in text.Split(' '))
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
