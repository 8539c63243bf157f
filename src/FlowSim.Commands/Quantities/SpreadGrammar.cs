using FlowSim.Commands.Output;

namespace FlowSim.Commands.Quantities;

/// <summary>The one grammar for values with a spread.</summary>
/// <remarks>
/// <code>
/// spread = quantity "±" quantity              normal, one standard deviation; also +- and +/-
///        | quantity "to" quantity             uniform
///        | quantity "×/÷" number              log-normal about its median; also x/, */, ×/ and ×÷
///        | "normal(" mean "," deviation ")"   | "log-normal(" median "," factor ")"
///        | "uniform(" low "," high ")"        | "triangular(" low "," most likely "," high ")"
///        | "empirical(" value { "," value } ")"
/// </code>
/// A unit may stand once, at the end. A deviation from a temperature is a difference of temperatures.
/// </remarks>
internal static class SpreadGrammar
{
    /// <summary>Longest text read, characters: some hundred measured values.</summary>
    public const int Longest = 2000;

    /// <summary>Largest factor either way. Engineering choice: beyond it a slip is likelier than a spread.</summary>
    private const double LargestFactor = 1000;

    private static readonly (string Sign, SpreadKind Kind)[] s_signs =
    [
        ("±", SpreadKind.Normal), ("+/-", SpreadKind.Normal), ("+/\u2212", SpreadKind.Normal), ("+-", SpreadKind.Normal), ("+\u2212", SpreadKind.Normal),
        ("×/÷", SpreadKind.LogNormal), ("x/÷", SpreadKind.LogNormal), ("×÷", SpreadKind.LogNormal), ("×/", SpreadKind.LogNormal),
        ("x/", SpreadKind.LogNormal), ("X/", SpreadKind.LogNormal), ("*/", SpreadKind.LogNormal), (" to ", SpreadKind.Uniform),
    ];

    private static readonly (string Name, SpreadKind Kind, int Least, int Most, string Example)[] s_functions =
    [
        ("normal", SpreadKind.Normal, 2, 2, "mean, standard deviation"),
        ("log-normal", SpreadKind.LogNormal, 2, 2, "median, factor"),
        ("uniform", SpreadKind.Uniform, 2, 2, "low, high"),
        ("triangular", SpreadKind.Triangular, 3, 3, "low, most likely, high"),
        ("empirical", SpreadKind.Empirical, 2, 200, "2 to 200 measured values"),
    ];

    /// <summary>Whether a text is meant as a spread.</summary>
    /// <param name="text">What was written.</param>
    public static bool IsSpread(string text) => FindSign(text) is not null || IsFunction(text);

    /// <summary>Reads a value with its spread.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="wanted">What it must measure; null for a plain number.</param>
    /// <param name="signed">Whether the value may be negative.</param>
    /// <param name="spread">The spread.</param>
    /// <returns>Null, or why it could not be read.</returns>
    public static QuantityFault? Read(string text, Dimension? wanted, bool signed, out Spread? spread)
    {
        spread = null;
        if (text.Length > Longest)
            return new QuantityFault(0, FormattableString.Invariant($"is {text.Length} characters long; a spread takes at most {Longest}"));
        SpreadReader reader = new(wanted, signed);
        if (FindSign(text) is not { } sign)
            return ReadFunction(text, reader, out spread);

        string unit = sign.Kind == SpreadKind.LogNormal ? string.Empty : SpreadReader.UnitOf(text[(sign.At + sign.Length)..]);
        Part[] parts = [new(text[..sign.At], 0), new(text[(sign.At + sign.Length)..], sign.At + sign.Length)];
        return Build(sign.Kind, parts, unit, reader, out spread);
    }

    private static (int At, int Length, SpreadKind Kind)? FindSign(string text)
    {
        if (IsFunction(text))
            return null;
        foreach ((string sign, SpreadKind kind) in s_signs)
        {
            int at = text.IndexOf(sign, StringComparison.OrdinalIgnoreCase);
            if (at >= 0)
                return (at, sign.Length, kind);
        }

        return null;
    }

    private static bool IsFunction(string text)
    {
        ReadOnlySpan<char> trimmed = text.AsSpan().TrimStart();
        return trimmed.Length > 0 && char.IsAsciiLetter(trimmed[0]) && trimmed.Contains('(');
    }

