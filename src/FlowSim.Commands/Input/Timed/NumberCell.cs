using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Reads a cell that holds a number in the unit of its heading.</summary>
internal static partial class NumberCell
{
    /// <summary>Reads a number.</summary>
    /// <param name="text">Cell, trimmed.</param>
    /// <param name="unit">Unit of the heading.</param>
    /// <param name="value">The number.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public static string? Read(string text, Unit unit, out double value)
    {
        // The plain case first: a table may hold millions of cells.
        const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (double.TryParse(text, Plain, CultureInfo.InvariantCulture, out value) && double.IsFinite(value) && value >= 0)
        {
            // An empty scale shows -0.0 as often as 0.0.
            value = Math.Abs(value);
            return null;
        }

        string shown = Printable.Of(text);
        value = 0;
        if (IsDecimalComma(text))
            return $"\"{shown}\" has a decimal comma; the decimal sign is a point: {text.Replace(',', '.')}";
        if (double.TryParse(text.Replace('\u2212', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double any))
            return double.IsNegative(any) && double.IsFinite(any)
                ? $"\"{shown}\" is below 0, which {(unit.Dimension == Dimension.Duration ? "no time is" : "no reading is: what shows it when empty shows as much too little in every row; correct all, or leave the cell empty")}"
                : $"\"{shown}\" is not a finite number; leave the cell empty where nothing was read";
        if (QuantityGrammar.Read(text, unit.Dimension, out _) is null)
            return $"\"{shown}\" brings a unit of its own; the heading gives {unit.Symbol}, so write the number alone";
        return QuantityGrammar.ReadNumber(text, out _) is { } fault
            ? $"\"{shown}\" {fault.What}; leave the cell empty where nothing was read"
            : $"\"{shown}\" is not a number in digits and a point; leave the cell empty where nothing was read";
    }

    /// <summary>Whether a text is a number with a comma where the point belongs.</summary>
    /// <param name="text">Text, trimmed.</param>
    public static bool IsDecimalComma(string text) => text.Length <= QuantityGrammar.Longest && DecimalComma().IsMatch(text);

    [GeneratedRegex(@"^[+-]?[0-9]+,[0-9]+$", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex DecimalComma();
}
