using UnitsNet;

namespace FlowSim;

/// <summary>A honey, as far as its flow and heat properties go.</summary>
public sealed record Honey
{
    /// <summary>Moisture, share of mass. The correlations state how far each goes (<see cref="ViscosityCorrelation.MoistureRange"/>); a run refuses what is beyond the outer range of any.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>
    /// Lot factor on viscosity: this honey's viscosity divided by the correlation's at the same moisture and temperature.
    /// Default 1. The range allowed, and how far honeys of equal moisture differ, stand in
    /// <c>LotFactorSpread</c>.
    /// </summary>
    public double LotFactor { get; init; } = 1;

    /// <summary>Whether it flows as a simple liquid. Default <see cref="HoneyForm.Liquid"/>.</summary>
    public HoneyForm Form { get; init; } = HoneyForm.Liquid;

    /// <summary>Viscosity correlation; null takes the library's default. Measured figures come in here too.</summary>
    public ViscosityCorrelation? Viscosity { get; init; }

    /// <summary>Thermal-conductivity correlation; null takes the library's default.</summary>
    public ConductivityCorrelation? Conductivity { get; init; }
}
