using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Input;

/// <summary>Two inputs and how far they go together: <c>honey.moisture, debris.load, 0.5</c>.</summary>
internal static class CorrelationGrammar
{
    /// <summary>Reads a pair.</summary>
    /// <param name="section">Section.</param>
    /// <param name="key">Key, for messages.</param>
    /// <param name="item">Entry of its list.</param>
    /// <param name="inputs">Inputs that may be named.</param>
    public static InputCorrelation? Read(Section section, string key, InputValue item, IEnumerable<StrainingInput> inputs)
    {
        if (section.Text(key, item) is not { } text)
            return null;
        string[] parts = [.. text.Split(',').Select(part => part.Trim())];
        if (parts.Length != 3 || QuantityGrammar.ReadNumber(parts[2], out double strength) is not null)
        {
            section.Wrong(key, item.Spot, $"\"{Printable.Of(text)}\" is not two keys and a correlation from -1 to 1, as in \"honey.moisture, debris.load, 0.5\"");
            return null;
        }

        string[] names = [.. inputs.Select(input => input.Name)];
        string? one = section.WordOf(key, item.Spot, parts[0], names, "key that takes a spread");
        string? other = section.WordOf(key, item.Spot, parts[1], names, "key that takes a spread");
        return one is null || other is null ? null : new InputCorrelation(one, other, strength);
    }
}
