using FlowSim.HeatDamage;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>
/// Invented warming runs to draw: two lumps and round numbers, made to look like warming. No figure in it means anything and none
/// is checked; it spares the tests of drawing a dependence on the physics.
/// </summary>
internal sealed record InventedWarming
{
    public double Hours { get; init; } = 30;

    public int Points { get; init; } = 241;

    public double StartC { get; init; } = 16;

    public double RoomC { get; init; } = 18;

    public double SetpointC { get; init; } = 45;

    /// <summary>Time constants of the mean and of the coldest behind it.</summary>
    public double MeanLagHours { get; init; } = 8;

    public double ColdestLagHours { get; init; } = 4;

    public double RadiusM { get; init; } = 0.145;

    public double LevelM { get; init; } = 0.30;

    public double? HeaterW { get; init; } = 300;

    public double? CutOutC { get; init; }

    public double? CutOutHours { get; init; }

    public double CrystalShare { get; init; }

    public double HmfPerHour { get; init; } = 0.03;

    public HoneyBeforeHeat? Before { get; init; }

    public WarmingTarget[] Targets { get; init; } = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(40)), WarmingTarget.Coldest(Temperature.FromDegreesCelsius(38))];

    public double[] MapHours { get; init; } = [];

    public Func<Thermostat, HeatingKit> Kit { get; init; } = thermostat => new WarmAir { Thermostat = thermostat };

    public SensorPlace Sensor { get; init; } = SensorPlace.Body;

    public double LagS { get; init; }

    public SetpointStep[]? Schedule { get; init; }

    public WarmingResult Result()
    {
        int rows = Points;
        double[] times = [.. Enumerable.Range(0, rows).Select(i => rows == 1 ? 0 : i * Hours * 3600 / (rows - 1))];
        double dt = Hours / 6000;
        List<double[]> all = [];
        double mean = StartC, coldest = StartC, body = RoomC, probe = RoomC, given = 0;
        bool on = SetpointC > RoomC, cut = false;
        int switchings = 0;
        double? cutAt = null;
        double gave = 0;
        double lastRow = 0;
        for (int step = 0; step <= 6000; step++)
        {
            double t = step * dt;
            double setpoint = SetAt(t);
            double wall = mean + 0.6 * (body - mean);
            probe = LagS == 0 && Sensor == SensorPlace.Body ? body : probe + (((Sensor == SensorPlace.Body ? body : Sensor == SensorPlace.Wall ? wall : mean) - probe) * Math.Min(1, dt * 3600 / Math.Max(LagS, dt * 3600)));
            double power;
            if (HeaterW is { } most)
            {
                bool was = on;
                on = !cut && (on ? probe < setpoint + 1 : probe < setpoint - 1);
                switchings += was == on ? 0 : 1;
                power = on ? most : 0;
                body += dt * (power / 4 - 2 * (body - mean) - 0.8 * (body - RoomC));
            }
            else
            {
                body = setpoint;
                power = 12 * (setpoint - mean);
            }

            if (CutOutHours is { } at && t >= at && !cut)
                (cut, cutAt) = (true, t);
            gave += power * dt;
            given += power * dt;
            mean += dt * (body - mean) / MeanLagHours;
            coldest += dt * (mean - coldest) / ColdestLagHours;
            if (rows <= 1 || t * 3600 >= times[Math.Min(all.Count, rows - 1)] - 1e-6)
            {
                if (all.Count >= rows)
                    continue;

                double elapsed = t - lastRow;
                double left = CrystalShare * Math.Clamp((44 - coldest) / 20, 0, 1);
                double gain = HmfPerHour * t * Math.Exp((mean - 40) / 12);
                all.Add([t * 3600, coldest, mean, mean + 0.4 * (body - mean), wall, probe, body, setpoint, elapsed > 0 ? gave / elapsed : power, left, 3, 0.62 * gain, gain, 1.6 * gain,
                    Math.Exp(-0.02 * gain), Math.Exp(-0.01 * gain), Math.Exp(-0.0017 * gain)]);
                gave = 0;
                lastRow = t;
            }
        }

        double[] Column(int i) => [.. all.Select(r => r[i])];
        double[] Kelvins(int i) => [.. all.Select(r => r[i] + 273.15)];
        double?[] reached = [.. Targets.Select(target => Reached(all, target))];
        bool done = reached.Length > 0 && reached.All(r => r is not null);
        double[] last = all.Count == 0 ? new double[17] : all[^1];
        Temperature C(double celsius) => Temperature.FromDegreesCelsius(celsius);
        Energy Kwh(double wh) => Energy.FromKilowattHours(wh / 1000);
        return new WarmingResult
        {
            Setup = Setup(),
            Inside = InsideHeat.BestEstimate,
            Status = done ? WarmingStatus.Reached : cutAt is null ? WarmingStatus.TimeLimit : WarmingStatus.CutOut,
            Elapsed = Duration.FromHours(Hours),
            TimeToTarget = done ? Duration.FromSeconds(reached.Max()!.Value) : null,
            TargetTimes = [.. reached.Select(r => r is { } s ? Duration.FromSeconds(s) : (Duration?)null)],
            End = new(C(last[1]), C(last[2]), C(last[3]), C(last[4]), C(last[5]), C(last[6])),
            ColdestPlace = (Length.Zero, Length.FromMeters(0.4 * LevelM)),
            HottestWall = (C(all.Select(r => r[4]).DefaultIfEmpty(StartC).Max()), Duration.FromHours(Hours / 3)),
            HottestHoney = C(all.Select(r => r[3]).DefaultIfEmpty(StartC).Max()),
            WallAboveProbe = TemperatureDelta.FromKelvins(all.Select(r => r[4] - r[5]).DefaultIfEmpty(0).Max()),
            CrystalsLeft = Ratio.FromDecimalFractions(last[9]),
            Viscosity = DynamicViscosity.FromPascalSeconds(3),
            HoneyPerVessel = Mass.FromKilograms(28),
            Energy = new() { Heater = Kwh(given), IntoHoney = Kwh(0.5 * given), Melting = Energy.Zero, IntoBody = Energy.Zero, ToRoom = Kwh(0.5 * given), BalanceRelative = 0 },
            CutOutAt = cutAt is { } h ? Duration.FromHours(h) : null,
            Switchings = switchings,
            Damage = Damage(last, 1),
            WorstDamage = Damage(last, 1.7),
            Series = new()
            {
                TimeS = Column(0), ColdestK = Kelvins(1), MeanK = Kelvins(2), HottestK = Kelvins(3), WallK = Kelvins(4), ProbeK = Kelvins(5), BodyK = Kelvins(6), SetpointK = Kelvins(7),
                HeaterW = Column(8), CrystalsLeft = Column(9), ViscosityPaS = Column(10), HmfGainLow = Column(11), HmfGain = Column(12), HmfGainHigh = Column(13),
                DiastaseLeftLow = Column(14), DiastaseLeft = Column(15), DiastaseLeftHigh = Column(16),
            },
            Maps = [.. MapHours.Select(Map)],
            Notices = [],
            Cautions = [],
            Steps = 0,
        };
    }

    /// <summary>The same run between two made-up bounds.</summary>
    public WarmingBounds Between(double? fastHours, double? slowHours)
    {
        WarmingResult best = Result();
        WarmingResult With(double? hours) => best with { TimeToTarget = hours is { } h ? Duration.FromHours(h) : null };
        return new() { Best = best, WellMixed = With(fastHours), ConductionOnly = With(slowHours) };
    }

    private double SetAt(double hours)
    {
        double setpoint = SetpointC;
        foreach (SetpointStep step in Schedule ?? [])
        {
            if (step.At.Hours <= hours + 1e-9)
                setpoint = step.Setpoint.DegreesCelsius;
        }

        return setpoint;
    }

    private static double? Reached(List<double[]> rows, WarmingTarget target)
    {
        double[]? row = rows.FirstOrDefault(r => target switch
        {
            MeanAtLeast mean => r[2] >= mean.Temperature.DegreesCelsius,
            ColdestAtLeast coldest => r[1] >= coldest.Temperature.DegreesCelsius,
            MeanAtMost mean => r[2] <= mean.Temperature.DegreesCelsius,
            CrystalsGone => r[9] <= 0.001,
            ViscosityAtMost => r[2] >= 35,
            ViscosityAtLeast => r[2] <= 25,
            _ => false,
        });
        return row?[0];
    }

    private static HoneyHeatDamage Damage(double[] row, double times) => new()
    {
        HmfGainLow = MassFraction.FromMilligramsPerKilogram(times * row[11]),
        HmfGain = MassFraction.FromMilligramsPerKilogram(times * row[12]),
        HmfGainHigh = MassFraction.FromMilligramsPerKilogram(times * row[13]),
        DiastaseLeftLow = Ratio.FromDecimalFractions(Math.Pow(row[14], times)),
        DiastaseLeft = Ratio.FromDecimalFractions(Math.Pow(row[15], times)),
        DiastaseLeftHigh = Ratio.FromDecimalFractions(Math.Pow(row[16], times)),
        HmfEquivalentAt20C = Duration.FromDays(40 * row[12]),
        DiastaseEquivalentAt20C = Duration.FromDays(55 * row[12]),
    };

    /// <summary>Warm at the wall, cold at a place on the axis below the middle, warmer with time.</summary>
    private VesselMap Map(double hours)
    {
        const int Radial = 20;
        const int Axial = 30;
        double swing = Math.Exp(-hours / MeanLagHours);
        double[] kelvins = [.. from j in Enumerable.Range(0, Axial)
                               from i in Enumerable.Range(0, Radial)
                               let r = (i + 0.5) / Radial
                               let z = (j + 0.5) / Axial - 0.4
                               let away = Math.Min(1, r * r + 1.5 * z * z)
                               select 273.15 + SetpointC - (SetpointC - StartC) * swing * (1 - 0.75 * away)];
        return new(Duration.FromHours(hours), Length.FromMeters(RadiusM), Length.FromMeters(LevelM), Radial, Axial, kelvins, [.. kelvins.Select(k => CrystalShare == 0 ? 0 : Math.Clamp((317 - k) / 20, 0, 1))]);
    }

    private WarmingSetup Setup()
    {
        Thermostat thermostat = new()
        {
            Schedule = Schedule ?? [new SetpointStep(Duration.Zero, Temperature.FromDegreesCelsius(SetpointC))],
            Sensor = Sensor,
            Lag = Duration.FromSeconds(LagS),
            CutOut = CutOutC is { } c ? Temperature.FromDegreesCelsius(c) : null,
        };
        return new()
        {
            Honey = new() { Moisture = Ratio.FromPercent(17) },
            Crystals = CrystalShare > 0 ? Crystals.Fine(Ratio.FromDecimalFractions(CrystalShare)) : null,
            StartTemperature = Temperature.FromDegreesCelsius(StartC),
            Vessel = new() { Shape = new Drum(2 * LevelM, RadiusM), Level = Length.FromMeters(LevelM) },
            Heating = Kit(thermostat) with { HeaterPower = HeaterW is { } w ? Power.FromWatts(w) : null },
            RoomTemperature = Temperature.FromDegreesCelsius(RoomC),
            Targets = Targets,
            Longest = Duration.FromHours(Hours),
            Before = Before,
        };
    }

    /// <summary>An upright cylinder.</summary>
    private sealed class Drum(double heightM, double radiusM) : VesselShape
    {
        private readonly double _areaM2 = Math.PI * radiusM * radiusM;

        protected override double HeightM => heightM;

        protected override double VolumeM3(double levelM) => _areaM2 * levelM;

        protected override double LevelM(double volumeM3) => volumeM3 / _areaM2;

        protected override double SurfaceAreaM2(double levelM) => _areaM2;

        protected override double WettedAreaM2(double levelM) => _areaM2 + 2 * Math.PI * radiusM * levelM;
    }
}
