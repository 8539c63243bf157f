using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>An invented batch whose whole search takes a tenth of a second: the small pail on four cells, and a gate opened as far as a limit by hand says.</summary>
internal static class SmallBatch
{
    /// <summary>Warmed in moving air from 25 °C, strained through a gate a fifth open, from 30 °C on; what stands in the way is the ceiling of 40 °C.</summary>
    public static SetpointQuestion Plain() => new()
    {
        Warming = new WarmingSetup
        {
            Honey = SmallPail.Plain().Honey,
            StartTemperature = C(25),
            Vessel = new WarmedVessel { Shape = SmallPail.Plain().Tank.Shape, Level = SmallPail.Plain().Tank.Level },
            Heating = new WarmAir { Thermostat = Thermostat.At(C(40)), AirSpeed = Speed.FromMetersPerSecond(2) },
            Before = new HoneyBeforeHeat { Hmf = MgPerKg(8), DiastaseNumber = 15 },
        },
        Straining = SmallPail.Running(),
        Limits = new SetpointLimits { Ceiling = C(40), WarmestAtStrainer = C(32.5), Overflow = new Opened(Ratio.FromPercent(20)) },
        Options = new WarmingOptions { RadialCells = 2, AxialCells = 2, Tolerance = TemperatureDelta.FromKelvins(0.1), SeriesPoints = 0 },
        Lowest = C(38),
        ColdestStraining = C(30),
    };

    /// <summary>The same with other limits.</summary>
    public static SetpointQuestion With(Func<SetpointLimits, SetpointLimits> limits)
    {
        SetpointQuestion plain = Plain();
        return plain with { Limits = limits(plain.Limits) };
    }

    /// <summary>Warmed at a setpoint until the mean is there, then strained a fifth open, each by itself.</summary>
    public static (WarmingResult Warming, StrainingResult Straining) ByHand(double setpointC, double strainC)
    {
        SetpointQuestion question = Plain();
        WarmingResult warming = WarmingRun.Simulate(
            question.Warming with { Heating = question.Warming.Heating with { Thermostat = Thermostat.At(C(setpointC)) }, Targets = [WarmingTarget.Mean(C(strainC))], Longest = question.Limits.Longest },
            question.Options);
        StrainingSetup strained = question.Straining with { HoneyTemperature = warming.End.Mean, Control = GateControl.LeaveAt(Ratio.FromPercent(20)) };
        return (warming, StrainingRun.Simulate(strained, new StrainingOptions { SeriesPoints = 0, RelativeTolerance = 1e-6 }));
    }

    /// <summary>Both together, s.</summary>
    public static double Seconds((WarmingResult Warming, StrainingResult Straining) job) => job.Warming.TimeToTarget!.Value.Seconds + job.Straining.Strain.To95!.Value.Seconds;

    /// <summary>A plan that keeps every limit of <see cref="Plain"/>.</summary>
    public static SetpointPlan Plan() => new()
    {
        Setpoint = C(39),
        StrainAt = C(35),
        Opening = Ratio.FromPercent(20),
        WarmTime = Duration.FromHours(5),
        StrainTime = Duration.FromMinutes(10),
        Damage = Damage(1, 2, 3, 0.97, 0.98, 0.99),
        After = null,
        HeatCheck = null,
        HottestHoney = C(38),
        HottestWall = C(39),
        Heater = Energy.Zero,
        Broken = [],
    };

    /// <summary>Damage as bands: gain of HMF, mg/kg, and share of diastase that is left, each from low over best to high.</summary>
    public static HoneyHeatDamage Damage(double hmfLow, double hmf, double hmfHigh, double leftLow, double left, double leftHigh) => new()
    {
        HmfGainLow = MgPerKg(hmfLow),
        HmfGain = MgPerKg(hmf),
        HmfGainHigh = MgPerKg(hmfHigh),
        DiastaseLeftLow = Ratio.FromDecimalFractions(leftLow),
        DiastaseLeft = Ratio.FromDecimalFractions(left),
        DiastaseLeftHigh = Ratio.FromDecimalFractions(leftHigh),
        HmfEquivalentAt20C = Duration.Zero,
        DiastaseEquivalentAt20C = Duration.Zero,
    };

    /// <summary>An opening by hand, whatever the honey; counts how often it is asked for.</summary>
    public sealed record Opened(Ratio Opening) : OverflowLimit
    {
        private int _asked;

        /// <summary>How often it was asked for.</summary>
        public int Asked => _asked;

        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation)
        {
            Interlocked.Increment(ref _asked);
            return Opening;
        }
    }
}
