using FlowSim.Heating;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Checks a setup once, at the edge; inside a run nothing is checked again.</summary>
internal static class WarmingSetupCheck
{
    private const int MostSteps = 1000;
    private const int MostLayers = 20;
    private const double LeastStepS = 1;

    /// <summary>Throws when something in the setup is out of its range.</summary>
    /// <param name="setup">Setup to check.</param>
    /// <param name="options">Options to check.</param>
    /// <returns>The properties of the honey.</returns>
    public static HoneyProperties Require(WarmingSetup setup, WarmingOptions options)
    {
        ArgumentNullException.ThrowIfNull(setup);
        EquipmentCheck.Present(setup.Honey);
        EquipmentCheck.Present(setup.Response).Validate();
        setup.Before?.Validate();
        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        Celsius(setup.StartTemperature, -20, 80, nameof(WarmingSetup.StartTemperature));
        Celsius(setup.RoomTemperature, -30, 60, nameof(WarmingSetup.RoomTemperature));
        EquipmentCheck.Within(setup.HoldAfter.Days, 0, 60, "d", nameof(WarmingSetup.HoldAfter));
        EquipmentCheck.Within(setup.Longest.Minutes, 1, 60 * 24 * 60, "min", nameof(WarmingSetup.Longest));
        RequireCrystals(setup.Crystals);
        RequireVessel(setup.Vessel);
        RequireKit(setup);
        RequireTargets(setup);
        RequireOptions(options);
        return honey;
    }

    private static void RequireCrystals(Crystals? crystals)
    {
        if (crystals is null)
            return;

        EquipmentCheck.Within(crystals.Share.Percent, 0, 40, "%", nameof(Crystals.Share));
        double fromC = Celsius(crystals.MeltFrom, 10, 90, nameof(Crystals.MeltFrom));
        Celsius(crystals.MeltTo, fromC + 0.5, 95, nameof(Crystals.MeltTo));
    }

    private static void RequireVessel(WarmedVessel vessel)
    {
        EquipmentCheck.Present(vessel, nameof(WarmingSetup.Vessel));
        EquipmentCheck.Present(vessel.Shape, nameof(WarmedVessel.Shape)).RequireNumbers(nameof(WarmedVessel.Shape));
        EquipmentCheck.Within(vessel.Level.Millimeters, 10, 1000 * vessel.Shape.HeightM, "mm", nameof(WarmedVessel.Level));
        double radiusM = VesselCylinder.RadiusM(vessel);
        if (!(radiusM is >= 1e-3 and <= 50))
            throw EquipmentCheck.OutOfRange(nameof(WarmedVessel.Shape), radiusM, FormattableString.Invariant($"The honey must fill a cylinder of radius 1 mm to 50 m; here it is {radiusM:0.######} m."));

        Radiation.EmissivityRange.Require(vessel.Emissivity, nameof(WarmedVessel.Emissivity));
        EquipmentCheck.Defined(vessel.Lid, nameof(WarmedVessel.Lid));
        EquipmentCheck.Defined(vessel.Base, nameof(WarmedVessel.Base));
        EquipmentCheck.Present(vessel.Wall, nameof(WarmedVessel.Wall));
        EquipmentCheck.Within(vessel.Wall.Count, 0, MostLayers, "", nameof(WarmedVessel.Wall));
        foreach (WallLayer layer in vessel.Wall)
            EquipmentCheck.Present(layer, nameof(WarmedVessel.Wall)).Validate();
    }

    private static void RequireKit(WarmingSetup setup)
    {
        HeatingKit kit = EquipmentCheck.Present(setup.Heating, nameof(WarmingSetup.Heating));
        EquipmentCheck.Within(setup.Vessels, 1, kit is WarmAir or HeatedBath ? 1000 : 1, "", nameof(WarmingSetup.Vessels));
        if (kit.HeaterPower is { } power)
            EquipmentCheck.Within(Watts(power), 1, 1e6, "W", nameof(HeatingKit.HeaterPower));
        EquipmentCheck.Within(kit.BodyHeatCapacity.KilojoulesPerKelvin, 0.1, 1e5, "kJ/K", nameof(HeatingKit.BodyHeatCapacity));
        EquipmentCheck.Within(kit.LossArea.SquareMeters, 0, 1000, "m²", nameof(HeatingKit.LossArea));
        EquipmentCheck.Within(kit.LossCoefficient.WattsPerSquareMeterKelvin, 0, 100, "W/(m²·K)", nameof(HeatingKit.LossCoefficient));
        if (kit.BodyStart is { } start)
            Celsius(start, -30, 120, nameof(HeatingKit.BodyStart));
        kit.ValidateOwn(setup.Vessel);
        RequireThermostat(EquipmentCheck.Present(kit.Thermostat, nameof(HeatingKit.Thermostat)), kit);
    }

