namespace FlowSim.Commands.Input;

/// <summary>What kind of value was written.</summary>
internal enum ValueKind
{
    Text,
    Number,
    Flag,
    List,

    /// <summary>From an option, without quotes: a text that may also be a number or a flag.</summary>
    Bare,

    /// <summary>A date or a table, which no key takes.</summary>
    Other,
}

/// <summary>One value of the input, before anybody knows what it means.</summary>
/// <param name="Kind">What was written.</param>
/// <param name="Spot">Where it begins.</param>
/// <param name="Text">The text, or the number as written.</param>
internal sealed record InputValue(ValueKind Kind, Spot Spot, string Text)
{
    /// <summary>The entries of a list.</summary>
    public IReadOnlyList<InputValue> Items { get; init; } = [];

    /// <summary>Characters from <see cref="Spot"/> to the first of <see cref="Text"/>; null when they do not run in step.</summary>
    public int? TextOffset { get; init; }

    /// <summary>Said of a value that a calibration put in the place of what its section says; null for all others.</summary>
    public CalibrationMark? Calibrated { get; init; }

    /// <summary>Where a character of the text stands.</summary>
    /// <param name="offset">Characters from the begin of the text.</param>
    public Spot At(int offset) => TextOffset is { } start ? Spot.After(start + offset) : Spot;

    public string KindName => Kind switch
    {
        ValueKind.Text or ValueKind.Bare => "a text",
        ValueKind.Number => "a number",
        ValueKind.Flag => "true or false",
        ValueKind.List => "a list",
        _ => "a date or a table",
    };
}

/// <summary>What is said of a value that was learnt.</summary>
/// <param name="By">The calibration, in words.</param>
/// <param name="Replaces">What the section said, as written; null when it said nothing.</param>
internal sealed record CalibrationMark(string By, string? Replaces);

/// <summary>One key of a section.</summary>
/// <param name="Key">Name as written.</param>
/// <param name="KeySpot">Where the name stands.</param>
/// <param name="Value">Its value.</param>
/// <param name="FromOption">Whether it came from an option and not from the file.</param>
internal sealed record InputEntry(string Key, Spot KeySpot, InputValue Value, bool FromOption);

/// <summary>The sections of a file, in order, each with its keys.</summary>
internal sealed class InputDocument
{
    public Dictionary<string, Dictionary<string, InputEntry>> Sections { get; } = new(StringComparer.Ordinal);

    /// <summary>Where each section begins.</summary>
    public Dictionary<string, Spot> SectionSpots { get; } = new(StringComparer.Ordinal);
}
