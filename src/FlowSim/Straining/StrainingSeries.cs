namespace FlowSim.Straining;

/// <summary>A run over time, as columns of equal length in SI units (named in each). Rows are increasing in time; an event that jumps gives two rows of one time.</summary>
public sealed record StrainingSeries
{
    /// <summary>Time from the start, s.</summary>
    public required IReadOnlyList<double> TimeS { get; init; }

    /// <summary>Level in the tank above its lowest point, m.</summary>
    public required IReadOnlyList<double> TankLevelM { get; init; }

    /// <summary>Depth of the pond above the cloth's lowest point, m.</summary>
    public required IReadOnlyList<double> PondDepthM { get; init; }

    /// <summary>Level in the receiver above its lowest point, m.</summary>
    public required IReadOnlyList<double> ReceiverLevelM { get; init; }

    /// <summary>Opening of the gate, share of the bore, 0 to 1; while the gate is ridden, the opening that holds the pond.</summary>
    public required IReadOnlyList<double> Opening { get; init; }

    /// <summary>Flow through the gate, kg/s.</summary>
    public required IReadOnlyList<double> GateFlowKgPerS { get; init; }

    /// <summary>Flow through the cloth, kg/s.</summary>
    public required IReadOnlyList<double> ClothFlowKgPerS { get; init; }

    /// <summary>Flow over the strainer's rim, kg/s.</summary>
    public required IReadOnlyList<double> OverRimFlowKgPerS { get; init; }

    /// <summary>Mass in the tank, film included, kg.</summary>
    public required IReadOnlyList<double> TankMassKg { get; init; }

    /// <summary>Mass on the strainer, kg.</summary>
    public required IReadOnlyList<double> PondMassKg { get; init; }

    /// <summary>Mass that has passed the cloth, kg.</summary>
    public required IReadOnlyList<double> StrainedKg { get; init; }

    /// <summary>Mass that has gone over the rim, kg.</summary>
    public required IReadOnlyList<double> OverRimKg { get; init; }

    /// <summary>Temperature in the tank, K.</summary>
    public required IReadOnlyList<double> TankTemperatureK { get; init; }

    /// <summary>Temperature of the pond, K.</summary>
    public required IReadOnlyList<double> PondTemperatureK { get; init; }

    /// <summary>Temperature in the receiver, K.</summary>
    public required IReadOnlyList<double> ReceiverTemperatureK { get; init; }

    /// <summary>Open share of each cloth, first to last, 0 to 1.</summary>
    public required IReadOnlyList<IReadOnlyList<double>> OpenShare { get; init; }
}
