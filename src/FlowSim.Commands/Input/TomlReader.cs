using System.Globalization;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FlowSim.Commands.Input;

/// <summary>Turns TOML text into sections and keys with their places; knows nothing of what they mean.</summary>
internal static class TomlReader
{
    private const string CutShort = "ends within a text, after a \\; a backslash is written twice, and a text has a closing quote";

    /// <summary>Reads a document.</summary>
    /// <param name="text">TOML text.</param>
    /// <param name="source">File as the user named it.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="dialect">What may stand in it; null for a batch.</param>
    public static InputDocument Read(string text, string source, Problems problems, Dialect? dialect = null)
    {
        dialect ??= Dialect.Batch;
        InputDocument document = new();
        DocumentSyntax syntax;
        try
        {
            // Duplicates are looked for below, where they can be named in our words.
            syntax = SyntaxParser.Parse(text, sourceName: source, validate: false);
        }
        catch (TomlException tooDeep)
        {
            problems.Add(new Spot(source, 1, 1), "cannot be read as TOML: " + Printable.Of(FirstSentence(tooDeep.Message), 200));
            return document;
        }
        catch (ArgumentOutOfRangeException)
        {
            // Where a text ends within an escape, the parser throws this.
            problems.Add(EndOf(text, source), CutShort);
            return document;
        }

        if (syntax.HasErrors)
        {
            ReportSyntax(syntax, text, source, problems);
            return document;
        }

        if (!TomlLimits.Hold(syntax, source, problems))
            return document;
        foreach (KeyValueSyntax pair in syntax.KeyValues)
            ReadRootPair(pair, source, document, problems, dialect);
        foreach (TableSyntaxBase table in syntax.Tables)
            ReadTable(table, source, document, problems, dialect);
        return document;
    }

    /// <summary>Reads <c>section.key=value</c> of an option into the document, in place of what the file says.</summary>
    /// <param name="option">The option's text.</param>
    /// <param name="document">Document to change.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="place">Where it was given, if it was not with --set.</param>
    public static void Set(string option, InputDocument document, Problems problems, Spot? place = null)
    {
        Spot spot = place ?? new("--set " + option[..Math.Min(option.Length, TomlLimits.NameLength)], 0, 0);
        if (option.Length > TomlLimits.SettingLength)
        {
            problems.Add(spot, string.Create(CultureInfo.InvariantCulture, $"has {option.Length} characters; allowed: at most {TomlLimits.SettingLength}"));
            return;
        }

        int equals = option.IndexOf('=', StringComparison.Ordinal);
        string[] name = (equals < 0 ? option : option[..equals]).Trim().Split('.');
        if (equals < 0 || name.Length != 2 || name.Any(string.IsNullOrWhiteSpace))
        {
            problems.Add(spot, "is not section.key=value, as in --set \"honey.temperature=35 °C\"");
            return;
        }

        string raw = option[(equals + 1)..].Trim();
        InputValue? value = new(ValueKind.Bare, spot, raw);
        if (raw.StartsWith('[') || raw.StartsWith('"') || raw.StartsWith('\''))
            value = ReadOptionValue(raw, spot, problems);
        if (value is null)
            return;

        string section = name[0].Trim();
        string key = name[1].Trim();
        if (!document.Sections.TryGetValue(section, out Dictionary<string, InputEntry>? keys))
        {
            document.Sections[section] = keys = new(StringComparer.Ordinal);
            document.SectionSpots[section] = spot;
        }

        if (keys.TryGetValue(key, out InputEntry? before) && before.FromOption)
        {
            problems.Add(spot, $"sets {Printable.Of(section)}.{Printable.Of(key)} a second time; give each key once");
            return;
        }

        keys[key] = new InputEntry(key, spot, value, FromOption: true);
    }