    private static void RequireThermostat(Thermostat thermostat, HeatingKit kit)
    {
        IReadOnlyList<SetpointStep> steps = EquipmentCheck.Present(thermostat.Schedule, nameof(Thermostat.Schedule));
        EquipmentCheck.Within(steps.Count, 1, MostSteps, "", nameof(Thermostat.Schedule));
        double before = double.NegativeInfinity;
        foreach (SetpointStep step in steps)
        {
            EquipmentCheck.Present(step, nameof(Thermostat.Schedule));
            Celsius(step.Setpoint, -30, 120, nameof(SetpointStep.Setpoint));
            double at = step.At.Seconds;
            if (before == double.NegativeInfinity ? at != 0 : !(at >= before + LeastStepS && double.IsFinite(at)))
                throw EquipmentCheck.OutOfRange(nameof(SetpointStep.At), at, FormattableString.Invariant($"The first step must be at 0 and each later by at least 1 s: {at} s follows {(before == double.NegativeInfinity ? "the start" : FormattableString.Invariant($"{before} s"))}."));
            before = at;
        }

        EquipmentCheck.Defined(thermostat.Sensor, nameof(Thermostat.Sensor));
        EquipmentCheck.Within(thermostat.SensorRadius.Percent, 0, 100, "%", nameof(Thermostat.SensorRadius));
        EquipmentCheck.Within(thermostat.SensorHeight.Percent, 0, 100, "%", nameof(Thermostat.SensorHeight));
        double lagS = thermostat.Lag.Seconds;
        if (lagS != 0)
            EquipmentCheck.Within(lagS, 1, 3600, "s", nameof(Thermostat.Lag));
        if (thermostat.CutOut is { } cutOut)
            Celsius(cutOut, -20, 150, nameof(Thermostat.CutOut));

        bool inBody = thermostat.Sensor == SensorPlace.Body && lagS == 0;
        if (kit.HeaterPower is null)
        {
            if (thermostat.Sensor != SensorPlace.Body)
                throw EquipmentCheck.Refused(nameof(HeatingKit.HeaterPower), "A sensor on the wall or in the honey needs a heater of stated power: without it the body is taken to be at the setpoint at every moment.");
            return;
        }

        if (thermostat.Hysteresis.Kelvins != 0 || !inBody)
            EquipmentCheck.Within(thermostat.Hysteresis.Kelvins, 0.1, 50, "K", nameof(Thermostat.Hysteresis));
    }

    private static void RequireTargets(WarmingSetup setup)
    {
        EquipmentCheck.Present(setup.Targets, nameof(WarmingSetup.Targets));
        EquipmentCheck.Within(setup.Targets.Count, 0, 20, "", nameof(WarmingSetup.Targets));
        foreach (WarmingTarget target in setup.Targets)
        {
            switch (EquipmentCheck.Present(target, nameof(WarmingSetup.Targets)))
            {
                case MeanAtLeast mean:
                    Celsius(mean.Temperature, -20, 100, nameof(MeanAtLeast.Temperature));
                    break;
                case ColdestAtLeast coldest:
                    Celsius(coldest.Temperature, -20, 100, nameof(ColdestAtLeast.Temperature));
                    break;
                case MeanAtMost mean:
                    Celsius(mean.Temperature, -20, 100, nameof(MeanAtMost.Temperature));
                    break;
                case ViscosityAtMost thin:
                    EquipmentCheck.Within(thin.Viscosity.PascalSeconds, 0.05, 10_000, "Pa·s", nameof(ViscosityAtMost.Viscosity));
                    break;
                case ViscosityAtLeast thick:
                    EquipmentCheck.Within(thick.Viscosity.PascalSeconds, 0.05, 10_000, "Pa·s", nameof(ViscosityAtLeast.Viscosity));
                    break;
            }
        }
    }

    private static void RequireOptions(WarmingOptions options)
    {
        EquipmentCheck.Defined(options.Inside, nameof(WarmingOptions.Inside));
        EquipmentCheck.Within(options.RadialCells, 2, 400, "", nameof(WarmingOptions.RadialCells));
        EquipmentCheck.Within(options.AxialCells, 2, 400, "", nameof(WarmingOptions.AxialCells));
        EquipmentCheck.Within(options.Tolerance.Kelvins, 1e-7, 1, "K", nameof(WarmingOptions.Tolerance));
        EquipmentCheck.Within(options.SeriesPoints, 0, 100_000, "", nameof(WarmingOptions.SeriesPoints));
        EquipmentCheck.Present(options.MapTimes, nameof(WarmingOptions.MapTimes));
        EquipmentCheck.Within(options.MapTimes.Count, 0, 100, "", nameof(WarmingOptions.MapTimes));
        double before = -1;
        foreach (Duration time in options.MapTimes)
        {
            if (!(time.Seconds > before && time.Seconds >= 0 && double.IsFinite(time.Seconds)))
                throw EquipmentCheck.OutOfRange(nameof(WarmingOptions.MapTimes), time.Seconds, "Times of maps must be 0 or later, and increase.");
            before = time.Seconds;
        }
    }

    // Powers are decimals: those of more than 8e28 W overflow on the way to watts.
    private static double Watts(Power power)
    {
        try
        {
            return (double)power.Watts;
        }
        catch (OverflowException)
        {
            return (double)power.Value > 0 ? double.PositiveInfinity : double.NegativeInfinity;
        }
    }

    private static double Celsius(Temperature value, double low, double high, string name) =>
        EquipmentCheck.Within(value.DegreesCelsius, low, high, "°C", name);
}
