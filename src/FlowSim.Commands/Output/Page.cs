using System.Globalization;

namespace FlowSim.Commands.Output;

/// <summary>A page of a terminal: lines of text, folded to a width.</summary>
/// <param name="writer">Takes the lines.</param>
/// <param name="width">Columns.</param>
/// <param name="colour">Whether headings and the outcome are coloured.</param>
internal sealed class Page(TextWriter writer, int width, bool colour) : IPage
{
    private const string Reset = "\u001b[0m";

    public int Width { get; } = width;

    public void Blank() => writer.Write('\n');

    public void Heading(string text, PagePart part = PagePart.More) => Line(colour ? "\u001b[1m" + text + Reset : text);

    public void Caption(string name, string value = "", int column = 0) => Line(value.Length == 0 ? name : name.PadRight(column) + value);

    /// <summary>A line that is not folded; it must be short by itself.</summary>
    /// <param name="text">Text.</param>
    public void Line(string text)
    {
        writer.Write(text);
        writer.Write('\n');
    }

    public void Outcome(string text, bool bad)
    {
        string[] lines = [.. Fold(text, Width)];
        foreach (string line in lines)
            Line(colour ? (bad ? "\u001b[1;31m" : "\u001b[1;32m") + line + Reset : line);
    }

    /// <inheritdoc/>
    /// <remarks>Further lines stand under the text.</remarks>
    public void Item(string mark, string text)
    {
        string lead = mark;
        foreach (string line in Fold(text, Width - mark.Length))
        {
            Line(lead + line);
            lead = new string(' ', mark.Length);
        }
    }

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

    public void Steps(IReadOnlyList<string> steps)
    {
        for (int i = 0; i < steps.Count; i++)
            Item(string.Create(CultureInfo.InvariantCulture, $"{i + 1}. "), steps[i]);
    }

    public void Table(TextTable table)
    {
        Line(table.HeadLine());
        foreach (TextRow row in table.Rows)
        {
            if (table.StandsAlone(row))
                Item("", row.Cells[0]);
            Line(table.RowLine(row));
        }
    }

    public void Agenda(string caption, IReadOnlyList<AgendaLine> lines)
    {
        int from = lines.Max(line => line.From.Length), to = lines.Max(line => line.To.Length), who = lines.Max(line => line.Who.Length);
        foreach (AgendaLine line in lines)
            Item($"{line.From.PadLeft(from)} to {line.To.PadRight(to)}  {line.Who.PadRight(who)}  ", line.What + (line.Slack.Length == 0 ? string.Empty : $" [{line.Slack}]"));
    }

    public void Assumed(string text, Standing standing, string key) =>
        Item("- ", $"{text} [{StandingText.Of(standing)}{(key.Length == 0 ? string.Empty : "; " + key)}]");

    public void Notice(string seen, string mayMean, string helps) => Item("! ", new Notice(string.Empty, seen, mayMean, helps).ToString());

    public void Caution(string text, Source source) => Item("- ", text);

    public void Verbatim(string text)
    {
        foreach (string line in text.TrimEnd('\n').Split('\n'))
            Line(line);
    }

    /// <summary>Folds a text at spaces.</summary>
    /// <param name="text">Text.</param>
    /// <param name="columns">Columns.</param>
    public static IEnumerable<string> Fold(string text, int columns)
    {
        string line = string.Empty;
        foreach (string word in WholeWords.Of(text))
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
}
