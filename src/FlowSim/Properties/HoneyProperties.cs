using UnitsNet;

namespace FlowSim.Properties;

/// <summary>The properties of one honey at any temperature.</summary>
/// <remarks>
/// Asked for directly, a property is given only within the outer range of its correlation and throws beyond. A run, whose
/// temperature may wander, uses the unchecked kernels and carries <see cref="NoticesAt"/>. <see cref="SheetAt"/> gives every
/// property with its spread, source and range. Correlation and lot factor come from the <see cref="FlowSim.Honey"/>.
/// </remarks>
public sealed class HoneyProperties
{
    private readonly double _moisturePercent;
    private readonly double _lotFactor;

    private HoneyProperties(Honey honey, ViscosityCorrelation viscosity, ConductivityCorrelation conductivity)
        : this(honey, viscosity, conductivity, honey.Moisture.Percent, honey.LotFactor)
    {
    }

    private HoneyProperties(Honey honey, ViscosityCorrelation viscosity, ConductivityCorrelation conductivity, double moisturePercent, double lotFactor)
    {
        Honey = honey;
        Viscosity = viscosity;
        Conductivity = conductivity;
        _moisturePercent = moisturePercent;
        _lotFactor = lotFactor;
    }

    /// <summary>The properties of a honey that has been checked, at another moisture and lot factor within its ranges. Not checked.</summary>
    /// <param name="honey">The honey.</param>
    /// <param name="moisturePercent">Moisture, %.</param>
    /// <param name="lotFactor">Lot factor.</param>
    internal static HoneyProperties OfNumbers(Honey honey, double moisturePercent, double lotFactor) =>
        new(honey, honey.Viscosity ?? ViscosityCorrelations.Default, honey.Conductivity ?? ConductivityCorrelations.Default, moisturePercent, lotFactor);

    /// <summary>The honey.</summary>
    public Honey Honey { get; }

    /// <summary>The viscosity correlation in use.</summary>
    public ViscosityCorrelation Viscosity { get; }

    /// <summary>The conductivity correlation in use.</summary>
    public ConductivityCorrelation Conductivity { get; }

    /// <summary>Surface tension against air, ± 0.006 N/m. See <see cref="HoneySurfaceTension"/>.</summary>
    public ForcePerLength SurfaceTension => ForcePerLength.FromNewtonsPerMeter(HoneySurfaceTension.NewtonPerM);

    /// <summary>Water activity near 25 °C, ± 0.07. See <see cref="HoneyWaterActivity"/>.</summary>
    public Ratio WaterActivity => Ratio.FromDecimalFractions(HoneyWaterActivity.Chirife2006(_moisturePercent));

    /// <summary>Checks a honey and gives its properties.</summary>
    /// <param name="honey">The honey.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The moisture is outside the outer range of the viscosity correlation, of <see cref="HoneyDensity"/> or of another
    /// property, or the lot factor outside <see cref="LotFactorSpread.Range"/>.
    /// </exception>
    /// <exception cref="HoneyRefusedException">The honey is not a simple liquid and no measured viscosity is given.</exception>
    public static HoneyProperties Of(Honey honey)
    {
        ArgumentNullException.ThrowIfNull(honey);
        EquipmentCheck.Defined(honey.Form, nameof(honey.Form));

        ViscosityCorrelation viscosity = honey.Viscosity ?? ViscosityCorrelations.Default;
        ConductivityCorrelation conductivity = honey.Conductivity ?? ConductivityCorrelations.Default;
        foreach (ValidityRange range in MoistureRanges(viscosity, conductivity))
            range.Require(honey.Moisture.Percent, nameof(honey.Moisture));

        LotFactorSpread.Range.Require(honey.LotFactor, nameof(honey.LotFactor));
        if (honey.Form != HoneyForm.Liquid && !viscosity.IsMeasured)
        {
            throw new HoneyRefusedException(
                honey.Form == HoneyForm.Granulated
                    ? "Granulated honey is thicker than its liquid by an amount that depends on how much has crystallized and how fine; no published constants for it were found that can be trusted."
                    : "Honey that sets to a gel at rest has no single viscosity, and no published constants for it were found that can be trusted.",
                "Measure its viscosity, stirred as it will be when strained, at two or more temperatures around that of straining (a falling ball, or a timed drain of a known tank) and give the figures; or, if it is granulated, melt it first and describe it as liquid.",
                nameof(honey));
        }

        return new HoneyProperties(honey, viscosity, conductivity);
    }

    /// <summary>Dynamic viscosity, lot factor included.</summary>
    /// <param name="temperature">Temperature, within the outer range of <see cref="Viscosity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is beyond the outer range or not a number.</exception>
    public DynamicViscosity ViscosityAt(Temperature temperature)
    {
        Viscosity.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return DynamicViscosity.FromPascalSeconds(ViscosityPaS(temperature.Kelvins));
    }

    /// <summary>Density.</summary>
    /// <param name="temperature">Temperature, within the outer range of <see cref="HoneyDensity.TemperatureRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is beyond the outer range or not a number.</exception>
    public Density DensityAt(Temperature temperature)
    {
        HoneyDensity.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return Density.FromKilogramsPerCubicMeter(DensityKgPerM3(temperature.Kelvins));
    }

