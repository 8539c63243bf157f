using BenchmarkDotNet.Attributes;
using FlowSim.Gates;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Screens;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>A whole search for the setpoint of a 19 L pail, beside one of the forty-odd warming runs it makes.</summary>
[MemoryDiagnoser]
public class SetpointBenchmarks
{
    private SetpointQuestion _question = null!;
    private SetpointQuestion _switching = null!;

    /// <summary>Sets up the pail.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var honey = new Honey { Moisture = Ratio.FromPercent(17.8) };
        var shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(330));
        var level = Length.FromMillimeters(298);
        _question = new SetpointQuestion
        {
            Warming = new WarmingSetup
            {
                Honey = honey,
                StartTemperature = Temperature.FromDegreesCelsius(18),
                Vessel = new WarmedVessel { Shape = shape, Level = level, Wall = [WallMaterial.ByName("polyethylene").Layer(Length.FromMillimeters(2))] },
                Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(40)) },
                Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(35))],
                Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(8), DiastaseNumber = 15 },
            },
            Straining = new StrainingSetup
            {
                Honey = honey,
                HoneyTemperature = Temperature.FromDegreesCelsius(35),
                Tank = new Tank { Shape = shape, Level = level },
                Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
                Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)), Cloths = [Cloth.FromAstmSieve(40)] },
                Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)) },
            },
        };
        _switching = _question with
        {
            Warming = _question.Warming with
            {
                Crystals = Crystals.Fine(),
                Heating = _question.Warming.Heating with { HeaterPower = Power.FromWatts(400) },
            },
        };
    }

    /// <summary>One warming run with its series.</summary>
    [Benchmark(Baseline = true)]
    public WarmingResult OneWarmingRun() => WarmingRun.Simulate(_question.Warming);

    /// <summary>The whole search.</summary>
    [Benchmark]
    public SetpointAnswer Search() => SetpointSearch.Find(_question);

    /// <summary>The whole search for granulated honey and a heater that switches.</summary>
    [Benchmark]
    public SetpointAnswer SearchWithCrystalsAndASwitchingHeater() => SetpointSearch.Find(_switching);
}
