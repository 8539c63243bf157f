using FlowSim.Commands.Output;
using Tomlyn.Syntax;

namespace FlowSim.Commands.Input;

/// <summary>The largest TOML that is read. Checked on the syntax alone, before any of it is given a meaning: no message, quantity or table is made of what lies beyond.</summary>
internal static class TomlLimits
{
    /// <summary>Sections of a file; the largest day has 121.</summary>
    public const int Sections = 200;

    /// <summary>Keys of a section; the largest of a batch has some 30.</summary>
    public const int Keys = 200;

    /// <summary>Values of a file, the entries of lists among them: two level tables of 10 000 steps and more.</summary>
    public const int Values = 50_000;

    /// <summary>Parts of a name, as in a.b.</summary>
    public const int NameParts = 4;

    /// <summary>Characters of a name.</summary>
    public const int NameLength = 200;

    /// <summary>Characters of a text.</summary>
    public const int TextLength = 4096;

    /// <summary>Lists within lists.</summary>
    public const int Depth = 4;

    /// <summary>Keys set by options, or by one batch of a day.</summary>
    public const int Settings = 200;

    /// <summary>Characters of one of those.</summary>
    public const int SettingLength = 100_000;

    /// <summary>Checks a document.</summary>
    /// <param name="syntax">Document.</param>
    /// <param name="source">File as the user named it.</param>
    /// <param name="problems">Takes the first that is too large.</param>
    /// <returns>Whether all is within the limits.</returns>
    public static bool Hold(DocumentSyntax syntax, string source, Problems problems)
    {
        Walk walk = new(node => TomlReader.SpotOf(node, source), problems);
        if (!walk.Pairs(syntax.KeyValues))
            return false;
        int sections = 0;
        foreach (TableSyntaxBase table in syntax.Tables)
        {
            if (++sections > Sections)
                return walk.Refuse(table, FormattableString.Invariant($"is section {sections} of the file; allowed: at most {Sections}"));
            if (!walk.Name(table.Name) || !walk.Pairs(table.Items))
                return false;
        }

        return true;
    }

    /// <summary>Checks one value, as of an option.</summary>
    /// <param name="value">Value.</param>
    /// <param name="spot">Where it was given.</param>
    /// <param name="problems">Takes what is too large.</param>
    /// <returns>Whether it is within the limits.</returns>
    public static bool Hold(ValueSyntax value, Spot spot, Problems problems) => new Walk(_ => spot, problems).Value(value, 0);

    /// <summary>Walks through a document and stops at the first thing that is too large.</summary>
    /// <param name="spotOf">Where something stands.</param>
    /// <param name="problems">Takes it.</param>
    private sealed class Walk(Func<SyntaxNode, Spot> spotOf, Problems problems)
    {
        private int _values;

        public bool Refuse(SyntaxNode node, string what)
        {
            problems.Add(spotOf(node), what);
            return false;
        }

        public bool Pairs(SyntaxList<KeyValueSyntax> pairs)
        {
            int keys = 0;
            foreach (KeyValueSyntax pair in pairs)
            {
                if (++keys > Keys)
                    return Refuse(pair, FormattableString.Invariant($"is key {keys} of its section; allowed: at most {Keys}"));
                if (!Name(pair.Key) || (pair.Value is { } value && !Value(value, 0)))
                    return false;
            }

            return true;
        }

        public bool Name(KeySyntax? name)
        {
            if (name is null)
                return true;
            if (name.DotKeys.ChildrenCount >= NameParts)
                return Refuse(name, FormattableString.Invariant($"is a name of {name.DotKeys.ChildrenCount + 1} parts; allowed: at most {NameParts}"));
            int length = LengthOf(name.Key) + name.DotKeys.Sum(dot => 1 + LengthOf(dot.Key));
            return length <= NameLength || Refuse(name, FormattableString.Invariant($"is a name of {length} characters; allowed: at most {NameLength}"));
        }

        public bool Value(ValueSyntax value, int depth)
        {
            if (++_values > Values)
                return Refuse(value, FormattableString.Invariant($"is value {_values} of the file; allowed: at most {Values}"));
            if (value is StringValueSyntax { Value.Length: > TextLength and var length })
                return Refuse(value, FormattableString.Invariant($"is a text of {length} characters; allowed: at most {TextLength}"));
            if (depth > Depth)
                return Refuse(value, FormattableString.Invariant($"lies in more than {Depth} lists; allowed: at most {Depth}"));
            return value switch
            {
                ArraySyntax array => array.Items.All(item => item.Value is null || Value(item.Value, depth + 1)),
                InlineTableSyntax table => table.Items.All(item => item.KeyValue is not { } pair || (Name(pair.Key) && (pair.Value is null || Value(pair.Value, depth + 1)))),
                _ => true,
            };
        }

        private static int LengthOf(BareKeyOrStringValueSyntax? part) => TomlReader.PartOf(part).Length;
    }
}
