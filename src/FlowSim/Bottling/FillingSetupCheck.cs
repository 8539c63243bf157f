using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;

namespace FlowSim.Bottling;

/// <summary>Checks a setup once, at the edge; inside a run nothing is checked again.</summary>
internal static class FillingSetupCheck
{
    /// <summary>Throws when something in the setup is out of its range.</summary>
    /// <param name="setup">Setup to check.</param>
    public static void Require(FillingSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        EquipmentCheck.Present(setup.Honey);
        setup.Tank.Validate();
        setup.Gate.Validate();
        setup.Jar.Validate();
        if (setup.Gate.Outlet != GateOutlet.Free)
            throw EquipmentCheck.Refused(nameof(Gate.Outlet), "The outlet dips into the honey, which holds it back by an amount that changes as the jar fills; let it run free.");

        HoneyProperties honey = HoneyProperties.Of(setup.Honey);
        honey.Viscosity.TemperatureRange.Require(setup.Temperature.DegreesCelsius, nameof(FillingSetup.Temperature));
        HoneyDensity.TemperatureRange.Require(setup.Temperature.DegreesCelsius, nameof(FillingSetup.Temperature));
        EquipmentCheck.Within(setup.RoomTemperature.DegreesCelsius, -10, 60, "°C", nameof(FillingSetup.RoomTemperature));
        HoneyDensity.TemperatureRange.Require(setup.HottestStore.DegreesCelsius, nameof(FillingSetup.HottestStore));
        EquipmentCheck.Within(setup.Opening.Percent, 1, 100, "%", nameof(FillingSetup.Opening));
        RequireLabel(setup);
        RequireWork(setup);
        RequireTank(setup, honey.DensityKgPerM3(setup.Temperature.Kelvins));
    }

    private static void RequireLabel(FillingSetup setup)
    {
        if (setup.LabelledMass is null && setup.Jar.SoldAs is null)
            throw EquipmentCheck.Refused(nameof(FillingSetup.LabelledMass), "This jar is named by its volume and is sold as no weight of its own: the net weight on the label is needed.");

        double grams = EquipmentCheck.Within(setup.Label.Grams, 5, 45_000, "g", nameof(FillingSetup.LabelledMass));
        EquipmentCheck.Within(setup.FillScatter.Grams, 0, 0.2 * grams, "g", nameof(FillingSetup.FillScatter));
        if (setup.ScatterFrom is { } jars)
            EquipmentCheck.Within(jars, 3, 10_000, "", nameof(FillingSetup.ScatterFrom));
        setup.Rule.Require();
        if (setup.TolerableShortfall is { } shortfall)
            EquipmentCheck.Within(shortfall.Grams, 0.01, grams, "g", nameof(FillingSetup.TolerableShortfall));
        EquipmentCheck.Within(setup.Confidence.Percent, 50, 99.99, "%", nameof(FillingSetup.Confidence));
        EquipmentCheck.Within(setup.LeastHeadspace.Percent, 0, 50, "%", nameof(FillingSetup.LeastHeadspace));
        if (setup.Lot is { } lot)
            EquipmentCheck.Within(lot, 1, NetWeightQuestion.MostJars, "", nameof(FillingSetup.Lot));
    }

    private static void RequireWork(FillingSetup setup)
    {
        EquipmentCheck.Within(setup.FallHeight.Meters, FallingThread.FallRange.OuterLow, FallingThread.FallRange.OuterHigh, "m", nameof(FillingSetup.FallHeight));
        EquipmentCheck.Within(setup.ClosingTime.Seconds, 0, 60, "s", nameof(FillingSetup.ClosingTime));
        EquipmentCheck.Within(setup.ChangeOver.Seconds, 0, 3600, "s", nameof(FillingSetup.ChangeOver));
        EquipmentCheck.Within(setup.Lip.Millimeters, LipDrip.LipRange.OuterLow, LipDrip.LipRange.OuterHigh, "mm", nameof(FillingSetup.Lip));
        EquipmentCheck.Within(setup.DripLimit.Grams, 0.01, 1000, "g", nameof(FillingSetup.DripLimit));
        EquipmentCheck.Within(setup.LongestWait.Seconds, 0, 600, "s", nameof(FillingSetup.LongestWait));
        EquipmentCheck.Within(setup.JarsPerCase, 1, 1000, "", nameof(FillingSetup.JarsPerCase));
        EquipmentCheck.Within(setup.LongestFill.Seconds, 1, 86_400, "s", nameof(FillingSetup.LongestFill));
        if (setup.MostJars is { } most)
            EquipmentCheck.Within(most, 1, NetWeightQuestion.MostJars, "", nameof(FillingSetup.MostJars));
        EquipmentCheck.Within(setup.WorkDay.Hours, 0.1, 24, "h", nameof(FillingSetup.WorkDay));
        if (setup.Clearance is { } gap)
            EquipmentCheck.Within(gap.Micrometers, 1, 5000, "µm", nameof(FillingSetup.Clearance));
        EquipmentCheck.Millimetres(setup.BladeSeat, 0.5, 50, nameof(FillingSetup.BladeSeat));
        EquipmentCheck.Within(setup.Night.Hours, 0, 30 * 24, "h", nameof(FillingSetup.Night));
    }

    /// <summary>The tank must stand above its heel, and hold no more jars than a run can count.</summary>
    private static void RequireTank(FillingSetup setup, double densityKgPerM3)
    {
        VesselShape shape = setup.Tank.Shape;
        double heelM = TankHeel.LevelM(shape, setup.Tank.GateHeight.Meters, setup.Gate.Bore.Meters);
        double lowest = heelM + TankHeel.LeastHeadM;
        if (lowest > shape.HeightM)
            throw EquipmentCheck.OutOfRange(nameof(Gate.Bore), setup.Gate.Bore.Millimeters, FormattableString.Invariant($"A bore of {setup.Gate.Bore.Millimeters:0.###} mm is too wide for this tank, and drains nothing: take a narrower bore or a lower gate."));
        EquipmentCheck.Within(setup.Tank.Level.Meters, lowest, shape.HeightM, "m", nameof(Tank.Level));

        double drainsKg = densityKgPerM3 * (shape.VolumeM3(setup.Tank.Level.Meters) - shape.VolumeM3(heelM));
        double jars = drainsKg / setup.Label.Kilograms;
        if (!(jars <= NetWeightQuestion.MostJars))
            throw EquipmentCheck.OutOfRange(nameof(FillingSetup.LabelledMass), setup.Label.Grams, FormattableString.Invariant($"The tank would fill {jars:0} jars of {setup.Label.Grams:0.#} g; at most {NetWeightQuestion.MostJars} are counted in a run. Take a larger jar or a smaller tank."));
    }
}
