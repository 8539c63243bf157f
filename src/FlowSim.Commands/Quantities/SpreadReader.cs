namespace FlowSim.Commands.Quantities;

/// <summary>Reads the values of one spread; a value without a unit takes that of the whole.</summary>
/// <param name="wanted">What they must measure; null for plain numbers.</param>
/// <param name="signed">Whether they may be negative.</param>
internal sealed class SpreadReader(Dimension? wanted, bool signed)
{
    /// <summary>What must be measured; null for a plain number.</summary>
    public Dimension? Wanted { get; } = wanted;

    /// <summary>What was read into a unit; null when nothing was.</summary>
    public string? Echo { get; private set; }

    /// <summary>Unit of the first value; null for plain numbers.</summary>
    public Unit? Unit { get; private set; }

    /// <summary>The unit of a quantity as written; empty when there is none.</summary>
    /// <param name="text">Quantity.</param>
    public static string UnitOf(string text)
    {
        Cursor cursor = new(text);
        cursor.SkipSpaces();
        if (NumberGrammar.Read(ref cursor, out _) is not null)
            return string.Empty;
        cursor.SkipSpaces();
        return cursor.TakeUnit();
    }

    /// <summary>Reads a value.</summary>
    /// <param name="part">The value as written.</param>
    /// <param name="unit">Unit of the whole; empty when there is none.</param>
    /// <param name="si">Value, SI.</param>
    public QuantityFault? ReadValue(SpreadGrammar.Part part, string unit, out double si)
    {
        if (Wanted is { } dimension)
            return ReadQuantity(part, unit, dimension, signed, out si);
        QuantityFault? fault = QuantityGrammar.ReadNumber(part.Text, out si);
        return fault is null ? null : fault with { Offset = part.Offset + fault.Offset };
    }

    /// <summary>Reads a standard deviation.</summary>
    /// <param name="about">What it is the deviation from.</param>
    /// <param name="part">The deviation as written.</param>
    /// <param name="unit">Unit of the whole; empty when there is none.</param>
    /// <param name="si">Value, SI.</param>
    public QuantityFault? ReadDeviation(SpreadGrammar.Part about, SpreadGrammar.Part part, string unit, out double si)
    {
        if (Wanted is not { } dimension)
        {
            QuantityFault? fault = QuantityGrammar.ReadNumber(part.Text, out si);
            if (fault is not null)
                return fault with { Offset = part.Offset + fault.Offset };
            return si >= 0 ? null : new QuantityFault(part.Offset, "has a standard deviation below 0; write it without a sign");
        }

        si = 0;
        string own = UnitOf(about.Text);
        string deviates = UnitOf(part.Text);
        bool mixed = dimension == Dimension.Share && own.Length > 0 && Units.Find(deviates, dimension)?.Dimension == dimension && Units.Find(own, dimension) != Units.Find(deviates, dimension);
        if (mixed)
            return new QuantityFault(part.Offset, $"deviates in {deviates} from what is given in {own}, which can be meant in two ways; write both in {own}");
        return ReadQuantity(part, unit, dimension == Dimension.Temperature ? Dimension.TemperatureDifference : dimension, mayBeNegative: false, out si);
    }

    private QuantityFault? ReadQuantity(SpreadGrammar.Part part, string unit, Dimension dimension, bool mayBeNegative, out double si)
    {
        string text = unit.Length > 0 && QuantityGrammar.ReadNumber(part.Text, out _) is null ? part.Text.TrimEnd() + " " + unit : part.Text;
        QuantityFault? fault = QuantityGrammar.Read(text, dimension, mayBeNegative, out Quantity quantity);
        si = quantity.Si;
        Unit ??= Units.Find(UnitOf(text), dimension);
        if (quantity.Echo is { } echo)
            Echo = echo;
        return fault is null ? null : fault with { Offset = part.Offset + Math.Min(fault.Offset, part.Text.Length) };
    }
}
