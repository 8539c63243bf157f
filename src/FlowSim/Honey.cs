using UnitsNet;

namespace FlowSim;

/// <summary>A honey, as far as its flow and heat properties go.</summary>
public sealed record Honey
{
    /// <summary>Moisture, share of mass. The correlations state how far each goes.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>
    /// Lot factor on viscosity: this honey's viscosity divided by the correlation's at the same moisture and temperature.
    /// Default 1; allowed 0.05 to 20. Honeys of equal moisture differ with a natural-logarithm standard deviation of about
    /// 0.30 (engineering choice from seven published values).
    /// </summary>
    public double LotFactor { get; init; } = 1;

    /// <summary>Whether it flows as a simple liquid. Default <see cref="HoneyForm.Liquid"/>.</summary>
    public HoneyForm Form { get; init; } = HoneyForm.Liquid;

    /// <summary>Viscosity correlation; null takes the library's default. Measured figures come in here too.</summary>
    public ViscosityCorrelation? Viscosity { get; init; }

    /// <summary>Thermal-conductivity correlation; null takes the library's default.</summary>
    public ConductivityCorrelation? Conductivity { get; init; }
}
