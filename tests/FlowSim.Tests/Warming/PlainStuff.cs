using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>An invented liquid whose properties do not change unless asked to: what it does in a vessel can be written down.</summary>
internal sealed class PlainStuff : IHeatProperties
{
    public const double HeatCapacity = 2500;
    public const double Conductivity = 0.4;
    public const double Density = 1400;

    public HoneyEnthalpy Enthalpy { get; init; } = new(HeatCapacity, 0);

    public double CrystalShare { get; init; }

    public double ViscosityPaSNow { get; init; } = 5;

    /// <summary>How fast it thins as it warms, about 300 K; 0 for not at all.</summary>
    public double ThinsPerK { get; init; }

    /// <summary>How much better it conducts with each kelvin above 300 K, share.</summary>
    public double ConductsPerK { get; init; }

    /// <summary>Temperature from which its conductivity is no number, K: a state that nothing can step into.</summary>
    public double UnknownFromK { get; init; } = double.PositiveInfinity;

    /// <summary>How often it was asked for its conductivity: once a cell in each evaluation of the equations, where it does not stir.</summary>
    public int Asked { get; private set; }

    public double ConductivityWPerMK(double temperatureK)
    {
        Asked++;
        return temperatureK >= UnknownFromK ? double.NaN : Conductivity * (1 + (ConductsPerK * (temperatureK - 300)));
    }

    public double DensityKgPerM3(double temperatureK) => Density;

    public double ExpansionPerK(double temperatureK) => 4e-4;

    public double ViscosityPaS(double temperatureK) => ViscosityPaSNow * Math.Exp(-ThinsPerK * (temperatureK - 300));

    /// <summary>Parameters of a vessel of it that nothing touches, its body at 20 °C.</summary>
    public static WarmingParameters Alone(double setpointC, int radialCells = 4, int axialCells = 6) => new()
    {
        Honey = new PlainStuff(),
        Grid = new CylinderGrid(0.14, 0.3, radialCells, axialCells),
        Inside = InsideHeat.ConductionOnly,
        Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None },
        StartK = 293.15,
        RoomK = 293.15,
        BodyStartK = 293.15,
        BodyJPerK = 2e5,
        Setpoint = new SetpointCurve([new SetpointStep(Duration.Zero, Temperature.FromDegreesCelsius(setpointC))]),
        HysteresisK = 2,
    };

    /// <summary>
    /// A body alone, 10 kJ/K and 100 W, that loses nothing: on, it climbs by 0.01 K/s from 20 °C, off, it stays as it is. A method of second order follows both exactly.
    /// </summary>
    public static WarmingParameters Climbing(double hysteresisK, params SetpointStep[] steps) => Alone(40, 2, 2) with
    {
        BodyJPerK = 1e4,
        HeaterW = 100,
        HysteresisK = hysteresisK,
        Setpoint = new SetpointCurve(steps),
    };

    /// <summary>A well-mixed litre-sized cylinder of it, its heat capacity <see cref="MixedJPerK"/>, with nothing but one film on its side, to a body that holds its temperature.</summary>
    public static WarmingParameters Mixed(double setpointC, double filmWPerM2K = 20) => Alone(setpointC) with
    {
        Inside = InsideHeat.WellMixed,
        Grid = new CylinderGrid(0.05, 0.1, 1, 1),
        Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None, BodySide = Film.Coefficient(filmWPerM2K), BodySideToM = double.PositiveInfinity },
    };

    /// <summary>Heat capacity of the honey of <see cref="Mixed"/>, J/K.</summary>
    public const double MixedJPerK = HeatCapacity * Density * Math.PI * 0.05 * 0.05 * 0.1;

    /// <summary>Area of its side, m².</summary>
    public const double MixedSideM2 = 2 * Math.PI * 0.05 * 0.1;

    /// <summary>Newton's time constant of <see cref="Mixed"/>, s.</summary>
    public static double MixedTimeS(double filmWPerM2K = 20) => MixedJPerK / (filmWPerM2K * MixedSideM2);

    /// <summary>A setup that says of a run what its parameters do not.</summary>
    public static WarmingSetup Setup(WarmingParameters p, double longestS, params WarmingTarget[] targets) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(18) },
        StartTemperature = Temperature.FromKelvins(p.StartK),
        Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMeters(0.28), Length.FromMeters(0.3)), Level = Length.FromMeters(0.3) },
        Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(40)) },
        Targets = targets,
        Longest = Duration.FromSeconds(longestS),
    };

    /// <summary>Runs parameters of one's own, without what a setup checks.</summary>
    public static WarmingResult Run(WarmingParameters p, double longestS, double toleranceK = 1e-5, int points = 0, params WarmingTarget[] targets) =>
        Run(p, Setup(p, longestS, targets), toleranceK, points);

    /// <summary>Runs parameters of one's own with a setup of one's own.</summary>
    public static WarmingResult Run(WarmingParameters p, WarmingSetup setup, double toleranceK, int points = 0, params double[] mapTimesS)
    {
        (WarmingIntegration run, WarmingRecorder recorder) = Integrate(p, setup, toleranceK, points, mapTimesS);
        return WarmingReport.Write(p, setup, run, recorder);
    }

    /// <summary>The same, with the integration as it ended and what was recorded.</summary>
    public static (WarmingIntegration Run, WarmingRecorder Recorder) Integrate(WarmingParameters p, WarmingSetup setup, double toleranceK, int points = 0, params double[] mapTimesS)
    {
        var integration = new WarmingIntegration(p, setup, toleranceK, mapTimesS);
        var recorder = new WarmingRecorder(p, setup, points);
        integration.Run(recorder, CancellationToken.None);
        return (integration, recorder);
    }
}