    private static InputValue? ReadOptionValue(string raw, Spot spot, Problems problems)
    {
        try
        {
            DocumentSyntax syntax = SyntaxParser.Parse("value = " + raw, validate: false);
            if (!syntax.HasErrors && syntax.KeyValues.ChildrenCount == 1 && syntax.KeyValues.First().Value is { } value)
                return TomlLimits.Hold(value, spot, problems) && ReadValue(value, spot.Source) is { } read ? WithSpot(read, spot) : null;
        }
        catch (TomlException)
        {
            // Too deep: reported below like any other value that cannot be read.
        }
        catch (ArgumentOutOfRangeException)
        {
            problems.Add(spot, CutShort);
            return null;
        }

        problems.Add(spot, "has a value that cannot be read; a list is written as [\"0 min 40%\", \"5 min 25%\"]");
        return null;
    }

    private static InputValue WithSpot(InputValue value, Spot spot) =>
        value with { Spot = spot, TextOffset = null, Items = [.. value.Items.Select(item => WithSpot(item, spot))] };

    private static void ReadRootPair(KeyValueSyntax pair, string source, InputDocument document, Problems problems, Dialect dialect)
    {
        string[] name = NameOf(pair.Key);
        Spot spot = SpotOf(pair.Key!, source);
        if (name.Length == 2)
            AddPair(name[0], name[1], pair, source, document, problems);
        else if (pair.Value is InlineTableSyntax)
            problems.Add(spot, $"\"{Printable.Of(string.Join('.', name))}\" is written as a table in one line; write a section: [{Printable.Of(name[0])}]");
        else
            problems.Add(spot, $"the key \"{Printable.Of(string.Join('.', name))}\" stands before any section; sections are {dialect.Written}");
    }

    private static void ReadTable(TableSyntaxBase table, string source, InputDocument document, Problems problems, Dialect dialect)
    {
        if (table.Name is null)
            return;

        string[] name = NameOf(table.Name);
        string section = string.Join('.', name);
        Spot spot = SpotOf(table.Name, source);
        bool isList = dialect.Lists.Contains(section, StringComparer.Ordinal);
        if (table is TableArraySyntax && isList)
        {
            section = Dialect.Numbered(section, 1 + document.SectionSpots.Keys.Count(known => known.StartsWith(section + " ", StringComparison.Ordinal)));
        }
        else if (isList)
        {
            problems.Add(spot, $"[{Printable.Of(section)}] stands once for each; write [[{Printable.Of(section)}]], in double brackets");
            return;
        }
        else if (table is TableArraySyntax)
        {
            problems.Add(spot, $"[[{Printable.Of(section)}]] is a list of sections; write [{Printable.Of(section)}] once");
            return;
        }

        if (document.SectionSpots.TryGetValue(section, out Spot first))
            problems.Add(spot, string.Create(CultureInfo.InvariantCulture, $"the section [{Printable.Of(section)}] stands twice, first in line {first.Line}; put its keys together"));
        else
            document.SectionSpots[section] = spot;
        document.Sections.TryAdd(section, new(StringComparer.Ordinal));

        foreach (KeyValueSyntax pair in table.Items)
            AddPair(section, string.Join('.', NameOf(pair.Key)), pair, source, document, problems);
    }

    private static void AddPair(string section, string key, KeyValueSyntax pair, string source, InputDocument document, Problems problems)
    {
        Spot spot = SpotOf(pair.Key!, source);
        if (pair.Value is null)
            return;
        if (!document.Sections.TryGetValue(section, out Dictionary<string, InputEntry>? keys))
        {
            document.Sections[section] = keys = new(StringComparer.Ordinal);
            document.SectionSpots.TryAdd(section, spot);
        }

        if (keys.TryGetValue(key, out InputEntry? before))
        {
            problems.Add(spot, string.Create(CultureInfo.InvariantCulture, $"the key \"{Printable.Of(key)}\" stands twice in [{Printable.Of(section)}], first in line {before.KeySpot.Line}; keep one"));
            return;
        }

        keys[key] = new InputEntry(key, spot, ReadValue(pair.Value, source), FromOption: false);
    }

