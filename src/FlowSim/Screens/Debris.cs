using UnitsNet;

namespace FlowSim.Screens;

/// <summary>Wax and other bits carried by the honey.</summary>
public sealed record Debris
{
    /// <summary>Mass of debris per mass of honey. 0 to 2 %. Default 0.3 g/kg: settled and skimmed (engineering choice, no field data).</summary>
    public Ratio Load { get; init; } = Ratio.FromPartsPerMillion(300);

    /// <summary>Median size by mass. 1 µm to 20 mm. Default 0.5 mm (engineering choice).</summary>
    public Length MedianSize { get; init; } = Length.FromMillimeters(0.5);

    /// <summary>Standard deviation of the natural logarithm of size. 0.05 to 2. Default 0.6 (engineering choice).</summary>
    public double SizeSpread { get; init; } = 0.6;

    /// <summary>Share of the oversize bits that a cloth catches. 0 to 1. Default 0.5 (engineering choice).</summary>
    public double CaptureEfficiency { get; init; } = 0.5;

    /// <summary>Density of the bits. 500 to 3000 kg/m³. Default 960 kg/m³, beeswax (from memory).</summary>
    public Density Density { get; init; } = Density.FromKilogramsPerCubicMeter(960);

    /// <summary>How caught bits close the cloth. Default <see cref="BlockingLaw.Intermediate"/>.</summary>
    public BlockingLaw Law { get; init; } = BlockingLaw.Intermediate;
}

/// <summary>Hermia's blocking laws, by how the open share falls with strained volume.</summary>
public enum BlockingLaw
{
    /// <summary>Every bit closes its own area: exponent n = 2.</summary>
    Complete,

    /// <summary>Bits line the openings: n = 3/2.</summary>
    Standard,

    /// <summary>Bits land on open and closed area alike: n = 1.</summary>
    Intermediate,

    /// <summary>Bits build a layer: n = 0.</summary>
    Cake,
}
