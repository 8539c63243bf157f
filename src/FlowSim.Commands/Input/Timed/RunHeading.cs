using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Straining;

namespace FlowSim.Commands.Input.Timed;

/// <summary>What a column holds.</summary>
internal enum ColumnKind
{
    /// <summary>Nothing: it has no heading.</summary>
    None,

    /// <summary>Time since the opening of the gate.</summary>
    Time,

    /// <summary>Readings of a quantity.</summary>
    Readings,

    /// <summary>What was done.</summary>
    Note,
}

/// <summary>How times are written.</summary>
internal enum TimeForm
{
    /// <summary>A number in the unit of the heading, or with its own.</summary>
    Number,

    /// <summary>1:05 is an hour and five minutes.</summary>
    HoursMinutes,

    /// <summary>1:05 is a minute and five seconds.</summary>
    MinutesSeconds,
}

/// <summary>The heading of a column.</summary>
/// <param name="Cell">As it stands.</param>
/// <param name="Kind">What the column holds.</param>
internal sealed record RunHeading(CsvCell Cell, ColumnKind Kind)
{
    /// <summary>What was read; of a column of readings.</summary>
    public StrainingObservable Quantity { get; init; }

    /// <summary>Unit; null for times that bring their own.</summary>
    public Unit? Unit { get; init; }

    /// <summary>How times are written as far as the heading says; null when the cells show it.</summary>
    public TimeForm? Form { get; init; }

    /// <summary>Whether it is the time of day.</summary>
    public bool OfDay { get; init; }

    /// <summary>As it is shown.</summary>
    public string Shown => Printable.Of(Cell.Text.Trim());
}

/// <summary>Reads headings in the forms people write: <c>tank level [mm]</c>, <c>time (min)</c>, <c>receiver_weight_lb</c>.</summary>
internal static class HeadingGrammar
{
    private static readonly string[] s_times = ["time", "clock"];
    private static readonly string[] s_notes = ["note", "notes", "remark", "remarks"];
    private static readonly string[] s_hoursMinutes = ["h:mm", "hh:mm", "h:mm:ss", "hh:mm:ss", "h:min"];
    private static readonly string[] s_minutesSeconds = ["m:ss", "mm:ss", "min:s", "min:sec"];

    private static readonly (string Words, StrainingObservable Quantity)[] s_quantities =
    [
        ("pond depth", StrainingObservable.PondDepth), ("pond level", StrainingObservable.PondDepth),
        ("tank level", StrainingObservable.TankLevel), ("tank depth", StrainingObservable.TankLevel),
        ("tank mass", StrainingObservable.TankMass), ("tank weight", StrainingObservable.TankMass),
        ("tank volume", StrainingObservable.TankVolume),
        ("receiver level", StrainingObservable.ReceiverLevel), ("receiver depth", StrainingObservable.ReceiverLevel),
        ("receiver mass", StrainingObservable.ReceiverMass), ("receiver weight", StrainingObservable.ReceiverMass),
        ("receiver volume", StrainingObservable.ReceiverVolume),
    ];

    /// <summary>The headings that are read, without their units, for messages.</summary>
    public static string Known => string.Join(", ", [.. s_times, .. s_quantities.Select(known => known.Words), s_notes[0]]);

    /// <summary>What a quantity is measured as.</summary>
    /// <param name="quantity">Quantity.</param>
    public static Dimension DimensionOf(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.TankMass or StrainingObservable.ReceiverMass => Dimension.Mass,
        StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => Dimension.Volume,
        _ => Dimension.Length,
    };

