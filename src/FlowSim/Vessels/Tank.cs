using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>A tank, drum or pail that is being emptied through a gate.</summary>
public sealed record Tank
{
    /// <summary>Shape of the inside.</summary>
    public required VesselShape Shape { get; init; }

    /// <summary>
    /// Level of the honey at the start, above the lowest point. At most the brim, and at least 4 mm above <see cref="GateHeight"/>
    /// (2 mm above where the tank counts as drained, which is higher in a cone that narrows to the bore).
    /// </summary>
    public required Length Level { get; init; }

    /// <summary>
    /// Height of the gate's axis above the lowest point. What lies below stays as the heel. Default 0: the gate drains
    /// everything, as under a cone or in a tipped pail. Not above the brim.
    /// </summary>
    public Length GateHeight { get; init; } = Length.Zero;

    /// <summary>Whether to count the film that clings to the wall. Default true.</summary>
    public bool WallFilm { get; init; } = true;

    /// <summary>Whether a jacket or a warm room holds the tank at its starting temperature. Default false: it cools toward the room.</summary>
    public bool HeldAtTemperature { get; init; }

    /// <summary>
    /// Coefficient of the heat lost through wall and surface. Default 6 W/(m²·K): bare metal in a still room
    /// (engineering choice). 0 to 100 W/(m²·K).
    /// </summary>
    public HeatTransferCoefficient HeatLoss { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(6);
}
