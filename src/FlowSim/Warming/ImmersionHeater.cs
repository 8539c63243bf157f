using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A heating element that stands in the honey, on the axis. The body is the element; its own volume is neglected.</summary>
public sealed record ImmersionHeater : HeatingKit
{
    /// <summary>Lower end of the element above the floor. 0 to 20 m, below the honey's surface.</summary>
    public required Length From { get; init; }

    /// <summary>Upper end of the element above the floor: at least 5 mm above <see cref="From"/>; what stands out of the honey counts for nothing.</summary>
    public required Length To { get; init; }

    /// <summary>Radius of the element, of a coil the radius of a rod with as much surface. 2 to 500 mm, less than that of the vessel.</summary>
    public required Length Radius { get; init; }

    /// <inheritdoc/>
    /// <remarks>Default 2 kJ/K: about 4 kg of steel (engineering choice).</remarks>
    public override Entropy BodyHeatCapacity { get; init; } = Entropy.FromKilojoulesPerKelvin(2);

    internal override KitContacts Contacts(WarmedVessel vessel) => new()
    {
        Floor = KitContacts.FloorInAir(vessel),
        ElementRadiusM = Radius.Meters,
        ElementFromM = From.Meters,
        ElementToM = To.Meters,
    };

    internal override void ValidateOwn(WarmedVessel vessel)
    {
        EquipmentCheck.Within(From.Millimeters, 0, vessel.Level.Millimeters - 5, "mm", nameof(From));
        EquipmentCheck.Within(To.Millimeters, From.Millimeters + 5, 20_000, "mm", nameof(To));
        EquipmentCheck.Within(Radius.Millimeters, 2, Math.Min(500, 900 * VesselCylinder.RadiusM(vessel)), "mm", nameof(Radius));
    }
}
