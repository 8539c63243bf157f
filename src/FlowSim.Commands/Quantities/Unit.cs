namespace FlowSim.Commands.Quantities;

/// <summary>One unit and the ways people write it.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Symbol">How it is printed.</param>
/// <param name="Factor">SI value of one unit: K, m, m³, kg, s, Pa·s, 1, kg/m³, W/(m²·K), W, J/K, m², m/s.</param>
/// <param name="Offset">SI value of zero; only temperatures, not their differences, have one.</param>
/// <param name="Exact">Spellings in which case matters, after <see cref="Units.Normalize"/>.</param>
/// <param name="AnyCase">Spellings in which case does not matter, in lower case.</param>
/// <param name="Echo">What is read into it that the writer may not have meant; null when nothing is.</param>
internal sealed record Unit(
    Dimension Dimension,
    string Symbol,
    double Factor,
    double Offset,
    string[] Exact,
    string[] AnyCase,
    string? Echo = null);
