namespace FlowSim.Commands.Output;

/// <summary>A column of a table.</summary>
/// <param name="Head">Head; may be empty on a terminal.</param>
/// <param name="Width">Its width on a terminal; what is longer pushes the rest aside.</param>
/// <param name="Right">Whether its cells are set to the right.</param>
internal sealed record TextColumn(string Head, int Width = 0, bool Right = false)
{
    /// <summary>Spaces in front of it on a terminal.</summary>
    public int Gap { get; init; }

    /// <summary>What a page with more room says in place of the head.</summary>
    public string? Spoken { get; init; }

    /// <summary>Whether it only pictures the others; pages that have figures leave it out.</summary>
    public bool Pictures { get; init; }
}

/// <summary>A row of a table. Fewer cells than columns: the last one is a remark that reaches to the end.</summary>
/// <param name="Cells">Cells; the first names the row.</param>
/// <param name="Chosen">Whether it is the one that was chosen.</param>
internal sealed record TextRow(IReadOnlyList<string> Cells, bool Chosen = false);

/// <summary>A table of texts.</summary>
/// <param name="caption">What it shows, where there is room to say it.</param>
/// <param name="columns">Columns.</param>
internal sealed class TextTable(string caption, params IReadOnlyList<TextColumn> columns)
{
    private const int Indent = 2;
    private readonly List<TextRow> _rows = [];

    public string Caption { get; } = caption;

    public IReadOnlyList<TextColumn> Columns { get; } = columns;

    public IReadOnlyList<TextRow> Rows => _rows;

    public void Row(params IReadOnlyList<string> cells) => _rows.Add(new TextRow(cells));

    public void Row(TextRow row) => _rows.Add(row);

    /// <summary>The heads in one line.</summary>
    public string HeadLine() => Line([.. Columns.Select(column => column.Head)]);

    /// <summary>Whether the name of a row is too long to share a line with its cells.</summary>
    /// <param name="row">Row.</param>
    public bool StandsAlone(TextRow row) => Columns[0].Width > 0 && row.Cells[0].Length + Indent >= Columns[0].Width;

    /// <summary>A row in one line.</summary>
    /// <param name="row">Row.</param>
    public string RowLine(TextRow row)
    {
        string first = StandsAlone(row) ? string.Empty : (row.Chosen ? "> " : new string(' ', Indent)) + row.Cells[0];
        return row.Cells.Count < Columns.Count
            ? first.PadRight(Columns[0].Width) + new string(' ', Indent) + row.Cells[^1]
            : Line([first, .. row.Cells.Skip(1)]);
    }

    private string Line(IReadOnlyList<string> cells) => string.Concat(Columns.Select((column, i) =>
        new string(' ', column.Gap) + (column.Right ? cells[i].PadLeft(column.Width) : cells[i].PadRight(column.Width)))).TrimEnd();
}
