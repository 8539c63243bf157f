namespace FlowSim.RunSheets;

/// <summary>An answer to stick on the wall: first what came out and what to do, then all that stands behind it.</summary>
/// <remarks>It holds plain text only, whatever it is made of; <see cref="RunSheetHtml"/> alone knows of markup.</remarks>
public sealed record RunSheet
{
    /// <summary>What the sheet is about, as in "Straining: spring.toml".</summary>
    public required string Title { get; init; }

    /// <summary>What came out.</summary>
    public required SheetOutcome Outcome { get; init; }

    /// <summary>What is read first, beneath the outcome: numbers to keep in sight, what to do.</summary>
    public required IReadOnlyList<SheetSection> First { get; init; }

    /// <summary>What stands behind it, in the order of reading.</summary>
    public required IReadOnlyList<SheetSection> Rest { get; init; }

    /// <summary>The line at the end: by what the sheet was made. Default: none.</summary>
    public string Colophon { get; init; } = string.Empty;
}

/// <summary>What came out, in a line or two.</summary>
/// <param name="Verdict">The outcome in a few words; empty for none.</param>
/// <param name="Text">The rest of the sentence; empty for none.</param>
/// <param name="IsBad">Whether something went wrong. It only colours what the words say.</param>
public sealed record SheetOutcome(string Verdict, string Text, bool IsBad);

/// <summary>A part of a sheet under a heading of its own.</summary>
/// <param name="Heading">Heading.</param>
/// <param name="Blocks">What stands in it, in order.</param>
public sealed record SheetSection(string Heading, IReadOnlyList<SheetBlock> Blocks);
