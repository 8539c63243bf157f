using System.Globalization;
using System.Text;

namespace FlowSim.Commands.Output;

/// <summary>Columns as RFC 4180: CRLF, one header line, SI units in the header, a decimal point.</summary>
/// <remarks>
/// Words may come from a file. One that a spreadsheet would take for a formula gets an apostrophe in front, by which spreadsheets know text; what is invisible or turns the direction of writing
/// is written out. Numbers stay as they are, their signs too.
/// </remarks>
internal static class CsvText
{
    /// <summary>What a formula begins with, the wide forms of Asian keyboards among them.</summary>
    private const string FormulaSigns = "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20";

    /// <summary>Rows of values, some of them words or missing.</summary>
    /// <param name="heads">Names of the columns.</param>
    /// <param name="rows">Rows: numbers, words, or null for what is missing.</param>
    public static string OfRows(IReadOnlyList<string> heads, IEnumerable<IReadOnlyList<object?>> rows)
    {
        StringBuilder text = new();
        text.AppendJoin(',', heads).Append("\r\n");
        foreach (IReadOnlyList<object?> row in rows)
            text.AppendJoin(',', row.Select(Cell)).Append("\r\n");
        return text.ToString();

        static string Cell(object? value) => value switch
        {
            double number => double.IsFinite(number) ? number.ToString("R", CultureInfo.InvariantCulture) : string.Empty,
            null => string.Empty,
            string word => Quoted(Tame(word)),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture)!,
        };

        static string Tame(string word) => (word.TrimStart(' ') is [var first, ..] && FormulaSigns.Contains(first, StringComparison.Ordinal) ? "'" : string.Empty) + Printable.Of(word, int.MaxValue);

        static string Quoted(string word) => word.AsSpan().ContainsAny(",\"\r\n") ? "\"" + word.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : word;
    }

    public static string Of(IReadOnlyList<(string Head, IReadOnlyList<double> Values)> columns)
    {
        StringBuilder text = new();
        text.AppendJoin(',', columns.Select(column => column.Head)).Append("\r\n");
        for (int row = 0; row < columns[0].Values.Count; row++)
        {
            int at = row;
            text.AppendJoin(',', columns.Select(column => column.Values[at].ToString("R", CultureInfo.InvariantCulture))).Append("\r\n");
        }

        return text.ToString();
    }
}
