using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A warm room, cabinet or cold store: air all around the vessels. The body is the air with its lining.</summary>
public sealed record WarmAir : HeatingKit
{
    /// <summary>Speed of the air that a fan moves across the vessels; 0 in still air, at most 20 m/s (<see cref="OutsideCoefficient.AirSpeedRange"/>). Default 0.</summary>
    public Speed AirSpeed { get; init; } = Speed.Zero;

    /// <inheritdoc/>
    /// <remarks>Default 30 kJ/K: a cubic metre of air and the skin of its lining (engineering choice).</remarks>
    public override Entropy BodyHeatCapacity { get; init; } = Entropy.FromKilojoulesPerKelvin(30);

    internal override KitContacts Contacts(WarmedVessel vessel)
    {
        double speed = AirSpeed.MetersPerSecond;
        return new KitContacts
        {
            BodySide = new Film(FilmKind.AirOnSide, AirSpeedMPerS: speed),
            BodySideToM = double.PositiveInfinity,
            Floor = KitContacts.FloorInAir(vessel) with { AirSpeedMPerS = speed },
            FloorFacesBody = true,
            Top = new Film(FilmKind.AirOnTop, AirSpeedMPerS: speed),
            TopFacesBody = true,
        };
    }

    internal override void ValidateOwn(WarmedVessel vessel) => OutsideCoefficient.AirSpeedRange.Require(AirSpeed.MetersPerSecond, nameof(AirSpeed));
}
