using FlowSim.Properties;

namespace FlowSim.Warming;

/// <summary>The properties of a honey, held at their ends beyond −40 to 150 °C.</summary>
internal sealed class HoneyHeat : IHeatProperties
{
    /// <summary>Lowest temperature that a run can have, K.</summary>
    public const double ColdestK = 233.15;

    /// <summary>Temperature at which a run is ended, K.</summary>
    public const double HottestK = 423.15;

    private readonly HoneyProperties _honey;

    public HoneyHeat(HoneyProperties honey, Crystals? crystals, double capacityFactor = 1)
    {
        _honey = honey;

        (double at0C, double perK) = HoneyHeatCapacity.CoefficientsAt(honey.Honey.Moisture.Percent);
        (double a, double b) = (capacityFactor * at0C, capacityFactor * perK);
        CrystalShare = crystals?.Share.DecimalFractions ?? 0;
        Enthalpy = CrystalShare > 0
            ? new HoneyEnthalpy(a, b, GlucoseMelting.LatentHeatJPerKg * CrystalShare, crystals!.MeltFrom.DegreesCelsius, crystals.MeltTo.DegreesCelsius)
            : new HoneyEnthalpy(a, b);
    }

    /// <inheritdoc/>
    public HoneyEnthalpy Enthalpy { get; }

    /// <inheritdoc/>
    public double CrystalShare { get; }

    /// <inheritdoc/>
    public double ConductivityWPerMK(double temperatureK) => _honey.ConductivityWPerMK(Within(temperatureK));

    /// <inheritdoc/>
    public double DensityKgPerM3(double temperatureK) => _honey.DensityKgPerM3(Within(temperatureK));

    /// <inheritdoc/>
    public double ExpansionPerK(double temperatureK)
    {
        double within = Within(temperatureK);
        return -_honey.DensitySlopeKgPerM3K(within) / _honey.DensityKgPerM3(within);
    }

    /// <inheritdoc/>
    public double ViscosityPaS(double temperatureK) => _honey.ViscosityPaS(Within(temperatureK));

    private static double Within(double temperatureK) => Math.Clamp(temperatureK, ColdestK, HottestK);
}