    private static QuantityFault? ReadFunction(string text, SpreadReader reader, out Spread? spread)
    {
        spread = null;
        int open = text.IndexOf('(', StringComparison.Ordinal);
        int close = text.LastIndexOf(')');
        string name = text[..Math.Max(0, open)].Trim();
        string[] known = [.. s_functions.Select(f => f.Name)];
        int index = Array.FindIndex(s_functions, f => string.Equals(f.Name, name, StringComparison.OrdinalIgnoreCase) || string.Equals(f.Name.Replace("-", "", StringComparison.Ordinal), name, StringComparison.OrdinalIgnoreCase));
        if (index < 0)
            return new QuantityFault(0, $"names the spread \"{Printable.Of(name)}\", which is not known; nearest: \"{Spelling.Nearest(name, known)}\"; known: {string.Join(", ", s_functions.Select(f => $"{f.Name}({f.Example})"))}");
        (string _, SpreadKind kind, int least, int most, string example) = s_functions[index];
        if (close < open)
            return new QuantityFault(text.Length, $"has no closing bracket; write {known[index]}({example})");

        List<Part> parts = [];
        int start = open + 1;
        for (int i = start; i <= close; i++)
        {
            if (i < close && text[i] != ',')
                continue;
            parts.Add(new Part(text[start..i], start));
            start = i + 1;
        }

        if (parts.Count < least || parts.Count > most)
            return new QuantityFault(open, FormattableString.Invariant($"holds {parts.Count} values; {known[index]} takes {example}, with commas between them and a point as the decimal sign"));
        string unit = text[(close + 1)..].Trim();
        if (unit.Length == 0 && kind != SpreadKind.LogNormal)
            unit = SpreadReader.UnitOf(parts[^1].Text);
        return Build(kind, parts, unit, reader, out spread);
    }

    private static QuantityFault? Build(SpreadKind kind, IReadOnlyList<Part> parts, string unit, SpreadReader reader, out Spread? spread)
    {
        spread = null;
        double[] values = new double[parts.Count];
        for (int i = 0; i < values.Length; i++)
        {
            QuantityFault? fault = (kind, i) switch
            {
                (SpreadKind.Normal, 1) => reader.ReadDeviation(parts[0], parts[1], unit, out values[1]),
                (SpreadKind.LogNormal, 1) => ReadFactor(parts[1], out values[1]),
                _ => reader.ReadValue(parts[i], unit, out values[i]),
            };
            if (fault is not null)
                return fault;
        }

        spread = new Spread(kind, values, reader.Echo, reader.Unit);
        return Check(spread, parts, reader);
    }

    private static QuantityFault? Check(Spread spread, IReadOnlyList<Part> parts, SpreadReader reader)
    {
        IReadOnlyList<double> values = spread.Values;
        if (spread.Kind == SpreadKind.LogNormal && reader.Wanted == Dimension.Temperature)
            return new QuantityFault(0, "multiplies a temperature, whose zero is a matter of the unit; write it as \"35 ± 1 °C\"");
        if (spread.Kind == SpreadKind.LogNormal && !(values[0] > 0))
            return new QuantityFault(parts[0].Offset, "multiplies what is not above 0; a factor needs a value above 0");
        if (spread.Kind is SpreadKind.Uniform or SpreadKind.Triangular)
        {
            for (int i = 1; i < values.Count; i++)
            {
                if (values[i] < values[i - 1])
                    return new QuantityFault(parts[i].Offset, "runs backwards; the lower value stands first");
            }
        }

        return null;
    }

    private static QuantityFault? ReadFactor(Part part, out double factor)
    {
        QuantityFault? fault = QuantityGrammar.ReadNumber(part.Text, out factor);
        if (fault is not null)
            return new QuantityFault(part.Offset + fault.Offset, "has a factor that cannot be read: it is a plain number, as in \"0.3 g/kg x/ 3\"");
        return factor is >= 1 and <= LargestFactor ? null
            : new QuantityFault(part.Offset, FormattableString.Invariant($"has a factor of {factor:G6}; allowed: 1 to {LargestFactor}, 3 meaning between a third and three times for two values in three"));
    }

    /// <summary>A piece of the text.</summary>
    /// <param name="Text">The piece.</param>
    /// <param name="Offset">Where it begins.</param>
    internal readonly record struct Part(string Text, int Offset);
}
