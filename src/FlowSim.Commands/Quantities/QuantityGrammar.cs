using FlowSim.Commands.Output;

namespace FlowSim.Commands.Quantities;

/// <summary>The one grammar for quantities: a number, then a unit; for some dimensions several pairs in a row.</summary>
/// <remarks>
/// <code>
/// quantity = pair { pair }          only lengths, volumes, masses and times take more than one pair: 1 h 30 min
/// pair     = number unit
/// number   = [sign] ( digits [ "." digits ] | "." digits ) [ "e" [sign] digits ]
///          | digits "/" digits  |  digits " " digits "/" digits
/// </code>
/// Nothing depends on the machine's language. A comma is always refused: it would be read differently in different
/// countries, and so would any sign or space that groups digits.
/// </remarks>
internal static class QuantityGrammar
{
    /// <summary>Longest text read, characters.</summary>
    public const int Longest = 100;

    /// <summary>Reads a quantity.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="wanted">What it must measure.</param>
    /// <param name="quantity">The quantity.</param>
    /// <returns>Null, or why it could not be read.</returns>
    public static QuantityFault? Read(string text, Dimension wanted, out Quantity quantity) => Read(text, wanted, signed: false, out quantity);

    /// <summary>Reads a quantity that may be negative, as a height above something.</summary>
    /// <param name="text">What was written; a sign in front counts for all of its parts.</param>
    /// <param name="wanted">What it must measure.</param>
    /// <param name="signed">Whether it may be negative at all.</param>
    /// <param name="quantity">The quantity.</param>
    /// <returns>Null, or why it could not be read.</returns>
    public static QuantityFault? Read(string text, Dimension wanted, bool signed, out Quantity quantity)
    {
        int sign = text.Length - text.TrimStart().Length;
        if (!signed || sign >= text.Length || text[sign] is not ('-' or '\u2212'))
            return ReadPositive(text, wanted, out quantity);
        QuantityFault? fault = ReadPositive(text[(sign + 1)..], wanted, out Quantity positive);
        quantity = positive with { Si = -positive.Si };
        return fault is null ? null : fault with { Offset = fault.Offset + sign + 1 };
    }

    private static QuantityFault? ReadPositive(string text, Dimension wanted, out Quantity quantity)
    {
        quantity = default;
        DimensionFacts facts = DimensionFacts.Of(wanted);
        if (text.Length > Longest)
            return new QuantityFault(0, FormattableString.Invariant($"is {text.Length} characters long; {facts.Name} is written in at most {Longest}, as in \"{facts.Example}\""));
        if (string.IsNullOrWhiteSpace(text))
            return new QuantityFault(0, $"is empty; {facts.Name} is written as \"{facts.Example}\"");

        Cursor cursor = new(text);
        double sum = 0;
        double previousFactor = double.PositiveInfinity;
        List<string>? echoes = null;
        bool first = true;
        cursor.SkipSpaces();
        while (!cursor.AtEnd)
        {
            int pairStart = cursor.At;
            QuantityFault? fault = NumberGrammar.Read(ref cursor, out double number);
            if (fault is not null)
                return fault with { What = fault.What + $"; {facts.Name} is written as \"{facts.Example}\"" };

            cursor.SkipSpaces();
            int unitStart = cursor.At;
            string written = cursor.TakeUnit();
            fault = UnitFault(written, unitStart, cursor, wanted, out Unit? unit);
            if (fault is not null)
                return fault;

            if (!first)
            {
                if (wanted is not (Dimension.Length or Dimension.Volume or Dimension.Mass or Dimension.Duration))
                    return new QuantityFault(pairStart, $"goes on after {facts.Name} was read; one number and one unit are enough, as in \"{facts.Example}\"");
                if (number < 0 || unit!.Factor >= previousFactor)
                    return new QuantityFault(pairStart, "names several parts; they run from the larger unit to the smaller without signs, as in \"1 h 30 min\"");
            }

            double si = number * unit!.Factor + unit.Offset;
            if (!double.IsFinite(si))
                return new QuantityFault(pairStart, $"is too large to be {facts.Name}");

            sum += si;
            previousFactor = unit.Factor;
            first = false;
            if (unit.Echo is { } echo)
                (echoes ??= []).Add(echo);
            cursor.SkipSpaces();
        }

        // Absolute zero in °F misses 0 K by rounding.
        if (sum < facts.LeastSi && sum > facts.LeastSi - 1e-9)
            sum = facts.LeastSi;
        if (sum < facts.LeastSi)
            return new QuantityFault(0, $"is below what {facts.Name} can be; allowed: {facts.LeastText} or more");

        quantity = new Quantity(sum, echoes is null ? null : string.Join(", ", echoes));
        return null;
    }

    private static QuantityFault? UnitFault(string written, int at, Cursor rest, Dimension wanted, out Unit? unit)
    {
        DimensionFacts facts = DimensionFacts.Of(wanted);
        unit = null;
        if (written.Length == 0)
        {
            if (!rest.AtEnd)
                return new QuantityFault(at, NumberGrammar.AfterNumber(rest.Current) + $"; {facts.Name} is written as \"{facts.Example}\"");
            return new QuantityFault(at, $"has no unit; {facts.Name} needs one: {Units.SymbolsOf(wanted)}, as in \"{facts.Example}\"");
        }

        unit = Units.Find(written, wanted);
        if (unit is null)
        {
            return new QuantityFault(at, $"has the unit \"{Printable.Of(written)}\", which is not known; nearest: \"{Units.Nearest(written, wanted).Symbol}\"; units of {facts.Name}: {Units.SymbolsOf(wanted)}");
        }

        if (unit.Dimension != wanted)
        {
            return new QuantityFault(at, $"is {DimensionFacts.Of(unit.Dimension).Name}, but {facts.Name} is wanted: {Units.SymbolsOf(wanted)}, as in \"{facts.Example}\"");
        }

        return null;
    }

    /// <summary>Reads a number that has no unit, such as a factor.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="number">The number.</param>
    /// <returns>Null, or why it could not be read.</returns>
    public static QuantityFault? ReadNumber(string text, out double number)
    {
        number = 0;
        if (text.Length > Longest)
            return new QuantityFault(0, FormattableString.Invariant($"is {text.Length} characters long; a number takes at most {Longest}"));

        Cursor cursor = new(text);
        cursor.SkipSpaces();
        QuantityFault? fault = NumberGrammar.Read(ref cursor, out number);
        if (fault is not null)
            return fault;

        cursor.SkipSpaces();
        return cursor.AtEnd ? null : new QuantityFault(cursor.At, "is a plain number without a unit, such as 0.7; nothing may follow it");
    }
}