    /// <summary>Thermal expansion of volume, −(dρ/dT)/ρ, ± 20 % with the slope it comes from.</summary>
    /// <param name="temperature">Temperature, within the outer range of <see cref="HoneyDensity.TemperatureRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is beyond the outer range or not a number.</exception>
    public CoefficientOfThermalExpansion ThermalExpansionAt(Temperature temperature)
    {
        HoneyDensity.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return CoefficientOfThermalExpansion.FromPerKelvin(ThermalExpansionPerK(temperature.Kelvins));
    }

    /// <summary>Specific heat capacity, ± 8 %.</summary>
    /// <param name="temperature">Temperature, within the outer range of <see cref="HoneyHeatCapacity.TemperatureRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is beyond the outer range or not a number.</exception>
    public SpecificEntropy HeatCapacityAt(Temperature temperature)
    {
        HoneyHeatCapacity.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return SpecificEntropy.FromJoulesPerKilogramKelvin(HeatCapacityJPerKgK(temperature.Kelvins));
    }

    /// <summary>Thermal conductivity. The sources on offer differ by a factor 1.6.</summary>
    /// <param name="temperature">Temperature, within the outer range of <see cref="Conductivity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is beyond the outer range or not a number.</exception>
    public ThermalConductivity ThermalConductivityAt(Temperature temperature)
    {
        Conductivity.TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return ThermalConductivity.FromWattsPerMeterKelvin(ConductivityWPerMK(temperature.Kelvins));
    }

    /// <summary>
    /// Range notices of what a straining run uses: viscosity, density and heat capacity. Empty when data support all three
    /// at this moisture and temperature.
    /// </summary>
    /// <param name="temperature">Temperature; any number.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not a number.</exception>
    public IReadOnlyList<Notice> NoticesAt(Temperature temperature)
    {
        double temperatureC = Celsius(temperature);
        return
        [
            .. RangeNotices(Viscosity.MoistureRange, Viscosity.TemperatureRange, temperatureC),
            .. RangeNotices(HoneyDensity.MoistureRange, HoneyDensity.TemperatureRange, temperatureC),
            .. RangeNotices(HoneyHeatCapacity.MoistureRange, HoneyHeatCapacity.TemperatureRange, temperatureC),
        ];
    }

    /// <summary>Every property at one temperature, each with spread, source and range.</summary>
    /// <param name="temperature">Temperature; any number. Beyond a property's outer range its line carries no value.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not a number.</exception>
    public PropertySheet SheetAt(Temperature temperature) =>
        new(Honey, temperature, [.. Enum.GetValues<HoneyProperty>().Select(property => LineAt(property, temperature))]);

    /// <summary>One property at one temperature, with spread, source and range.</summary>
    /// <param name="property">Which property.</param>
    /// <param name="temperature">Temperature; any number. Beyond the outer range the line carries no value.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not a number, or there is no such property.</exception>
    public PropertyLine LineAt(HoneyProperty property, Temperature temperature)
    {
        double temperatureC = Celsius(temperature);
        double temperatureK = temperatureC + Physical.ZeroCelsiusK;
        return property switch
        {
            HoneyProperty.Viscosity => Line(
                property, "viscosity", "μ", ViscosityPaS, ViscositySpread, Viscosity.Name, Viscosity.Source, Viscosity.MoistureRange, Viscosity.TemperatureRange),
            HoneyProperty.Density => Line(
                property, "density", "ρ", DensityKgPerM3, HoneyDensity.SpreadAt(temperatureC), "density", HoneyDensity.Source, HoneyDensity.MoistureRange, HoneyDensity.TemperatureRange),
            HoneyProperty.ThermalExpansion => Line(
                property, "thermal expansion", "β", ThermalExpansionPerK, HoneyDensity.SlopeSpread, "density", HoneyDensity.SlopeSource, HoneyDensity.MoistureRange, HoneyDensity.TemperatureRange),
            HoneyProperty.HeatCapacity => Line(
                property, "heat capacity", "c", HeatCapacityJPerKgK, HoneyHeatCapacity.Spread, "heat capacity", HoneyHeatCapacity.Source, HoneyHeatCapacity.MoistureRange, HoneyHeatCapacity.TemperatureRange),
            HoneyProperty.ThermalConductivity => Line(
                property, "thermal conductivity", "λ", ConductivityWPerMK, ConductivityCorrelations.Spread, Conductivity.Name, Conductivity.Source, Conductivity.MoistureRange, Conductivity.TemperatureRange),
            HoneyProperty.SurfaceTension => Line(
                property, "surface tension", "γ", _ => HoneySurfaceTension.NewtonPerM, HoneySurfaceTension.Spread, "surface tension", HoneySurfaceTension.Source, HoneySurfaceTension.MoistureRange, HoneySurfaceTension.TemperatureRange),
            HoneyProperty.WaterActivity => Line(
                property, "water activity", "a_w", _ => HoneyWaterActivity.Chirife2006(_moisturePercent), HoneyWaterActivity.Spread, "water activity", HoneyWaterActivity.Source, HoneyWaterActivity.MoistureRange, HoneyWaterActivity.TemperatureRange),
            _ => throw new ArgumentOutOfRangeException(nameof(property), property, "The property must be one of HoneyProperty's."),
        };

        PropertyLine Line(
            HoneyProperty of,
            string name,
            string symbol,
            Func<double, double> kernel,
            PropertySpread spread,
            string correlation,
            Source source,
            ValidityRange moistureRange,
            ValidityRange temperatureRange) => new(
                of,
                name,
                symbol,
                temperatureRange.Admits(temperatureC) ? kernel(temperatureK) : null,
                UnitOf(of),
                spread,
                correlation,
                source,
                moistureRange,
                temperatureRange,
                [.. RangeNotices(moistureRange, temperatureRange, temperatureC)]);
    }

