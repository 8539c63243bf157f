namespace FlowSim.RunSheets;

/// <summary>Something that stands in a section.</summary>
public abstract record SheetBlock
{
    private protected SheetBlock()
    {
    }
}

/// <summary>A paragraph.</summary>
/// <param name="Text">Text.</param>
public sealed record ParagraphBlock(string Text) : SheetBlock;

/// <summary>A list.</summary>
/// <param name="Items">Items, in order.</param>
/// <param name="Numbered">Whether they come one after the other. Default: no.</param>
public sealed record ListBlock(IReadOnlyList<string> Items, bool Numbered = false) : SheetBlock;

/// <summary>Names with a value each.</summary>
/// <param name="Caption">What they are of; empty where the section's heading says it.</param>
/// <param name="Pairs">Names and values, in order.</param>
public sealed record PairsBlock(string Caption, IReadOnlyList<SheetPair> Pairs) : SheetBlock;

/// <summary>A name with its value.</summary>
/// <param name="Name">Name.</param>
/// <param name="Value">Value.</param>
public sealed record SheetPair(string Name, string Value);

/// <summary>Numbers in large type, for those at work to keep in sight.</summary>
/// <param name="Numbers">Numbers, the most pressing first.</param>
public sealed record WatchBlock(IReadOnlyList<WatchNumber> Numbers) : SheetBlock;

/// <summary>A number to keep in sight.</summary>
/// <param name="Label">What it is for, as in "Open the gate".</param>
/// <param name="Value">The number with its unit.</param>
/// <param name="Note">What belongs to it; empty for nothing. Default: nothing.</param>
public sealed record WatchNumber(string Label, string Value, string Note = "");

/// <summary>Reminders where work can hurt someone.</summary>
/// <param name="Cautions">Reminders.</param>
public sealed record CautionsBlock(IReadOnlyList<SheetCaution> Cautions) : SheetBlock;

/// <summary>A reminder.</summary>
/// <param name="Text">What to mind.</param>
/// <param name="Source">Where its limit comes from and how far that was read; empty for nothing to say.</param>
public sealed record SheetCaution(string Text, string Source);

/// <summary>Notices in the form: what was seen, what it may mean, what helps.</summary>
/// <param name="Notices">Notices.</param>
public sealed record NoticesBlock(IReadOnlyList<SheetNotice> Notices) : SheetBlock;

/// <summary>A notice.</summary>
/// <param name="Seen">What was seen.</param>
/// <param name="MayMean">What it may mean.</param>
/// <param name="Helps">What helps.</param>
public sealed record SheetNotice(string Seen, string MayMean, string Helps);

/// <summary>What was taken in the place of what nobody gave.</summary>
/// <param name="Assumptions">Assumptions.</param>
public sealed record AssumptionsBlock(IReadOnlyList<SheetAssumption> Assumptions) : SheetBlock;

/// <summary>An assumption.</summary>
/// <param name="Text">What was taken.</param>
/// <param name="Standing">How far it can be trusted, in words.</param>
/// <param name="Key">What replaces it; empty for nothing.</param>
public sealed record SheetAssumption(string Text, string Standing, string Key);

/// <summary>Lines that are kept as they are: a command, a file.</summary>
/// <param name="Caption">What they are.</param>
/// <param name="Text">Lines.</param>
public sealed record VerbatimBlock(string Caption, string Text) : SheetBlock;
