using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>One section being read: gives typed values, notes what was wrong, and in the end refuses keys nobody asked for.</summary>
internal sealed class Section
{
    private readonly Dictionary<string, InputEntry> _entries;
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);
    private readonly Problems _problems;
    private readonly Journal _journal;

    public Section(string name, InputDocument document, Problems problems, Journal journal)
    {
        Name = name;
        journal.Section(name);
        _entries = document.Sections.GetValueOrDefault(name) ?? [];
        _problems = problems;
        _journal = journal;
        Spot = document.SectionSpots.TryGetValue(name, out Spot spot) ? spot : journal.FileSpot;
    }

    public string Name { get; }

    public Spot Spot { get; }

    /// <summary>Whether a key was given; from then on it is known.</summary>
    /// <param name="key">Key.</param>
    public bool Has(string key)
    {
        _known.Add(key);
        return _entries.ContainsKey(key);
    }

    public bool Has(Key key) => Has(key.Name);

    public InputEntry? Entry(string key) => Has(key) ? _entries[key] : null;

    /// <summary>A quantity in SI; null when it is missing or wrong.</summary>
    /// <param name="key">Key.</param>
    public double? Quantity(Key key)
    {
        if (Entry(key.Name) is not { } entry)
            return null;
        if (IsSpread(entry.Value))
            return Spread(key.Name, entry.Value, key.Dimension, key.MayBeNegative);
        return Quantity(key.Name, entry.Value, key.Dimension!.Value, key.MayBeNegative);
    }

    /// <summary>A quantity of one value, as of an entry of a list.</summary>
    /// <param name="key">Key, for messages.</param>
    /// <param name="value">Value.</param>
    /// <param name="dimension">What it must measure.</param>
    /// <param name="signed">Whether it may be negative.</param>
    public double? Quantity(string key, InputValue value, Dimension dimension, bool signed = false)
    {
        if (IsSpread(value) && SpreadKeys.Take($"{Name}.{key}"))
            return Spread(key, value, dimension, signed);
        DimensionFacts facts = DimensionFacts.Of(dimension);
        if (value.Kind == ValueKind.Number)
        {
            Wrong(key, value.Spot, $"{Printable.Of(value.Text)} has no unit; {facts.Name} needs one: {Units.SymbolsOf(dimension)}, in quotes, as in \"{facts.Example}\"");
            return null;
        }

        return Text(key, value) is { } text ? Quantity(key, value, text, 0, dimension, signed) : null;
    }

    /// <summary>A quantity that is a part of a text.</summary>
    /// <param name="key">Key, for messages.</param>
    /// <param name="value">Value the part belongs to.</param>
    /// <param name="part">The part.</param>
    /// <param name="offset">Where in the text it begins.</param>
    /// <param name="dimension">What it must measure.</param>
    /// <param name="signed">Whether it may be negative.</param>
    public double? Quantity(string key, InputValue value, string part, int offset, Dimension dimension, bool signed = false)
    {
        if (SpreadGrammar.IsSpread(part))
        {
            RefuseSpread(key, value.At(offset), part);
            return null;
        }

        if (QuantityGrammar.Read(part, dimension, signed, out Quantity quantity) is { } fault)
        {
            Wrong(key, value.At(offset + fault.Offset), $"\"{Printable.Of(part.Trim())}\" {fault.What}");
            return null;
        }

        _journal.Read(Name, key, quantity.Si);
        if (quantity.Echo is { } echo)
            _journal.Echo($"{Name}.{key}: \"{Printable.Of(part.Trim())}\" read as {echo}");
        return quantity.Si;
    }

    /// <summary>A volume, or a mass that the caller turns into one.</summary>
    /// <param name="key">Key.</param>
    public (double Si, bool IsMass)? VolumeOrMass(Key key)
    {
        if (Entry(key.Name) is not { } entry)
            return null;
        if (IsSpread(entry.Value))
        {
            bool ofMass = SpreadGrammar.Read(entry.Value.Text, Dimension.Mass, signed: false, out _) is null;
            return Spread(key.Name, entry.Value, ofMass ? Dimension.Mass : Dimension.Volume, signed: false) is { } middle ? (middle, ofMass) : null;
        }

        bool isMass = entry.Value.Kind is ValueKind.Text or ValueKind.Bare
            && QuantityGrammar.Read(entry.Value.Text, Dimension.Mass, out _) is null;
        return Quantity(key.Name, entry.Value, isMass ? Dimension.Mass : Dimension.Volume) is { } si ? (si, isMass) : null;
    }

    public double? Number(Key key)
    {
        if (Entry(key.Name) is not { } entry)
            return null;
        InputValue value = entry.Value;
        if (IsSpread(value))
            return Spread(key.Name, value, dimension: null, key.MayBeNegative);
        if (value.Kind is not (ValueKind.Number or ValueKind.Bare))
        {
            Wrong(key.Name, value.Spot, $"is {value.KindName}, but a plain number without quotes is wanted, as in {key.Name} = 1.0");
            return null;
        }

        if (QuantityGrammar.ReadNumber(value.Text, out double number) is not { } fault)
        {
            _journal.Read(Name, key.Name, number);
            return number;
        }

        Wrong(key.Name, value.At(fault.Offset), $"{Printable.Of(value.Text)} {fault.What}");
        return null;
    }

    private static bool IsSpread(InputValue value) => value.Kind is ValueKind.Text or ValueKind.Bare && SpreadGrammar.IsSpread(value.Text);

    /// <summary>Reads a value that comes with a spread and notes that; the median is what the setup gets.</summary>
    private double? Spread(string key, InputValue value, Dimension? dimension, bool signed)
    {
        if (!SpreadKeys.Take($"{Name}.{key}"))
        {
            RefuseSpread(key, value.Spot, value.Text);
            return null;
        }

        if (SpreadGrammar.Read(value.Text, dimension, signed, out Spread? spread) is { } fault)
        {
            Wrong(key, value.At(fault.Offset), $"\"{Printable.Of(value.Text.Trim())}\" {fault.What}");
            return null;
        }

        double middle = spread!.Middle;
        _journal.Read(Name, key, middle);
        if (spread.Echo is { } echo)
            _journal.Echo($"{Name}.{key}: \"{Printable.Of(value.Text.Trim())}\" read as {echo}");
        _journal.Spread(new SpreadRead($"{Name}.{key}", spread, Printable.Of(value.Text.Trim()), Units.Text(Math.Round(middle, 12), spread.Unit, value.Calibrated is null ? 12 : 4), value.Calibrated));
        return middle;
    }

    private void RefuseSpread(string key, Spot spot, string text) =>
        Wrong(key, spot, $"\"{Printable.Of(text.Trim())}\" is a spread, and one value is wanted here{SpreadKeys.InPlaceOf($"{Name}.{key}")}; keys that take a spread: {SpreadKeys.List}");

    /// <summary>A whole number; what the library allows is decided there.</summary>
    /// <param name="key">Key.</param>
    public int? WholeNumber(Key key)
    {
        if (Number(key) is not { } number)
            return null;
        if (number == Math.Floor(number))
            return (int)Math.Clamp(number, int.MinValue, int.MaxValue);
        Wrong(key.Name, Entry(key.Name)!.Value.Spot, "is not a whole number");
        return null;
    }

    public bool? Flag(Key key)
    {
        if (Entry(key.Name) is not { } entry)
            return null;
        InputValue value = entry.Value;
        if (value.Kind is ValueKind.Flag or ValueKind.Bare && value.Text is "true" or "false")
            return value.Text == "true";
        Wrong(key.Name, value.Spot, $"is {value.KindName}, but true or false is wanted, without quotes");
        return null;
    }

    /// <summary>One of some words; null when it is missing or none of them.</summary>
    /// <param name="key">Key.</param>
    /// <param name="words">Words allowed.</param>
    /// <param name="what">What the words name, as in "form".</param>
    public string? Word(Key key, IReadOnlyList<string> words, string what)
    {
        if (Entry(key.Name) is not { } entry || Text(key.Name, entry.Value) is not { } text)
            return null;
        return WordOf(key.Name, entry.Value.Spot, text.Trim(), words, what);
    }

    /// <summary>One of some words, written as a part of a value; null when it is none of them.</summary>
    /// <param name="key">Key, for messages.</param>
    /// <param name="spot">Where it was written.</param>
    /// <param name="written">The word as written.</param>
    /// <param name="words">Words allowed.</param>
    /// <param name="what">What the words name.</param>
    public string? WordOf(string key, Spot spot, string written, IReadOnlyList<string> words, string what)
    {
        if (words.FirstOrDefault(word => string.Equals(word, written, StringComparison.OrdinalIgnoreCase)) is { } found)
            return found;
        Wrong(key, spot, $"\"{Printable.Of(written)}\" is not a {what}; nearest: \"{Spelling.Nearest(written, words)}\"; known: {string.Join(", ", words)}");
        return null;
    }

    public IReadOnlyList<InputValue>? List(Key key, string example)
    {
        if (Entry(key.Name) is not { } entry)
            return null;
        InputValue value = entry.Value;
        if (value.Kind == ValueKind.List)
            return value.Items;
        if (value.Kind == ValueKind.Bare)
            return [value];
        Wrong(key.Name, value.Spot, $"is {value.KindName}, but a list is wanted, as in {key.Name} = {example}");
        return null;
    }

    public string? Text(string key, InputValue value)
    {
        if (value.Kind is ValueKind.Text or ValueKind.Bare)
            return value.Text;
        Wrong(key, value.Spot, $"is {value.KindName}, but a text in quotes is wanted");
        return null;
    }

    public void Wrong(string key, Spot spot, string what) => _problems.Add(spot, $"{Name}.{key}: {what}");

    /// <summary>Says that a key is missing.</summary>
    /// <param name="key">Key.</param>
    /// <param name="example">How it may be written.</param>
    public void Missing(Key key, string example) => Missing(key.Name, key.Meaning, example);

    public void Missing(string key, string meaning, string example, Spot? spot = null) =>
        _problems.Add(spot ?? Spot, $"{Name}.{key} is missing ({meaning}); write {key} = {example}");

    /// <summary>Says that a key may not stand beside another.</summary>
    /// <param name="key">Key that is too much.</param>
    /// <param name="other">Key it clashes with.</param>
    /// <returns>Whether both were given, neither or only the other by an option.</returns>
    public bool Clash(Key key, Key other)
    {
        if (!Has(key) || !Has(other))
            return false;
        InputEntry one = _entries[key.Name];
        InputEntry two = _entries[other.Name];

        // An option replaces what the file says, the other way of saying it included.
        if (one.FromOption != two.FromOption)
        {
            _entries.Remove(one.FromOption ? other.Name : key.Name);
            return false;
        }

        Wrong(key.Name, one.KeySpot, $"stands beside {other.Name}; give one of the two");
        return true;
    }

    /// <summary>Drops a key that the file gives, because an option took its place.</summary>
    /// <param name="key">Key.</param>
    public void DropFromFile(string key)
    {
        if (_entries.TryGetValue(key, out InputEntry? entry) && !entry.FromOption)
            _entries.Remove(key);
    }

    public bool IsFromOption(Key key) => Entry(key.Name)?.FromOption ?? false;

    /// <summary>Knows all keys that the lists of the program give this section, for those who need only some of them.</summary>
    public void KnowAll()
    {
        foreach (Key key in Keys.All.Where(key => key.Section == Name))
            _known.Add(key.Name);
    }

    /// <summary>Refuses every key that nobody asked for.</summary>
    public void RefuseStrangers()
    {
        foreach (InputEntry entry in _entries.Values)
        {
            if (_known.Contains(entry.Key))
                continue;
            string nearest = Spelling.Nearest(entry.Key, _known)!;
            _problems.Add(entry.KeySpot, $"\"{Printable.Of(entry.Key)}\" is not a key of [{Name}]{ElsewhereHint(entry.Key)}; nearest: \"{nearest}\"; known here: {string.Join(", ", _known)}");
        }
    }

    private string ElsewhereHint(string key)
    {
        string[] others = [.. Keys.All.Where(k => k.Name == key && k.Section != Name).Select(k => $"[{k.Section}]")];
        return others.Length == 0 ? string.Empty : " (but of " + string.Join(", ", others) + ")";
    }
}
