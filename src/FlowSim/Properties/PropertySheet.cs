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
    public PropertyLine this[HoneyProperty property] => Lines.First(line => line.Property == property);
}
