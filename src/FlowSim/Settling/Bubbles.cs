using UnitsNet;

namespace FlowSim.Settling;

/// <summary>Air bubbles in the honey, after straining, pumping or pouring. No measured sizes were found: count them under a lens, or fit the time you know.</summary>
public sealed record Bubbles
{
    /// <summary>Density of air at 20 °C, kg/m³ (any table); next to that of honey its changes do not count.</summary>
    internal const double AirKgPerM3 = 1.2;

    /// <summary>Volume of the bubbles, share of the layer. 0 to 10 %. Default 0.5 % (engineering choice, no field data).</summary>
    public Ratio Load { get; init; } = Ratio.FromPercent(0.5);

    /// <summary>Median diameter by volume. 0.001 to 20 mm. Default 0.5 mm (engineering choice).</summary>
    public Length MedianSize { get; init; } = Length.FromMillimeters(0.5);

    /// <summary>Standard deviation of the natural logarithm of the diameter. 0.05 to 2. Default 0.6 (engineering choice).</summary>
    public double SizeSpread { get; init; } = 0.6;
}
