using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>Invented setups over most of the allowed range, one for each seed: the same seed gives the same setup.</summary>
internal static class RandomWarmings
{
    /// <summary>Few cells and no series: hundreds of runs a second.</summary>
    public static readonly WarmingOptions Small = new() { RadialCells = 4, AxialCells = 6, SeriesPoints = 0 };

    /// <summary>A setup that may use anything: every kit, crystals, targets, schedules, sensors, cut-outs.</summary>
    public static WarmingSetup Any(int seed)
    {
        var random = new Random(seed);
        WarmedVessel vessel = AnyVessel(random);
        HeatingKit kit = AnyKit(random, vessel);
        double setC = kit.Thermostat.Schedule[^1].Setpoint.DegreesCelsius;
        return new WarmingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(Between(random, 14, 21)), LotFactor = LogBetween(random, 0.5, 2) },
            Crystals = AnyCrystals(random),
            StartTemperature = Celsius(Between(random, -10, 60)),
            Vessel = vessel,
            Vessels = kit is WarmAir or HeatedBath ? random.Next(1, 12) : 1,
            Heating = kit,
            RoomTemperature = Celsius(Between(random, -10, 45)),
            Targets = AnyTargets(random, setC),
            HoldAfter = random.Next(2) == 0 ? Duration.Zero : Duration.FromHours(Between(random, 0, 4)),
            Longest = Duration.FromHours(LogBetween(random, 0.1, 72)),
        };
    }

    /// <summary>Vessels in warm air that is at the setpoint at every moment: the case in which the monotonic rules hold.</summary>
    public static WarmingSetup InAir(int seed, bool crystals = false)
    {
        var random = new Random(seed);
        double startC = Between(random, 0, 30), setC = startC + Between(random, 5, 40);
        return new WarmingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(Between(random, 15, 20)) },
            Crystals = crystals ? AnyCrystals(random) : null,
            StartTemperature = Celsius(startC),
            Vessel = AnyVessel(random),
            Heating = new WarmAir
            {
                Thermostat = Thermostat.At(Celsius(setC)),
                AirSpeed = Speed.FromMetersPerSecond(random.Next(2) == 0 ? 0 : LogBetween(random, 0.1, 5)),
            },
            RoomTemperature = Celsius(Between(random, -10, 45)),
            Targets = [WarmingTarget.Mean(Celsius(startC + ((setC - startC) * Between(random, 0.1, 0.9))))],
            Longest = Duration.FromDays(20),
        };
    }

    public static Temperature Celsius(double degrees) => Temperature.FromDegreesCelsius(degrees);

    public static double Between(Random random, double low, double high) => low + ((high - low) * random.NextDouble());

    public static double LogBetween(Random random, double low, double high) => low * Math.Pow(high / low, random.NextDouble());

    private static WarmedVessel AnyVessel(Random random)
    {
        Length size = Length.FromMeters(LogBetween(random, 0.06, 1.2));
        VesselShape shape = random.Next(6) switch
        {
            0 => new RectangularTank(size, size * Between(random, 0.4, 1), size * Between(random, 0.5, 1.5)),
            1 => new ConeBottomedTank(size, size * Between(random, 0.3, 1.2), size * Between(random, 0.2, 0.8)),
            2 => new HorizontalCylinder(size, size * Between(random, 1, 2)),
            _ => new UprightCylinder(size, size * LogBetween(random, 0.5, 2)),
        };
        WallLayer[] wall = [.. Enumerable.Range(0, random.Next(3)).Select(i => WallMaterial.All[random.Next(WallMaterial.All.Count)]
            .Layer(Length.FromMillimeters(LogBetween(random, 0.5, i == 0 ? 4 : 50))))];
        return new WarmedVessel
        {
            Shape = shape,
            Level = Length.FromMeters(Math.Max(0.011, shape.HeightM * Between(random, 0.3, 1))),
            Wall = wall,
            Emissivity = Between(random, 0, 1),
            Lid = (VesselLid)random.Next(3),
            Base = (VesselBase)random.Next(2),
        };
    }

    private static HeatingKit AnyKit(Random random, WarmedVessel vessel)
    {
        double level = vessel.Level.Meters, radius = VesselCylinder.RadiusM(vessel);
        double from = random.Next(2) == 0 ? 0 : Between(random, 0, 0.5) * (level - 0.006);
        Length low = Length.FromMeters(from), high = Length.FromMeters(from + 0.0051 + (Between(random, 0.1, 1.2) * (level - from)));
        HeatingKit kit = random.Next(5) switch
        {
            0 => new HeatedBath { Thermostat = Thermostat.At(Celsius(40)), WaterLevel = Length.FromMeters(Math.Max(0.011, Between(random, 0.1, 1.2) * level)) },
            1 => new HeatedJacket { Thermostat = Thermostat.At(Celsius(40)), From = low, To = high, HeatsFloor = random.Next(2) == 0 },
            2 => new BandHeater { Thermostat = Thermostat.At(Celsius(40)), From = low, To = high },
            3 => new ImmersionHeater
            {
                Thermostat = Thermostat.At(Celsius(40)),
                From = low,
                To = high,
                Radius = Length.FromMeters(Math.Clamp(radius * Between(random, 0.05, 0.5), 0.002, 0.3)),
            },
            _ => new WarmAir { Thermostat = Thermostat.At(Celsius(40)), AirSpeed = Speed.FromMetersPerSecond(random.Next(2) * LogBetween(random, 0.05, 8)) },
        };
        Power? power = random.Next(3) == 0 ? null : Power.FromWatts(LogBetween(random, 20, 5000));
        Thermostat thermostat = AnyThermostat(random, power is not null);

        // Not more than one switching in a few minutes, or the tests take all day.
        double band = Math.Max(0.5, thermostat.Hysteresis.Kelvins);
        double least = power is { } watts ? (double)watts.Watts * LogBetween(random, 100, 3000) / band / 1000 : 0;
        return kit with
        {
            Thermostat = thermostat,
            HeaterPower = power,
            BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(Math.Max(kit.BodyHeatCapacity.KilojoulesPerKelvin, least)),
            BodyStart = random.Next(3) == 0 ? Celsius(Between(random, -10, 70)) : null,
            LossArea = Area.FromSquareMeters(random.Next(2) == 0 ? 0 : LogBetween(random, 0.1, 20)),
        };
    }

    private static Thermostat AnyThermostat(Random random, bool limited)
    {
        var steps = new List<SetpointStep> { new(Duration.Zero, Celsius(Between(random, 0, 80))) };
        double at = 0;
        for (int i = random.Next(4) - 1; i > 0; i--)
        {
            at += LogBetween(random, 100, 50_000);
            steps.Add(new SetpointStep(Duration.FromSeconds(at), Celsius(Between(random, 0, 80)), random.Next(2) == 0));
        }

        SensorPlace sensor = limited ? (SensorPlace)random.Next(3) : SensorPlace.Body;
        Duration lag = random.Next(2) == 0 ? Duration.Zero : Duration.FromSeconds(LogBetween(random, 1, 600));
        bool holds = limited && sensor == SensorPlace.Body && lag.Seconds == 0 && random.Next(2) == 0;
        return new Thermostat
        {
            Schedule = steps,
            Sensor = sensor,
            Lag = lag,
            Hysteresis = TemperatureDelta.FromKelvins(holds ? 0 : LogBetween(random, 0.5, 10)),
            SensorRadius = Ratio.FromDecimalFractions(random.NextDouble()),
            SensorHeight = Ratio.FromDecimalFractions(random.NextDouble()),
            CutOut = random.Next(4) == 0 ? Celsius(Between(random, 20, 90)) : null,
        };
    }

    private static Crystals? AnyCrystals(Random random)
    {
        if (random.Next(2) == 0)
            return null;
        double from = Between(random, 15, 50);
        return new Crystals { Share = Ratio.FromPercent(Between(random, 0, 30)), MeltFrom = Celsius(from), MeltTo = Celsius(from + LogBetween(random, 1, 25)) };
    }

    private static List<WarmingTarget> AnyTargets(Random random, double setC)
    {
        var targets = new List<WarmingTarget>();
        for (int i = random.Next(4); i > 0; i--)
        {
            targets.Add(random.Next(6) switch
            {
                0 => WarmingTarget.Mean(Celsius(setC - Between(random, 0.5, 20))),
                1 => WarmingTarget.Coldest(Celsius(setC - Between(random, 0.5, 20))),
                2 => WarmingTarget.CooledTo(Celsius(setC + Between(random, 0.5, 20))),
                3 => WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(LogBetween(random, 1, 100))),
                4 => WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(LogBetween(random, 1, 100))),
                _ => WarmingTarget.NoCrystals,
            });
        }

        return targets;
    }
}
