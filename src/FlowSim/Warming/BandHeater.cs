using UnitsNet;

namespace FlowSim.Warming;

/// <summary>An electric band or blanket around part of the side. The body is the band; what it does not cover faces the room.</summary>
public sealed record BandHeater : HeatingKit
{
    /// <summary>Lower end of the band above the floor. 0 to 20 m.</summary>
    public required Length From { get; init; }

    /// <summary>Upper end of the band above the floor: at least 5 mm above <see cref="From"/>, at most 20 m.</summary>
    public required Length To { get; init; }

    /// <summary>Coefficient between band and wall. 5 to 1000 W/(m²·K). Default 50 W/(m²·K): a strapped band with some air under it (engineering choice).</summary>
    public HeatTransferCoefficient ContactCoefficient { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(50);

    /// <inheritdoc/>
    /// <remarks>Default 2 kJ/K: about 2 kg of rubber and metal (engineering choice).</remarks>
    public override Entropy BodyHeatCapacity { get; init; } = Entropy.FromKilojoulesPerKelvin(2);

    internal override KitContacts Contacts(WarmedVessel vessel) => new()
    {
        BodySide = Film.Coefficient(ContactCoefficient.WattsPerSquareMeterKelvin),
        BodySideFromM = From.Meters,
        BodySideToM = To.Meters,
        Floor = KitContacts.FloorInAir(vessel),
    };

    internal override void ValidateOwn(WarmedVessel vessel)
    {
        EquipmentCheck.Millimetres(From, 0, 20_000, nameof(From));
        EquipmentCheck.Within(To.Millimeters, From.Millimeters + 5, 20_000, "mm", nameof(To));
        EquipmentCheck.Within(From.Millimeters, 0, vessel.Level.Millimeters - 5, "mm", nameof(From));
        EquipmentCheck.Within(ContactCoefficient.WattsPerSquareMeterKelvin, 5, 1000, "W/(m²·K)", nameof(ContactCoefficient));
    }
}
