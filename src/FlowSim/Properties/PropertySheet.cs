using UnitsNet;

namespace FlowSim.Properties;

/// <summary>All properties of a honey at one temperature.</summary>
/// <param name="Honey">The honey.</param>
/// <param name="Temperature">The temperature.</param>
/// <param name="Lines">One line per property, in the order of <see cref="HoneyProperty"/>.</param>
public sealed record PropertySheet(Honey Honey, Temperature Temperature, IReadOnlyList<PropertyLine> Lines)
{
    /// <summary>The line of one property.</summary>
    /// <param name="property">Which property.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sheet has no such property.</exception>
    public PropertyLine this[HoneyProperty property] => Lines.FirstOrDefault(line => line.Property == property)
        ?? throw new ArgumentOutOfRangeException(nameof(property), property, "The property must be one of HoneyProperty's.");
}
