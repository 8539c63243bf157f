using System.Globalization;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Quantities;

/// <summary>The number of a quantity.</summary>
internal static class NumberGrammar
{
    public static QuantityFault? Read(ref Cursor cursor, out double number)
    {
        number = 0;
        int start = cursor.At;
        double sign = 1;
        if (cursor.Current is '+' or '-' or '\u2212')
        {
            sign = cursor.Current == '+' ? 1 : -1;
            cursor.Move(1);
        }

        string digits = cursor.TakeDigits();
        bool whole = digits.Length > 0;
        if (whole && cursor.Current == '/')
            return Fraction(ref cursor, start, sign, 0, digits, out number);
        if (whole && IsMixedFraction(cursor))
        {
            cursor.SkipSpaces();
            string numerator = cursor.TakeDigits();
            return Fraction(ref cursor, start, sign, Parse(digits), numerator, out number);
        }

        string text = digits;
        if (cursor.Current == '.')
        {
            cursor.Move(1);
            string decimals = cursor.TakeDigits();
            if (decimals.Length == 0)
                return new QuantityFault(start, whole ? "has a point without a digit after it" : NotANumber(cursor.Current));
            text = digits + "." + decimals;
        }

        if (text.Length == 0)
            return new QuantityFault(start, NotANumber(cursor.Current));

        if (cursor.Current is 'e' or 'E' && (char.IsAsciiDigit(cursor.Peek(1)) || (cursor.Peek(1) is '+' or '-' && char.IsAsciiDigit(cursor.Peek(2)))))
        {
            int digitsFrom = char.IsAsciiDigit(cursor.Peek(1)) ? 1 : 2;
            text += "e" + (cursor.Peek(1) == '-' ? "-" : "");
            cursor.Move(digitsFrom);
            text += cursor.TakeDigits();
        }

        if (cursor.Current is ',' or '\'' or '_' or '\u2019' && char.IsAsciiDigit(cursor.Peek(1)) || cursor.Current == ',')
            return new QuantityFault(cursor.At, AfterNumber(cursor.Current));
        if (cursor.Current == '.')
            return new QuantityFault(cursor.At, "has two points in one number; digits are not grouped");
        if (IsGroup(cursor))
            return new QuantityFault(cursor.At, "has a space inside a number; digits are not grouped, write 1000");

        return Finite(sign * Parse(text), start, out number);
    }

    /// <summary>What to say of a sign that may not follow a number.</summary>
    public static string AfterNumber(char c) => c switch
    {
        ',' => "has a comma; the decimal sign is a point and digits are not grouped: 35.5, 1000",
        '\'' or '\u2019' or '_' or '\u2009' or '\u2007' => "groups its digits; write them without separators: 1000",
        _ => $"goes on with \"{Printable.Of(c.ToString())}\" where a unit should stand",
    };

    private static QuantityFault? Fraction(ref Cursor cursor, int start, double sign, double whole, string numerator, out double number)
    {
        number = 0;
        cursor.Move(1);
        string denominator = cursor.TakeDigits();
        double below = denominator.Length == 0 ? 0 : Parse(denominator);
        if (below == 0 || cursor.Current is '.' or ',' or '/')
            return new QuantityFault(start, "holds a fraction that is not one whole number over another, as in 1 1/2");

        return Finite(sign * (whole + Parse(numerator) / below), start, out number);
    }

    private static bool IsMixedFraction(Cursor cursor)
    {
        if (cursor.Current is not (' ' or '\t' or '\u00A0'))
            return false;
        cursor.SkipSpaces();
        return cursor.TakeDigits().Length > 0 && cursor.Current == '/';
    }

    private static bool IsGroup(Cursor cursor)
    {
        if (cursor.AtEnd || !char.IsWhiteSpace(cursor.Current))
            return false;
        int ahead = 0;
        while (char.IsWhiteSpace(cursor.Peek(ahead)))
            ahead++;
        return char.IsAsciiDigit(cursor.Peek(ahead));
    }

    private static QuantityFault? Finite(double value, int start, out double number)
    {
        number = double.IsFinite(value) ? value : 0;
        return double.IsFinite(value) ? null : new QuantityFault(start, "is a number too large to use");
    }

    private static double Parse(string digits) => double.Parse(digits, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string NotANumber(char c) => c is ',' ? AfterNumber(',') : "does not begin with a number in digits";
}
