using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>A jar, bottle or small pail that honey is sold in.</summary>
/// <remarks>
/// Two families that are easily mixed up: jars named by the *weight of honey* they are sold as, and jars named by their *volume*.
/// A jar of 16 fluid ounces holds some 22 ounces of honey. To measure a brimful volume: fill the jar with water to the
/// brim and weigh it; a gram is a millilitre.
/// </remarks>
public sealed record Jar
{
    /// <summary>Volume to the brim. 5 mL to 30 L.</summary>
    public required Volume Brimful { get; init; }

    /// <summary>Net weight of honey it is usually sold as; null for a jar named by its volume. 1 g to 45 kg.</summary>
    public Mass? SoldAs { get; init; }

    /// <summary>Inside diameter of the neck, to give the headspace as a depth; null leaves the depth out. 5 mm to 500 mm.</summary>
    public Length? Mouth { get; init; }
}