    /// <summary>Reads a heading.</summary>
    /// <param name="cell">The heading.</param>
    /// <param name="heading">What it says, as far as it can be read.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public static string? Read(CsvCell cell, out RunHeading heading)
    {
        heading = new RunHeading(cell, ColumnKind.None);
        if (cell.IsEmpty)
            return null;
        (string[] words, string? unit) = Split(cell.Text);
        if (words.Length == 1 && s_notes.Contains(words[0].ToLowerInvariant(), StringComparer.Ordinal))
        {
            heading = heading with { Kind = ColumnKind.Note };
            return null;
        }

        if (words.Length > 0 && s_times.Contains(words[0].ToLowerInvariant(), StringComparer.Ordinal))
            return ReadTime(words, unit, ref heading);
        string name = string.Join(' ', words.Take(2)).ToLowerInvariant();
        int known = Array.FindIndex(s_quantities, one => one.Words == name);
        if (known < 0)
        {
            string whole = string.Join(' ', words).ToLowerInvariant();
            string nearest = Spelling.Nearest(whole, [.. s_times, .. s_quantities.Select(one => one.Words), s_notes[0]])!;
            return $"\"{heading.Shown}\" is not a heading that is read; nearest: \"{nearest}\"; known: {Known}; what is for people alone goes into \"{s_notes[0]}\"";
        }

        heading = heading with { Kind = ColumnKind.Readings, Quantity = s_quantities[known].Quantity };
        Dimension dimension = DimensionOf(heading.Quantity);
        string? written = unit ?? Rest(words, 2);
        if (written is null)
            return $"\"{heading.Shown}\" has no unit; write it behind the name, as in \"{name} [{Units.All.First(u => u.Dimension == dimension).Symbol}]\"; units of {DimensionFacts.Of(dimension).Name}: {Units.SymbolsOf(dimension)}";
        string? wrong = FindUnit(heading, written, dimension, out Unit? found);
        heading = heading with { Unit = found };
        return wrong;
    }

    private static string? ReadTime(string[] words, string? unit, ref RunHeading heading)
    {
        heading = heading with { Kind = ColumnKind.Time, OfDay = string.Equals(words[0], s_times[1], StringComparison.OrdinalIgnoreCase) };
        if ((unit ?? Rest(words, 1)) is not { } written)
            return null;
        string plain = written.Replace(" ", "", StringComparison.Ordinal).ToLowerInvariant();
        if (s_hoursMinutes.Contains(plain, StringComparer.Ordinal))
            heading = heading with { Form = TimeForm.HoursMinutes };
        else if (s_minutesSeconds.Contains(plain, StringComparer.Ordinal))
            heading = heading with { Form = TimeForm.MinutesSeconds };
        if (heading.Form is not null)
            return null;
        string? wrong = FindUnit(heading, written, Dimension.Duration, out Unit? found);
        heading = heading with { Unit = found, Form = TimeForm.Number };
        return wrong;
    }

    private static string? FindUnit(RunHeading heading, string written, Dimension wanted, out Unit? unit)
    {
        DimensionFacts facts = DimensionFacts.Of(wanted);
        Unit? found = Units.Find(written, wanted);
        unit = found?.Dimension == wanted ? found : null;
        if (found is null)
            return $"\"{heading.Shown}\" has the unit \"{Printable.Of(written)}\", which is not known; nearest: \"{Units.Nearest(written, wanted).Symbol}\"; units of {facts.Name}: {Units.SymbolsOf(wanted)}";
        return unit is not null ? null
            : $"\"{heading.Shown}\" is given in {found.Symbol}, {DimensionFacts.Of(found.Dimension).Name}, but {facts.Name} is wanted: {Units.SymbolsOf(wanted)}";
    }

    /// <summary>The words of a heading, and the unit if it stands in brackets.</summary>
    private static (string[] Words, string? Unit) Split(string heading)
    {
        string text = heading.Trim();
        string? unit = null;
        if (text[^1] is ']' or ')' && text.LastIndexOfAny(['[', '(']) is > 0 and int open)
        {
            unit = text[(open + 1)..^1].Trim();
            text = text[..open];
            unit = unit.Length == 0 ? null : unit;
        }

        string[] words = text.Split([' ', '\t', '\n', '_', ',', '\u00A0'], StringSplitOptions.RemoveEmptyEntries);
        return ([.. words.Where((word, i) => i == 0 || !string.Equals(word, "in", StringComparison.Ordinal) || i == words.Length - 1)], unit);
    }

    private static string? Rest(string[] words, int from) => words.Length > from ? string.Join(' ', words[from..]) : null;
}
