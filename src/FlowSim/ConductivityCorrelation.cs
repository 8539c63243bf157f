namespace FlowSim;

/// <summary>Thermal conductivity of honey against moisture and temperature: the contract of a correlation.</summary>
public abstract class ConductivityCorrelation
{
    /// <summary>Name as the user writes it: lower case, hyphens.</summary>
    public abstract string Name { get; }

    /// <summary>Where the coefficients come from.</summary>
    public abstract Source Source { get; }

    /// <summary>Range of the moisture, % by mass.</summary>
    public abstract ValidityRange MoistureRange { get; }

    /// <summary>Range of the temperature, °C.</summary>
    public abstract ValidityRange TemperatureRange { get; }

    /// <summary>Thermal conductivity, W/(m·K). A pure kernel: arguments are not checked.</summary>
    /// <param name="moisturePercent">Moisture, % by mass.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    protected internal abstract double ConductivityWPerMK(double moisturePercent, double temperatureK);
}