    private static InputValue ReadValue(ValueSyntax value, string source)
    {
        Spot spot = SpotOf(value, source);
        switch (value)
        {
            case StringValueSyntax text:
                string written = text.Token?.Text ?? string.Empty;
                string content = text.Value ?? string.Empty;
                bool inStep = written.Length == content.Length + 2;
                return new InputValue(ValueKind.Text, spot, content) { TextOffset = inStep ? 1 : null };
            case IntegerValueSyntax integer:
                return new InputValue(ValueKind.Number, spot, integer.Token?.Text ?? string.Empty) { TextOffset = 0 };
            case FloatValueSyntax number:
                return new InputValue(ValueKind.Number, spot, number.Token?.Text ?? string.Empty) { TextOffset = 0 };
            case BooleanValueSyntax flag:
                return new InputValue(ValueKind.Flag, spot, flag.Value ? "true" : "false");
            case ArraySyntax array:
                return new InputValue(ValueKind.List, spot, string.Empty)
                {
                    Items = [.. array.Items.Where(item => item.Value is not null).Select(item => ReadValue(item.Value!, source))],
                };
            default:
                return new InputValue(ValueKind.Other, spot, string.Empty);
        }
    }

    private static void ReportSyntax(DocumentSyntax syntax, string text, string source, Problems problems)
    {
        // After the first slip in a line the parser stumbles over the rest of it: one message a line is enough.
        string[] lines = text.Split('\n');
        HashSet<int> reported = [];
        foreach (DiagnosticMessage message in syntax.Diagnostics.OrderBy(d => d.Span.Start.Line).ThenBy(d => d.Span.Start.Column))
        {
            int line = message.Span.Start.Line;
            if (message.Kind != DiagnosticMessageKind.Error || !reported.Add(line))
                continue;

            string what = "cannot be read as TOML: " + Printable.Of(message.Message.Trim(), 160);
            if (line < lines.Length && UnquotedHint(lines[line]) is { } hint)
                what += "; " + hint;
            bool loneReturn = message.Message.Contains("\\r not followed", StringComparison.Ordinal);
            bool unclosed = message.Message.Contains("newline in a string", StringComparison.Ordinal);
            if (loneReturn)
                what = "a line ends in a carriage return alone; save the file with LF or CRLF line ends";
            else if (unclosed)
                what = "a text begins here or before and has no closing quote in this line";
            problems.Add(new Spot(source, line + 1, message.Span.Start.Column + 1), what);

            // What follows would only be the echo of it.
            if (loneReturn || unclosed)
                return;
        }
    }

    private static string? UnquotedHint(string line)
    {
        int equals = line.IndexOf('=', StringComparison.Ordinal);
        if (equals < 0)
            return null;
        string value = line[(equals + 1)..].Trim();
        if (value.Length == 0)
            return "a value is missing after the = sign";
        return value[0] is '"' or '\'' or '[' or '{'
            ? null
            : $"text and values with a unit stand in quotes: {Printable.Of(line[..equals].Trim())} = \"{Printable.Of(value)}\"";
    }

    private static string[] NameOf(KeySyntax? key) => key is null
        ? [string.Empty]
        : [PartOf(key.Key), .. key.DotKeys.Select(dot => PartOf(dot.Key))];

    /// <summary>One part of a name.</summary>
    /// <param name="part">Part.</param>
    public static string PartOf(BareKeyOrStringValueSyntax? part) => part switch
    {
        BareKeySyntax bare => bare.Key?.Text ?? string.Empty,
        StringValueSyntax text => text.Value ?? string.Empty,
        _ => string.Empty,
    };

    /// <summary>Where something begins.</summary>
    /// <param name="node">What.</param>
    /// <param name="source">File as the user named it.</param>
    public static Spot SpotOf(SyntaxNode node, string source) => new(source, node.Span.Start.Line + 1, node.Span.Start.Column + 1);

    /// <summary>The end of a text.</summary>
    private static Spot EndOf(string text, string source) => new(source, 1 + text.Count(c => c == '\n'), text.Length - text.LastIndexOf('\n'));

    private static string FirstSentence(string message)
    {
        int end = message.IndexOf(". ", StringComparison.Ordinal);
        return end < 0 ? message : message[..(end + 1)];
    }
}
