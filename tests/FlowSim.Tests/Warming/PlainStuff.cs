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

    public double ConductivityWPerMK(double temperatureK) => Conductivity;

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

    /// <summary>Runs parameters of one's own, without what a setup checks.</summary>
    public static WarmingResult Run(WarmingParameters p, double longestS, double toleranceK = 1e-5, int points = 0, params WarmingTarget[] targets)
    {
        var setup = new WarmingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(18) },
            StartTemperature = Temperature.FromKelvins(p.StartK),
            Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMeters(0.28), Length.FromMeters(0.3)), Level = Length.FromMeters(0.3) },
            Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(40)) },
            Targets = targets,
            Longest = Duration.FromSeconds(longestS),
        };
        var integration = new WarmingIntegration(p, setup, toleranceK, []);
        var recorder = new WarmingRecorder(p, setup, points);
        integration.Run(recorder, CancellationToken.None);
        return WarmingReport.Write(p, setup, integration, recorder);
    }
}
