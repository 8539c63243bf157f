using System.Globalization;
using System.Text;

namespace FlowSim.Console.Output;

/// <summary>Columns as RFC 4180: CRLF, one header line, SI units in the header, a decimal point.</summary>
internal static class CsvText
{
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
