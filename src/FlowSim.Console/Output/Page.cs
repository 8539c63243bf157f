namespace FlowSim.Console.Output;

/// <summary>Lines of text, folded to a width.</summary>
/// <param name="writer">Takes the lines.</param>
/// <param name="width">Columns.</param>
/// <param name="colour">Whether headings and the outcome are coloured.</param>
internal sealed class Page(TextWriter writer, int width, bool colour)
{
    private const string Reset = "\u001b[0m";

    /// <summary>Units of time after which a smaller one may follow, as in "6 h 20 min".</summary>
    private static readonly string[] s_goesOn = [" d", " h", " min"];

    private static readonly string[] s_units =
        ["%", "°C", "°F", "K", "mm", "m", "um", "µm", "in", "L", "gal", "kg", "g", "lb", "s", "min", "h", "d", "kWh", "W", "kW", "m/s", "ft/min", "days", "mg/kg", "g/kg", "W/m2K", "W/(m²·K)", "Pa·s", "kg/m³"];

    public int Width { get; } = width;

    public void Blank() => writer.Write('\n');

    public void Heading(string text) => Line(colour ? "\u001b[1m" + text + Reset : text);

    /// <summary>A line that is not folded; it must be short by itself.</summary>
    /// <param name="text">Text.</param>
    public void Line(string text)
    {
        writer.Write(text);
        writer.Write('\n');
    }

    /// <summary>The outcome in one line, coloured by how bad it is; the words say it too.</summary>
    /// <param name="text">Text.</param>
    /// <param name="bad">Whether something ran over or stopped.</param>
    public void Outcome(string text, bool bad)
    {
        string[] lines = [.. Fold(text, Width)];
        foreach (string line in lines)
            Line(colour ? (bad ? "\u001b[1;31m" : "\u001b[1;32m") + line + Reset : line);
    }

    /// <summary>A paragraph with a mark in front; further lines stand under the text.</summary>
    /// <param name="mark">Mark, such as "- ".</param>
    /// <param name="text">Text.</param>
    public void Item(string mark, string text)
    {
        string lead = mark;
        foreach (string line in Fold(text, Width - mark.Length))
        {
            Line(lead + line);
            lead = new string(' ', mark.Length);
        }
    }

    /// <summary>A name and a value, the value in its column.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Value.</param>
    /// <param name="column">Column of the value.</param>
    public void Pair(string name, string value, int column)
    {
        string lead = name.PadRight(column);
        if (name.Length >= column)
            lead = name + " ";
        foreach (string line in Fold(value, Math.Max(12, Width - lead.Length)))
        {
            Line((lead + line).TrimEnd());
            lead = new string(' ', lead.Length);
        }
    }

    /// <summary>Folds a text at spaces.</summary>
    /// <param name="text">Text.</param>
    /// <param name="columns">Columns.</param>
    public static IEnumerable<string> Fold(string text, int columns)
    {
        string line = string.Empty;
        foreach (string word in Words(text))
        {
            string rest = word;
            while (rest.Length > columns)
            {
                if (line.Length > 0)
                    yield return line;
                line = string.Empty;
                yield return rest[..columns];
                rest = rest[columns..];
            }

            if (line.Length > 0 && line.Length + 1 + rest.Length > columns)
            {
                yield return line;
                line = rest;
            }
            else
            {
                line = line.Length == 0 ? rest : line + " " + rest;
            }
        }

        if (line.Length > 0)
            yield return line;
    }

    /// <summary>Words between which a line may break: a number keeps its unit, and a time its parts.</summary>
    private static IEnumerable<string> Words(string text)
    {
        string? time = null;
        foreach (string word in Amounts(text))
        {
            bool follows = time is not null && char.IsAsciiDigit(word[0]) && word.Contains(' ', StringComparison.Ordinal);
            if (time is not null && !follows)
                yield return time;
            string whole = follows ? time + " " + word : word;
            time = Array.Exists(s_goesOn, unit => whole.EndsWith(unit, StringComparison.Ordinal)) ? whole : null;
            if (time is null)
                yield return whole;
        }

        if (time is not null)
            yield return time;
    }

    private static IEnumerable<string> Amounts(string text)
    {
        string? held = null;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (held is not null && Array.IndexOf(s_units, word.TrimEnd('.', ',', ';', ':', ')')) >= 0)
            {
                yield return held + " " + word;
                held = null;
                continue;
            }

            if (held is not null)
                yield return held;
            held = char.IsAsciiDigit(word[^1]) ? word : null;
            if (held is null)
                yield return word;
        }

        if (held is not null)
            yield return held;
    }
}
