using System.Globalization;
using System.Text;
using FlowSim.Commands.Quantities;

namespace FlowSim.Fuzz.Targets;

/// <summary>Quantities, plain numbers and spreads. The first byte chooses what is wanted, the rest is the text.</summary>
internal static class QuantityTarget
{
    private static readonly Dimension[] s_dimensions = Enum.GetValues<Dimension>();

    /// <summary>Reads a text in all three grammars.</summary>
    /// <param name="bytes">What is wanted, and the text.</param>
    public static string Read(byte[] bytes)
    {
        if (bytes.Length == 0)
            return string.Empty;
        string text = Encoding.UTF8.GetString(bytes, 1, bytes.Length - 1);
        Dimension dimension = s_dimensions[bytes[0] / 2 % s_dimensions.Length];
        bool signed = bytes[0] % 2 == 1;

        QuantityFault? fault = QuantityGrammar.Read(text, dimension, signed, out Quantity quantity);
        Check(fault, text, quantity.Si);
        if (fault is null && !signed && quantity.Si < DimensionFacts.Of(dimension).LeastSi)
            throw new FuzzFindingException(string.Create(CultureInfo.InvariantCulture, $"\"{text}\" gives {quantity.Si}, below what {dimension} can be"));
        QuantityFault? plain = QuantityGrammar.ReadNumber(text, out double number);
        Check(plain, text, number);
        Dimension? spreadOf = bytes[0] < 200 ? dimension : null;
        QuantityFault? spreadFault = SpreadGrammar.Read(text, spreadOf, signed, out Spread? spread);
        Check(spreadFault, text, 0);
        if (spreadFault is null)
        {
            Check(fault: null, text, [.. spread!.Values, spread.Middle]);
            if (!spread.IsExact && !double.IsFinite(spread.ToDistribution().Median))
                throw new FuzzFindingException($"\"{text}\" is a spread without a median");
        }

        return string.Create(CultureInfo.InvariantCulture, $"{fault}{quantity}{plain}{number:R}{spreadFault}{Numbers.Of(spread?.Values)}");
    }

    private static void Check(QuantityFault? fault, string text, params double[] values)
    {
        if (fault is not null && (fault.Offset < 0 || fault.Offset > text.Length || string.IsNullOrWhiteSpace(fault.What)))
            throw new FuzzFindingException($"\"{text}\": a fault without place or reason: {fault}");
        if (fault is not null && fault.What.Any(c => char.IsControl(c) || c is '\u202E' or '\u2028'))
            throw new FuzzFindingException($"a message that steers a terminal: {fault.What}");
        if (fault is null && !values.All(double.IsFinite))
            throw new FuzzFindingException(string.Create(CultureInfo.InvariantCulture, $"\"{text}\" is accepted and gives {string.Join(", ", values)}"));
    }
}
