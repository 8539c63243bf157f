using System.Text;
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

    /// <summary>Writes the batch anew, if it still is what was read.</summary>
    /// <param name="path">Path as the user gave it.</param>
    /// <param name="before">Its bytes as they were read.</param>
    /// <param name="text">Its new text.</param>
    /// <exception cref="FileTroubleException">It has changed meanwhile, or cannot be written.</exception>
    public static void Replace(string path, byte[] before, string text) => OutputFile.Write(path, force: true, temporary =>
    {
        File.WriteAllText(temporary, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(temporary, File.GetUnixFileMode(path));

        // Last, right before it is put in place.
        if (!InputFile.ReadBytes(path, InputFile.Batch).AsSpan().SequenceEqual(before))
            throw new FileTroubleException($"{Printable.Of(path, 200)} has changed while the fit was made; nothing is written: fit again, or write elsewhere with --save-as");
    });

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
