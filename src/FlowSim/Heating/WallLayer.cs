using UnitsNet;

namespace FlowSim.Heating;

/// <summary>A layer of a vessel's wall or of what is wrapped around it.</summary>
public sealed record WallLayer
{
    /// <summary>Thickness, 0 to 500 mm.</summary>
    public required Length Thickness { get; init; }

    /// <summary>Thermal conductivity, 0.005 to 500 W/(m·K).</summary>
    public required ThermalConductivity Conductivity { get; init; }

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal void Validate()
    {
        EquipmentCheck.Millimetres(Thickness, 0, 500, nameof(Thickness));
        EquipmentCheck.Within(Conductivity.WattsPerMeterKelvin, 0.005, 500, "W/(m·K)", nameof(Conductivity));
    }
}
