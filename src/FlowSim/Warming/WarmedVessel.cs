using FlowSim.Heating;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A pail, drum, tank or jar as heat sees it.</summary>
/// <remarks>The honey is taken as an upright cylinder: that of the shape when it is one, else the cylinder of the same level and volume, with a notice.</remarks>
public sealed record WarmedVessel
{
    /// <summary>Shape of the inside.</summary>
    public required VesselShape Shape { get; init; }

    /// <summary>Level of the honey above the lowest point, 10 mm to the brim.</summary>
    public required Length Level { get; init; }

    /// <summary>Wall, floor and what is wrapped around them, from the inside out. Default none: a wall without resistance.</summary>
    public IReadOnlyList<WallLayer> Wall { get; init; } = [];

    /// <summary>Emissivity of the outside. 0 to 1. Default 0.9: paint or plastic; bare metal has 0.1 to 0.4 (from memory).</summary>
    public double Emissivity { get; init; } = 0.9;

    /// <summary>What closes the vessel. Default <see cref="VesselLid.Closed"/>.</summary>
    public VesselLid Lid { get; init; } = VesselLid.Closed;

    /// <summary>What it stands on. Default <see cref="VesselBase.Rack"/>.</summary>
    public VesselBase Base { get; init; } = VesselBase.Rack;
}

/// <summary>What closes a vessel.</summary>
public enum VesselLid
{
    /// <summary>A lid with air under it.</summary>
    Closed,

    /// <summary>Nothing: the honey's surface faces the air.</summary>
    Open,

    /// <summary>A lid that lets no heat through.</summary>
    Insulated,
}

/// <summary>What a vessel stands on.</summary>
public enum VesselBase
{
    /// <summary>A rack, with air under the floor.</summary>
    Rack,

    /// <summary>Something that lets no heat through: boards, foam.</summary>
    Insulated,
}