    /// <summary>Unit a property is printed in; empty when dimensionless.</summary>
    /// <param name="property">Which property.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such property.</exception>
    public static string UnitOf(HoneyProperty property) => property switch
    {
        HoneyProperty.Viscosity => "Pa·s",
        HoneyProperty.Density => "kg/m³",
        HoneyProperty.ThermalExpansion => "1/K",
        HoneyProperty.HeatCapacity => "J/(kg·K)",
        HoneyProperty.ThermalConductivity => "W/(m·K)",
        HoneyProperty.SurfaceTension => "N/m",
        HoneyProperty.WaterActivity => string.Empty,
        _ => throw new ArgumentOutOfRangeException(nameof(property), property, "The property must be one of HoneyProperty's."),
    };

    /// <summary>Whether the moisture of a honey is within the outer range of everything <see cref="Of"/> checks.</summary>
    /// <param name="honey">The honey.</param>
    internal static bool AdmitsMoisture(Honey honey) =>
        MoistureRanges(honey.Viscosity ?? ViscosityCorrelations.Default, honey.Conductivity ?? ConductivityCorrelations.Default)
            .All(range => range.Admits(honey.Moisture.Percent));

    /// <summary>The moistures, %, that <see cref="Of"/> admits with a honey's correlations.</summary>
    /// <param name="honey">The honey.</param>
    internal static (double Low, double High) MoistureLimits(Honey honey)
    {
        ValidityRange[] ranges = MoistureRanges(honey.Viscosity ?? ViscosityCorrelations.Default, honey.Conductivity ?? ConductivityCorrelations.Default);
        return (ranges.Max(range => range.OuterLow), ranges.Min(range => range.OuterHigh));
    }

    /// <summary>Dynamic viscosity, Pa·s, lot factor included. Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double ViscosityPaS(double temperatureK) => _lotFactor * Viscosity.ViscosityPaS(_moisturePercent, temperatureK);

    /// <summary>Density, kg/m³. Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double DensityKgPerM3(double temperatureK) => HoneyDensity.DensityKgPerM3(_moisturePercent, temperatureK);

    /// <summary>Slope of the density against temperature, kg/(m³·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double DensitySlopeKgPerM3K(double temperatureK) => HoneyDensity.SlopeKgPerM3K(temperatureK);

    /// <summary>Specific heat capacity, J/(kg·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double HeatCapacityJPerKgK(double temperatureK) => HoneyHeatCapacity.Bubnik1995(_moisturePercent, temperatureK);

    /// <summary>Thermal conductivity, W/(m·K). Not checked.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal double ConductivityWPerMK(double temperatureK) => Conductivity.ConductivityWPerMK(_moisturePercent, temperatureK);

    private static ValidityRange[] MoistureRanges(ViscosityCorrelation viscosity, ConductivityCorrelation conductivity) =>
    [
        viscosity.MoistureRange,
        HoneyDensity.MoistureRange,
        HoneyHeatCapacity.MoistureRange,
        conductivity.MoistureRange,
        HoneySurfaceTension.MoistureRange,
        HoneyWaterActivity.MoistureRange,
    ];

    private static double Celsius(Temperature temperature)
    {
        double temperatureC = temperature.DegreesCelsius;
        return double.IsFinite(temperatureC)
            ? temperatureC
            : throw new ArgumentOutOfRangeException(nameof(temperature), temperatureC, "The temperature must be a finite number of °C.");
    }

    private PropertySpread ViscositySpread => Viscosity.IsMeasured
        ? new PropertySpread(SpreadKind.OfMeasurement, 0)
        : new PropertySpread(SpreadKind.Factor, Math.Exp(LotFactorSpread.LogStandardDeviation));

    private double ThermalExpansionPerK(double temperatureK) => -DensitySlopeKgPerM3K(temperatureK) / DensityKgPerM3(temperatureK);

    private IEnumerable<Notice> RangeNotices(ValidityRange moistureRange, ValidityRange temperatureRange, double temperatureC)
    {
        if (moistureRange.NoticeFor(_moisturePercent) is { } moistureNotice)
            yield return moistureNotice;
        if (temperatureRange.NoticeFor(temperatureC) is { } temperatureNotice)
            yield return temperatureNotice;
    }
}
