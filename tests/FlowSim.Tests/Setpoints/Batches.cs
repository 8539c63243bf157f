using FlowSim.Gates;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Screens;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Setpoints;

/// <summary>Invented batches for the setpoint search.</summary>
internal static class Batches
{
    private static readonly Honey s_honey = new() { Moisture = Ratio.FromPercent(17.8) };

    /// <summary>A pail of 19 L in a warm cabinet, then through a flat cloth of 425 µm.</summary>
    public static SetpointQuestion Pail(double heightMm = 298) => new()
    {
        Warming = new WarmingSetup
        {
            Honey = s_honey,
            StartTemperature = C(18),
            Vessel = new WarmedVessel
            {
                Shape = new UprightCylinder(Mm(285), Mm(360)),
                Level = Mm(heightMm),
                Wall = [WallMaterial.ByName("polyethylene").Layer(Mm(2))],
            },
            Heating = new WarmAir { Thermostat = Thermostat.At(C(40)) },
            Before = new HoneyBeforeHeat { Hmf = MgPerKg(8), DiastaseNumber = 15 },
        },
        Straining = new StrainingSetup
        {
            Honey = s_honey,
            HoneyTemperature = C(35),
            Tank = new Tank { Shape = new UprightCylinder(Mm(285), Mm(360)), Level = Mm(heightMm) },
            Gate = new Gate { Bore = Mm(38), TubeLength = Mm(40) },
            Strainer = new Strainer { Shape = new FlatDisc(Mm(240), Mm(100)), Cloths = [Cloth.FromAstmSieve(40)] },
            Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Mm(300)) },
        },
        Limits = new SetpointLimits { Ceiling = C(45) },
        Options = new WarmingOptions { RadialCells = 6, AxialCells = 8, Tolerance = TemperatureDelta.FromKelvins(0.03) },
        Lowest = C(38),
    };

    public static Temperature C(double celsius) => Temperature.FromDegreesCelsius(celsius);

    public static MassFraction MgPerKg(double value) => MassFraction.FromMilligramsPerKilogram(value);

    private static Length Mm(double value) => Length.FromMillimeters(value);
}
