using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>The warming run that all measurements share, a batch of the reference: a 19 L pail 48 h in still air of 40 °C, from 18 °C.</summary>
internal static class WarmedPail
{
    public static WarmingSetup Setup { get; } = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.5) },
        StartTemperature = Temperature.FromDegreesCelsius(18),
        Vessel = new WarmedVessel
        {
            Shape = new UprightCylinder(Length.FromMeters(0.285), Length.FromMeters(0.36)),
            Level = Length.FromMeters(0.298),
            Wall = [new WallLayer { Thickness = Length.FromMillimeters(2), Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(0.45) }],
        },
        Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(40)) },
        Targets =
        [
            WarmingTarget.Mean(Temperature.FromDegreesCelsius(30)),
            WarmingTarget.Coldest(Temperature.FromDegreesCelsius(30)),
            WarmingTarget.Coldest(Temperature.FromDegreesCelsius(35)),
            WarmingTarget.Mean(Temperature.FromDegreesCelsius(45)), // Never: the run goes on to its end.
        ],
        Longest = Duration.FromHours(48),
    };

    public static WarmingOptions AtTolerance(double toleranceK) =>
        new() { SeriesPoints = 0, Tolerance = TemperatureDelta.FromKelvins(toleranceK) };
}
