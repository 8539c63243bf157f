using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using FlowSim.Commands.Quantities;

namespace FlowSim.Docs;

/// <summary>
/// Regular expressions, in the dialect of JSON Schema, of the texts that the reader takes. None refuses what the reader takes; what they
/// let pass beyond that is a matter of size and sign, which the reader judges.
/// </summary>
internal static class Patterns
{
    /// <summary>A number: decimal, with a power of ten, a fraction or a mixed one.</summary>
    public const string Number = @"[+\-−]?(?:[0-9]+[^!-~±×÷−]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+\-]?[0-9]+)?)";

    /// <summary>Blanks of any kind. What a validator takes for one differs, so it is anything but printed ASCII.</summary>
    public const string Blank = "[^!-~±×÷−]*";

    /// <summary>Blanks and commas.</summary>
    public const string Separator = @"[^!-+\--~±×÷−]*";

    // What a unit may hold between its letters, blanks, brackets and ^: the reader takes "US gal", "W/(m^2 K)".
    private const string Gap = @"[^!-'*-\]_-~±×÷−]*";

    /// <summary>A number and a unit; lengths, volumes, masses and times may go on with a smaller unit.</summary>
    /// <param name="dimension">What is measured.</param>
    public static string Quantity(Dimension dimension) =>
        dimension is Dimension.Length or Dimension.Volume or Dimension.Mass or Dimension.Duration ? $"(?:{Pair(dimension)})+" : Pair(dimension);

    /// <summary>The whole of a text.</summary>
    /// <param name="inside">What stands in it, blanks around it apart.</param>
    public static string Whole(string inside) => $"^{Blank}(?:{inside}){Blank}$";

    /// <summary>A value with its spread. The units in it are the reader's to judge.</summary>
    /// <param name="measured">Whether it has a unit.</param>
    public static string Spread(bool measured)
    {
        string value = measured ? Number + "[^,;:=]*" : Number;
        return string.Join(
            '|',
            $@"{value}{Blank}(?:±|\+/?[\-−]){Blank}{value}",
            $"{value} [tT][oO] {Blank}{value}",
            $@"{value}{Blank}(?:[×xX]/÷?|×÷|\*/){Blank}{Number}",
            $@"(?:{AnyCase("normal")}|{AnyCase("log")}-?{AnyCase("normal")}|{AnyCase("uniform")}|{AnyCase("triangular")}|{AnyCase("empirical")}){Blank}\([\s\S]*\)[\s\S]*");
    }

    /// <summary>One of some words, in any case.</summary>
    /// <param name="words">Words.</param>
    public static string Words(IEnumerable<string> words) => string.Join('|', words.Select(AnyCase));

    /// <summary>A word in any case.</summary>
    /// <param name="word">Word.</param>
    public static string AnyCase(string word) => string.Concat(word.Select(c => char.IsAsciiLetter(c) ? $"[{char.ToLowerInvariant(c)}{char.ToUpperInvariant(c)}]" : Escaped(c)));

    private static string Pair(Dimension dimension) => $"{Number}{Gap}{UnitOf(dimension)}{Gap}";

    private static string UnitOf(Dimension dimension)
    {
        IEnumerable<string> spellings = Units.All.Where(unit => unit.Dimension == dimension)
            .SelectMany(unit => unit.Exact.Select(text => Spelling(text, anyCase: false)).Concat(unit.AnyCase.Select(text => Spelling(text, anyCase: true))));
        return $"(?:{string.Join('|', spellings.Distinct(StringComparer.Ordinal).OrderByDescending(text => text.Length).ThenBy(text => text, StringComparer.Ordinal))})";
    }

    // The signs that Units.Normalize takes for one another.
    private static string Spelling(string unit, bool anyCase)
    {
        StringBuilder pattern = new();
        for (int i = 0; i < unit.Length; i++)
        {
            if (i > 0)
                pattern.Append(Gap);
            if (unit[i] == '°' && i + 1 < unit.Length && unit[i + 1] is 'c' or 'C' or 'f' or 'F')
            {
                char letter = unit[++i];
                char sign = char.ToUpperInvariant(letter) == 'C' ? '\u2103' : '\u2109';
                pattern.Append(CultureInfo.InvariantCulture, $"(?:{sign}|[°\u00BA\u02DA]{Gap}{Letter(letter, anyCase)})");
            }
            else
            {
                pattern.Append(Letter(unit[i], anyCase));
            }
        }

        return pattern.ToString();
    }

    private static string Letter(char c, bool anyCase) => c switch
    {
        'u' => anyCase ? "[uU\u00B5\u03BC]" : "[u\u00B5\u03BC]",
        'k' when anyCase => "[kK\u212A]",
        'K' => "[K\u212A]",
        '.' => "[.\u00B7\u22C5\u2219\u2022]",
        '°' => "[°\u00BA\u02DA]",
        '2' => "[2\u00B2]",
        '3' => "[3\u00B3]",
        '″' => "[″\u201D]",
        _ when anyCase && char.IsAsciiLetter(c) => $"[{c}{char.ToUpperInvariant(c)}]",
        _ => Escaped(c),
    };

    private static string Escaped(char c) => c is '/' or '-' or '"' or '\'' or ' ' ? c.ToString() : Regex.Escape(c.ToString());
}
