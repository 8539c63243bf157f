using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>The honey that a measurement is made on: what is known of it besides the measurement. Spreads are one standard deviation.</summary>
/// <remarks>It must be liquid, free of crystals and of foam, and at one temperature throughout.</remarks>
public sealed record HoneySample
{
    /// <summary>Moisture, share of mass. <see cref="HoneyDensity.MoistureRange"/>: the density follows from it.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>How well the moisture is known. 0 to 5 %. Default 0.2 % (engineering choice: a hand refractometer).</summary>
    public Ratio MoistureSpread { get; init; } = Ratio.FromPercent(0.2);

    /// <summary>Temperature of the honey while it was measured. <see cref="HoneyDensity.TemperatureRange"/>.</summary>
    public required Temperature Temperature { get; init; }

    /// <summary>How well that is known, as a difference of temperatures. 0 to 20 K. Default 0.5 K (engineering choice: a kitchen thermometer, stirred).</summary>
    public TemperatureDelta TemperatureSpread { get; init; } = TemperatureDelta.FromKelvins(0.5);

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    internal void Validate()
    {
        HoneyDensity.MoistureRange.Require(Moisture.Percent, nameof(Moisture));
        EquipmentCheck.Within(MoistureSpread.Percent, 0, 5, "%", nameof(MoistureSpread));
        HoneyDensity.TemperatureRange.Require(Temperature.DegreesCelsius, nameof(Temperature));
        EquipmentCheck.Within(TemperatureSpread.Kelvins, 0, 20, "K", nameof(TemperatureSpread));
    }

    /// <summary>Density, kg/m³.</summary>
    internal double DensityKgPerM3 => HoneyDensity.DensityKgPerM3(Moisture.Percent, Temperature.Kelvins);

    /// <summary>Standard deviation of the density, kg/m³: of the correlation, and what the errors of moisture and temperature make of it.</summary>
    internal double DensitySpreadKgPerM3
    {
        get
        {
            double ofMoisture = HoneyDensity.DensityKgPerM3(Moisture.Percent - MoistureSpread.Percent, Temperature.Kelvins) - DensityKgPerM3;
            double ofTemperature = HoneyDensity.SlopeKgPerM3K(Temperature.Kelvins) * TemperatureSpread.Kelvins;
            double own = HoneyDensity.SpreadAt(Temperature.DegreesCelsius).Amount;
            return Math.Sqrt(own * own + ofMoisture * ofMoisture + ofTemperature * ofTemperature);
        }
    }

    /// <summary>Notices of the density's range.</summary>
    internal IEnumerable<Notice> Notices
    {
        get
        {
            if (HoneyDensity.MoistureRange.NoticeFor(Moisture.Percent) is { } moisture)
                yield return moisture;
            if (HoneyDensity.TemperatureRange.NoticeFor(Temperature.DegreesCelsius) is { } temperature)
                yield return temperature;
        }
    }
}
