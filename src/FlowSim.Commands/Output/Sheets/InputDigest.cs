using System.Text;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>An input file as a sheet shows it: every key with its value as it was written, without comments and blank lines.</summary>
internal static class InputDigest
{
    /// <summary>Sections with their keys.</summary>
    /// <param name="toml">Text that has been read as TOML.</param>
    public static string Of(string toml)
    {
        DocumentSyntax document = SyntaxParser.Parse(toml.StartsWith('\uFEFF') ? " " + toml[1..] : toml, validate: false);
        StringBuilder digest = new();
        foreach (KeyValueSyntax pair in document.KeyValues)
            Append(pair);
        foreach (TableSyntaxBase table in document.Tables.Where(table => table.Items.ChildrenCount > 0))
        {
            string heading = Text(table.OpenBracket!.Span.Start.Offset, table.CloseBracket!.Span.End.Offset);
            digest.Append(digest.Length == 0 ? string.Empty : "\n").Append(heading).Append('\n');
            foreach (KeyValueSyntax pair in table.Items)
                Append(pair);
        }

        return digest.ToString();

        void Append(KeyValueSyntax pair) => digest.Append(pair.Key!.ToString().Trim()).Append(" = ").Append(Text(pair.Value!.Span.Start.Offset, pair.Value.Span.End.Offset)).Append('\n');

        // A span ends at its last character.
        string Text(int from, int last) => toml[from..Math.Min(toml.Length, last + 1)].ReplaceLineEndings("\n");
    }
}
