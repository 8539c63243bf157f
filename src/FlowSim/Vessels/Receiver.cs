using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>The vessel under the strainer: bottling tank, drum or pail.</summary>
public sealed record Receiver
{
    /// <summary>Shape of the inside.</summary>
    public required VesselShape Shape { get; init; }

    /// <summary>Volume already in it at the start, at most its capacity. Default none.</summary>
    public Volume AlreadyIn { get; init; } = Volume.Zero;

    /// <summary>Temperature of what is already in it and of the vessel. −30 to 100 °C. Null: the room's.</summary>
    public Temperature? StartTemperature { get; init; }

    /// <summary>
    /// Height of the strainer's lowest point above the brim. Positive with a spacer between them; negative when the strainer
    /// hangs inside, so that a rising level takes head away from it. Not deeper than the receiver is high, at most 5 m above it. Default 0.
    /// </summary>
    public Length Spacer { get; init; } = Length.Zero;

    /// <summary>Whether somebody shuts the gate when it is full. Default true; false lets it run over onto the floor.</summary>
    public bool ShutWhenFull { get; init; } = true;

    /// <summary>Coefficient of the heat lost. Default 6 W/(m²·K) (engineering choice). 0 to 100 W/(m²·K).</summary>
    public HeatTransferCoefficient HeatLoss { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(6);
}
