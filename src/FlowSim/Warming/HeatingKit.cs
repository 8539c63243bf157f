using UnitsNet;

namespace FlowSim.Warming;

/// <summary>What warms or cools a vessel: the contract of a kit. One file per kit.</summary>
/// <remarks>
/// A kit is a body of one temperature (air, water, an element) with a heater in it, a thermostat on the heater, and contacts to
/// the honey. Without <see cref="HeaterPower"/> the body is at the setpoint at every moment.
/// </remarks>
public abstract record HeatingKit
{
    private protected HeatingKit()
    {
    }

    /// <summary>What steers the heater.</summary>
    public required Thermostat Thermostat { get; init; }

    /// <summary>Most the heater gives, all vessels together. 1 W to 1 MW; null for as much as is needed, heating or cooling.</summary>
    public Power? HeaterPower { get; init; }

    /// <summary>Heat capacity of the body: the air with its lining, the water, the element. 0.1 kJ/K to 100 MJ/K. Without <see cref="HeaterPower"/> it plays no part.</summary>
    public abstract Entropy BodyHeatCapacity { get; init; }

    /// <summary>Temperature of the body at the start; null for the room's. −30 to 120 °C. Without <see cref="HeaterPower"/> it plays no part.</summary>
    public Temperature? BodyStart { get; init; }

    /// <summary>Area through which the body loses heat to the room past the vessels. 0 to 1000 m². Default 0.</summary>
    public Area LossArea { get; init; } = Area.Zero;

    /// <summary>Coefficient of that loss. 0 to 100 W/(m²·K). Default 2 W/(m²·K): a cabinet with some insulation (engineering choice).</summary>
    public HeatTransferCoefficient LossCoefficient { get; init; } = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(2);

    /// <summary>How the body and the room touch the honey.</summary>
    /// <param name="vessel">Vessel, checked.</param>
    internal abstract KitContacts Contacts(WarmedVessel vessel);

    /// <summary>Throws when a value of this kit's own is outside the range its documentation gives.</summary>
    /// <param name="vessel">Vessel, checked.</param>
    internal abstract void ValidateOwn(WarmedVessel vessel);
}
