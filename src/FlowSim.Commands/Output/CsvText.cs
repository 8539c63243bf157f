using System.Globalization;
using System.Text;

namespace FlowSim.Commands.Output;

/// <summary>Columns as RFC 4180: CRLF, one header line, SI units in the header, a decimal point.</summary>
internal static class CsvText
{
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
            _ => Quoted(Convert.ToString(value, CultureInfo.InvariantCulture)!),
        };

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
