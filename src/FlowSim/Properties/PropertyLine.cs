namespace FlowSim.Properties;

/// <summary>One property of a honey at one temperature, with all that is needed to judge it.</summary>
/// <param name="Property">Which property.</param>
/// <param name="Name">Name for print.</param>
/// <param name="Symbol">Usual symbol.</param>
/// <param name="Value">Value in <paramref name="Unit"/>; null beyond the outer range, where none is given.</param>
/// <param name="Unit">Unit for print; empty when dimensionless.</param>
/// <param name="Spread">How far it may lie off.</param>
/// <param name="Correlation">Name of the correlation.</param>
/// <param name="Source">Source and its standing.</param>
/// <param name="MoistureRange">Range in moisture.</param>
/// <param name="TemperatureRange">Range in temperature.</param>
/// <param name="Notices">Range notices; empty when data support the value.</param>
public sealed record PropertyLine(
    HoneyProperty Property,
    string Name,
    string Symbol,
    double? Value,
    string Unit,
    PropertySpread Spread,
    string Correlation,
    Source Source,
    ValidityRange MoistureRange,
    ValidityRange TemperatureRange,
    IReadOnlyList<Notice> Notices);
