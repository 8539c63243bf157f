using System.Globalization;
using UnitsNet;

namespace FlowSim.Properties;

/// <summary>The properties of one honey at any temperature.</summary>
public sealed class HoneyProperties
{
    private readonly double _moisturePercent;
    private readonly double _lotFactor;
    private readonly ViscosityCorrelation _viscosity;
    private readonly ConductivityCorrelation _conductivity;

    private HoneyProperties(Honey honey, double moisturePercent, ViscosityCorrelation viscosity, ConductivityCorrelation conductivity)
    {
        Honey = honey;
        _moisturePercent = moisturePercent;
        _lotFactor = honey.LotFactor;
        _viscosity = viscosity;
        _conductivity = conductivity;
    }

    /// <summary>The honey.</summary>
    public Honey Honey { get; }

    /// <summary>The viscosity correlation in use.</summary>
    public ViscosityCorrelation Viscosity => _viscosity;

    /// <summary>The conductivity correlation in use.</summary>
    public ConductivityCorrelation Conductivity => _conductivity;

    /// <summary>Checks a honey and gives its properties.</summary>
    /// <param name="honey">The honey.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The moisture is outside the outer range of the viscosity or density correlation, or the lot factor outside
    /// <see cref="LotFactorSpread.Range"/>.
    /// </exception>
    /// <exception cref="HoneyRefusedException">The honey is not a simple liquid and no measured viscosity is given.</exception>
    public static HoneyProperties Of(Honey honey)
    {
        ArgumentNullException.ThrowIfNull(honey);
        ViscosityCorrelation viscosity = honey.Viscosity ?? ViscosityCorrelations.Default;
        ConductivityCorrelation conductivity = honey.Conductivity ?? ConductivityCorrelations.Default;
        double moisturePercent = honey.Moisture.Percent;
        viscosity.MoistureRange.Require(moisturePercent, nameof(honey));
        HoneyDensity.MoistureRange.Require(moisturePercent, nameof(honey));
        LotFactorSpread.Range.Require(honey.LotFactor, nameof(honey));
        if (honey.Form != HoneyForm.Liquid && !viscosity.IsMeasured)
        {
            throw new HoneyRefusedException(
                honey.Form == HoneyForm.Granulated
                    ? "Granulated honey is thicker than the liquid by an amount no published constant gives."
                    : "Honey that sets to a gel at rest has no single viscosity, and no trustworthy constants for it were found.",
                "Measure its viscosity at the temperature it will be strained at (falling ball, or a timed drain) and give the figures, or melt it first and describe it as liquid.",
                nameof(honey));
        }

        return new HoneyProperties(honey, moisturePercent, viscosity, conductivity);
    }

    /// <summary>Dynamic viscosity, Pa·s, lot factor included. Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double ViscosityPaS(double temperatureK) => _lotFactor * _viscosity.ViscosityPaS(_moisturePercent, temperatureK);

    /// <summary>Density, kg/m³. Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double DensityKgPerM3(double temperatureK) => HoneyDensity.DensityKgPerM3(_moisturePercent, temperatureK);

    /// <summary>Slope of the density against temperature, kg/(m³·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double DensitySlopeKgPerM3K(double temperatureK) => HoneyDensity.SlopeKgPerM3K;

    /// <summary>Specific heat capacity, J/(kg·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double HeatCapacityJPerKgK(double temperatureK) => HoneyHeatCapacity.Bubnik1995(_moisturePercent, temperatureK);

    /// <summary>Thermal conductivity, W/(m·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double ConductivityWPerMK(double temperatureK) => _conductivity.ConductivityWPerMK(_moisturePercent, temperatureK);

    /// <summary>Range notices of the properties a run uses.</summary>
    /// <param name="temperature">Temperature.</param>
    public IReadOnlyList<Notice> NoticesAt(Temperature temperature)
    {
        double t = temperature.DegreesCelsius;
        Notice?[] all =
        [
            _viscosity.MoistureRange.NoticeFor(_moisturePercent),
            _viscosity.TemperatureRange.NoticeFor(t),
            HoneyDensity.MoistureRange.NoticeFor(_moisturePercent),
            HoneyDensity.TemperatureRange.NoticeFor(t),
            HoneyHeatCapacity.MoistureRange.NoticeFor(_moisturePercent),
            HoneyHeatCapacity.TemperatureRange.NoticeFor(t),
        ];
        return [.. all.OfType<Notice>()];
    }
}
