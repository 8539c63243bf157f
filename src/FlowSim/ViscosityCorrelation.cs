namespace FlowSim;

/// <summary>Viscosity of liquid honey against moisture and temperature: the contract of a correlation.</summary>
/// <remarks>One file per correlation; it is offered to users once it stands in <c>ViscosityCorrelations.All</c>.</remarks>
public abstract class ViscosityCorrelation
{
    /// <summary>Name as the user writes it: lower case, hyphens.</summary>
    public abstract string Name { get; }

    /// <summary>Where the coefficients come from.</summary>
    public abstract Source Source { get; }

    /// <summary>Range of the moisture, % by mass.</summary>
    public abstract ValidityRange MoistureRange { get; }

    /// <summary>Range of the temperature, °C.</summary>
    public abstract ValidityRange TemperatureRange { get; }

    /// <summary>Standard deviation of ln μ about the correlation's own data.</summary>
    public abstract double LogResidual { get; }

    /// <summary>Whether the figures were measured on the user's own honey, which lifts the refusal of honeys that are not simple liquids.</summary>
    public virtual bool IsMeasured => false;

    /// <summary>Dynamic viscosity, Pa·s. A pure kernel: arguments are not checked.</summary>
    /// <param name="moisturePercent">Moisture, % by mass.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    protected internal abstract double ViscosityPaS(double moisturePercent, double temperatureK);

    /// <summary>The same as a Vogel form, which many runs side by side can share; null when it is none.</summary>
    /// <param name="moisturePercent">Moisture, % by mass.</param>
    internal virtual VogelForm? FormAt(double moisturePercent) => null;
}
