using UnitsNet;

namespace FlowSim.Screens;

/// <summary>Plain square woven wire cloth.</summary>
public sealed record Cloth
{
    /// <summary>Clear opening between wires. 0.02 mm to 10 mm.</summary>
    public required Length Opening { get; init; }

    /// <summary>Wire diameter. 0.01 mm to 5 mm.</summary>
    public required Length WireDiameter { get; init; }
}
