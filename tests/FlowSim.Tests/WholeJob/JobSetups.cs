using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.WholeJob;

/// <summary>Invented jobs.</summary>
internal static class JobSetups
{
    /// <summary>A pail warmed in a cabinet, left to stand for a day, strained into a bottling tank and filled into half-kilogram jars.</summary>
    public static FlowSim.WholeJob.JobSetup Pail()
    {
        StrainingSetup straining = RiskSetups.Pail(25);
        straining = straining with { Tank = straining.Tank with { GateHeight = RiskSetups.Mm(25) } };
        return new FlowSim.WholeJob.JobSetup
        {
            Warming = new WarmingSetup
            {
                Honey = straining.Honey,
                StartTemperature = Temperature.FromDegreesCelsius(20),
                Vessel = new WarmedVessel { Shape = straining.Tank.Shape, Level = straining.Tank.Level },
                Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(42)) },
                Targets = [WarmingTarget.Mean(straining.HoneyTemperature)],
            },
            Settling = new SettlingSetup
            {
                Honey = straining.Honey,
                Depth = straining.Tank.Level,
                Temperature = TemperatureHistory.Hold(straining.HoneyTemperature, Duration.FromHours(24)),
            },
            Straining = straining,
            Filling = new FillingSetup
            {
                Honey = straining.Honey,
                Temperature = Temperature.FromDegreesCelsius(32),
                Tank = new Tank { Shape = straining.Receiver.Shape, Level = RiskSetups.Mm(200), GateHeight = RiskSetups.Mm(25) },
                Gate = straining.Gate,
                Jar = CommonJars.ByName("jar-500g").Item,
            },
        };
    }
}
