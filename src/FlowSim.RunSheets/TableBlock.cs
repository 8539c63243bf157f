namespace FlowSim.RunSheets;

/// <summary>A table whose first column names its rows.</summary>
/// <param name="Caption">What it shows.</param>
/// <param name="Columns">Columns, the one of the names first.</param>
/// <param name="Rows">Rows.</param>
public sealed record TableBlock(string Caption, IReadOnlyList<TableColumn> Columns, IReadOnlyList<TableRow> Rows) : SheetBlock;

/// <summary>A column of a table.</summary>
/// <param name="Head">Head.</param>
/// <param name="IsNumber">Whether its cells are set to the right. Default: no.</param>
public sealed record TableColumn(string Head, bool IsNumber = false);

/// <summary>A row of a table.</summary>
/// <param name="Cells">Cells; where there are fewer than columns, the last one reaches to the end.</param>
/// <param name="IsChosen">Whether it is the one that was chosen; it is marked by a word, not by colour alone. Default: no.</param>
public sealed record TableRow(IReadOnlyList<string> Cells, bool IsChosen = false);
