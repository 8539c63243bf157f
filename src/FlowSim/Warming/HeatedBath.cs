using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A water bath: warm water around the side and under the floor, up to a level; the rest of the side and the top face the room.</summary>
public sealed record HeatedBath : HeatingKit
{
    /// <summary>Level of the water above the vessel's floor. 10 mm to 10 m.</summary>
    public required Length WaterLevel { get; init; }

    /// <summary>Coefficient between water and wall. See <see cref="WaterBath.CoefficientRange"/>. Default 300 W/(m²·K): still water (engineering choice).</summary>
    public HeatTransferCoefficient WaterCoefficient { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(300);

    /// <inheritdoc/>
    /// <remarks>Default 210 kJ/K: 50 L of water.</remarks>
    public override Entropy BodyHeatCapacity { get; init; } = Entropy.FromKilojoulesPerKelvin(210);

    internal override KitContacts Contacts(WarmedVessel vessel)
    {
        Film water = Film.Coefficient(WaterCoefficient.WattsPerSquareMeterKelvin);
        return new KitContacts
        {
            BodySide = water,
            BodySideToM = WaterLevel.Meters,
            Floor = vessel.Base == VesselBase.Rack ? water : Film.None,
            FloorFacesBody = true,
        };
    }

    internal override void ValidateOwn(WarmedVessel vessel)
    {
        EquipmentCheck.Millimetres(WaterLevel, 10, 10_000, nameof(WaterLevel));
        WaterBath.CheckedWPerM2K(WaterCoefficient, nameof(WaterCoefficient));
    }
}
