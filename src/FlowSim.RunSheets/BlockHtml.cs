using System.Globalization;

namespace FlowSim.RunSheets;

/// <summary>Blocks as HTML: each by the element that means it.</summary>
/// <param name="html">Takes the page.</param>
internal sealed class BlockHtml(HtmlWriter html)
{
    /// <summary>Lines from which a file is set in columns. Engineering choice.</summary>
    private const int ManyLines = 12;

    private int _figures;

    /// <summary>Writes a block.</summary>
    /// <param name="block">Block.</param>
    /// <param name="heading">Heading of its section: a table that says the same says it only to those who hear it.</param>
    public void Write(SheetBlock block, string heading)
    {
        switch (block)
        {
            case ParagraphBlock paragraph:
                html.Element("p", paragraph.Text);
                break;
            case ListBlock list:
                WriteList(list);
                break;
            case PairsBlock pairs:
                WritePairs(pairs);
                break;
            case WatchBlock watch:
                WriteWatch(watch);
                break;
            case CautionsBlock cautions:
                WriteCautions(cautions);
                break;
            case NoticesBlock notices:
                WriteNotices(notices);
                break;
            case AssumptionsBlock assumptions:
                WriteAssumptions(assumptions);
                break;
            case TableBlock table:
                WriteTable(table, "table", heading);
                break;
            case FigureBlock figure:
                WriteFigure(figure);
                break;
            case VerbatimBlock verbatim:
                WriteVerbatim(verbatim);
                break;
        }
    }

    private void WriteVerbatim(VerbatimBlock verbatim)
    {
        if (verbatim.Caption.Length > 0)
            html.Element("h3", verbatim.Caption);
        string text = verbatim.Text.TrimEnd('\n', '\r');
        html.Open("pre", ("class", text.AsSpan().Count('\n') >= ManyLines ? "many" : null)).Open("code").Text(text, keepLines: true).Close(newLine: false).Close();
    }

    private void WriteList(ListBlock list)
    {
        html.Open(list.Numbered ? "ol" : "ul", ("class", list.Numbered ? "steps" : null));
        foreach (string item in list.Items)
            html.Element("li", item);
        html.Close();
    }

    private void WritePairs(PairsBlock pairs)
    {
        if (pairs.Caption.Length > 0)
            html.Element("h3", pairs.Caption);
        if (pairs.Pairs.Count == 0)
            return;
        html.Open("dl", ("class", "pairs"));
        foreach (SheetPair pair in pairs.Pairs)
            html.Open("div").Element("dt", pair.Name).Element("dd", pair.Value).Close();
        html.Close();
    }

    private void WriteWatch(WatchBlock watch)
    {
        html.Open("dl", ("class", "watch"));
        foreach (WatchNumber number in watch.Numbers)
        {
            html.Open("div").Element("dt", number.Label).Element("dd", number.Value, ("class", "number"));
            if (number.Note.Length > 0)
                html.Element("dd", number.Note, ("class", "note"));
            html.Close();
        }

        html.Close();
    }

    private void WriteCautions(CautionsBlock cautions)
    {
        html.Open("ul", ("class", "cautions"));
        foreach (SheetCaution caution in cautions.Cautions)
        {
            html.Open("li").Text(caution.Text);
            if (caution.Source.Length > 0)
                html.Text(" ").Element("small", caution.Source);
            html.Close();
        }

        html.Close();
    }

    private void WriteNotices(NoticesBlock notices)
    {
        html.Open("ul", ("class", "notices"));
        foreach (SheetNotice notice in notices.Notices)
            html.Open("li").Element("strong", notice.Seen).Text(" – " + notice.MayMean + " – " + notice.Helps).Close();
        html.Close();
    }

    private void WriteAssumptions(AssumptionsBlock assumptions) => WriteTable(
        new TableBlock(
            "What was taken, how far it can be trusted, and the key that replaces it",
            [new("Taken"), new("Standing"), new("Key")],
            [.. assumptions.Assumptions.Select(one => new TableRow([one.Text, one.Standing, one.Key]))]),
        "table assumed",
        string.Empty);

    private void WriteTable(TableBlock table, string kind, string heading)
    {
        // What is wider than the screen scrolls in its own box, which the keyboard must reach.
        html.Open("div", ("class", kind), ("role", "region"), ("aria-label", table.Caption), ("tabindex", "0"));
        html.Open("table").Element("caption", table.Caption, ("class", string.Equals(table.Caption, heading, StringComparison.Ordinal) ? "heard" : null));
        html.Open("thead").Open("tr");
        foreach (TableColumn column in table.Columns)
            html.Element("th", column.Head, ("scope", "col"), ("class", column.IsNumber ? "number" : null));
        html.Close().Close().Open("tbody");
        foreach (TableRow row in table.Rows)
            WriteRow(table, row);
        html.Close().Close().Close();
    }

    private void WriteRow(TableBlock table, TableRow row)
    {
        html.Open("tr", ("class", row.IsChosen ? "chosen" : null));
        for (int i = 0; i < row.Cells.Count; i++)
        {
            bool reachesOn = i == row.Cells.Count - 1 && row.Cells.Count < table.Columns.Count;
            string? span = reachesOn ? (table.Columns.Count - i).ToString(CultureInfo.InvariantCulture) : null;
            string? kind = !reachesOn && table.Columns[i].IsNumber ? "number" : null;
            if (i > 0)
            {
                html.Element("td", row.Cells[i], ("class", kind), ("colspan", span));
                continue;
            }

            html.Open("th", ("scope", "row"), ("class", kind), ("colspan", span)).Text(row.Cells[i]);
            if (row.IsChosen)
                html.Text(" ").Element("b", "chosen");
            html.Close();
        }

        html.Close();
    }

    private void WriteFigure(FigureBlock figure)
    {
        _figures++;
        html.Open("figure");
        html.Open("div", ("class", "drawing"), ("role", "region"), ("aria-label", "Figure: " + figure.Caption), ("tabindex", "0"));
        InlineSvg.Write(html, figure, string.Create(CultureInfo.InvariantCulture, $"figure-{_figures}-"));
        html.Close().Element("figcaption", figure.Caption).Close();
    }
}
