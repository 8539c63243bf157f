using FlowSim.Calibration;
using FlowSim.Commands.Input;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FlowSim.Commands.Output;

/// <summary>Puts a calibration into the text of a batch and leaves every other character as it is.</summary>
internal static class CalibrationSave
{
    /// <summary>The text with the calibration in it: in the place of one that stands there, else at the end.</summary>
    /// <param name="text">Text of the batch, TOML that has been read.</param>
    /// <param name="calibrated">What was learnt.</param>
    /// <param name="date">The day of the fit.</param>
    /// <param name="units">Units.</param>
    public static string Into(string text, CalibratedInputs calibrated, DateOnly date, UnitChoice units)
    {
        int lineEnd = text.IndexOf('\n', StringComparison.Ordinal);
        string newLine = lineEnd > 0 && text[lineEnd - 1] == '\r' ? "\r\n" : "\n";
        string table = CalibrationToml.Of(calibrated, date, units, newLine);
        if (Span(text) is { } span)
            return text[..span.From] + table.TrimEnd('\r', '\n') + text[span.To..];
        string gap = text.Length == 0 ? string.Empty : text.EndsWith('\n') ? newLine : newLine + newLine;
        return text + gap + table;
    }

    /// <summary>From the heading of the section to the end of its last value; null when there is none.</summary>
    private static (int From, int To)? Span(string text)
    {
        string name = Keys.Calibration.Date.Section;
        DocumentSyntax document = SyntaxParser.Parse(text.StartsWith('\uFEFF') ? " " + text[1..] : text, validate: false);
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (table.Name is not { } key || !string.Equals(key.ToString().Trim().Trim('"', '\''), name, StringComparison.Ordinal))
                continue;
            int from = table.Span.Start.Offset;
            int to = table.CloseBracket!.Span.End.Offset;
            foreach (KeyValueSyntax pair in table.Items)
                to = Math.Max(to, pair.Value!.Span.End.Offset);

            // A span ends at its last character; what a value leaves in its line, a comment about what is replaced, goes with it.
            to++;
            while (to < text.Length && text[to] is not ('\r' or '\n'))
                to++;
            return (from, to);
        }

        return null;
    }
}
