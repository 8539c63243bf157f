using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>An invented jar of 1.5 kg in a warm cabinet or a bath, on few cells: a run of it takes milliseconds.</summary>
internal static class SmallJar
{
    public static readonly WarmingOptions Coarse = new() { RadialCells = 2, AxialCells = 3, SeriesPoints = 0, Tolerance = TemperatureDelta.FromKelvins(0.05) };

    public static WarmingSetup InCabinet() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17) },
        StartTemperature = Celsius(20),
        Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMillimeters(100), Length.FromMillimeters(150)), Level = Length.FromMillimeters(140) },
        Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(40)) },
        Targets = [WarmingTarget.Mean(Celsius(35))],
        Longest = Duration.FromDays(3),
    };

    /// <summary>In water to the brim, under a lid that lets nothing through: well mixed, one exponential.</summary>
    public static WarmingSetup InBath()
    {
        WarmingSetup jar = InCabinet();
        return jar with
        {
            Vessel = jar.Vessel with { Lid = VesselLid.Insulated },
            Heating = new HeatedBath
            {
                Thermostat = Thermostat.At(Celsius(45)),
                WaterLevel = Length.FromMillimeters(140),
                WaterCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(20),
            },
        };
    }
}
