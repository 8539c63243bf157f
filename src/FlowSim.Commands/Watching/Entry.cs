using FlowSim.Straining;

namespace FlowSim.Commands.Watching;

/// <summary>What somebody typed.</summary>
internal abstract record Entry
{
    /// <summary>When it was, s since the opening of the gate; null for now.</summary>
    public double? AtS { get; init; }
}

/// <summary>A reading.</summary>
/// <param name="Quantity">What was read.</param>
/// <param name="Si">Value, SI.</param>
internal sealed record ReadingEntry(StrainingObservable Quantity, double Si) : Entry;

/// <summary>A scrape, or the gate moved.</summary>
/// <param name="Opening">Opening, share of the bore; null for a scrape.</param>
internal sealed record StepEntry(double? Opening) : Entry;

/// <summary>A remark for people.</summary>
/// <param name="Text">Text.</param>
internal sealed record RemarkEntry(string Text) : Entry;

/// <summary>A word that is no entry of the log.</summary>
/// <param name="Word">Word.</param>
internal sealed record WordEntry(WatchWord Word) : Entry;

/// <summary>Words.</summary>
internal enum WatchWord
{
    /// <summary>The gate is opened now.</summary>
    Opened,

    /// <summary>Takes the last entry back.</summary>
    Undo,

    /// <summary>Tells why.</summary>
    Why,

    /// <summary>Tells what can be typed.</summary>
    Help,

    /// <summary>Ends.</summary>
    Quit,

    /// <summary>Nothing was typed.</summary>
    Nothing,
}
