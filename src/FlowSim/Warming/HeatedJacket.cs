using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A jacket on the side, a heated base, or both: water or oil against the wall. What it does not cover faces the room.</summary>
public sealed record HeatedJacket : HeatingKit
{
    /// <summary>Lower end of the jacket above the floor. 0 to 20 m. Default 0.</summary>
    public Length From { get; init; } = Length.Zero;

    /// <summary>Upper end of the jacket above the floor; the same as <see cref="From"/> for a heated base alone. 0 to 20 m.</summary>
    public required Length To { get; init; }

    /// <summary>Whether the floor is heated too. Default true.</summary>
    public bool HeatsFloor { get; init; } = true;

    /// <summary>Coefficient between the jacket's water and the wall. See <see cref="WaterBath.CoefficientRange"/>. Default 300 W/(m²·K) (engineering choice).</summary>
    public HeatTransferCoefficient WaterCoefficient { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(300);

    /// <inheritdoc/>
    /// <remarks>Default 84 kJ/K: 20 L of water.</remarks>
    public override Entropy BodyHeatCapacity { get; init; } = Entropy.FromKilojoulesPerKelvin(84);

    internal override KitContacts Contacts(WarmedVessel vessel)
    {
        Film water = Film.Coefficient(WaterCoefficient.WattsPerSquareMeterKelvin);
        return new KitContacts
        {
            BodySide = water,
            BodySideFromM = From.Meters,
            BodySideToM = To.Meters,
            Floor = HeatsFloor ? water : KitContacts.FloorInAir(vessel),
            FloorFacesBody = HeatsFloor,
        };
    }

    internal override void ValidateOwn(WarmedVessel vessel)
    {
        EquipmentCheck.Millimetres(From, 0, 20_000, nameof(From));
        EquipmentCheck.Within(To.Millimeters, From.Millimeters, 20_000, "mm", nameof(To));
        WaterBath.CheckedWPerM2K(WaterCoefficient, nameof(WaterCoefficient));
        if (!HeatsFloor && (To <= From || From >= vessel.Level))
            throw EquipmentCheck.Refused(nameof(To), "A jacket that covers no honey and does not heat the floor warms nothing.");
    }
}
