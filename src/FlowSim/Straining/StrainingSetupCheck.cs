using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Straining;

/// <summary>Checks a setup once, at the edge; inside a run nothing is checked again.</summary>
internal static class StrainingSetupCheck
{
    /// <summary>Most steps of a schedule and most scrapes at set times.</summary>
    private const int MostSteps = 1000;

    /// <summary>Longest time that may be simulated, s: 30 days.</summary>
    public const double LongestS = 30 * 86400;

    /// <summary>Throws when something in the setup is out of its range.</summary>
    /// <param name="setup">Setup to check.</param>
    public static void Require(StrainingSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        EquipmentCheck.Present(setup.Honey);
        EquipmentCheck.Present(setup.Control);
        EquipmentCheck.Present(setup.Scraping);
        setup.Tank.Validate();
        setup.Gate.Validate();
        setup.Strainer.Validate();
        setup.Receiver.Validate();
        setup.Debris.Validate();

        ViscosityCorrelation viscosity = HoneyProperties.Of(setup.Honey).Viscosity;
        viscosity.TemperatureRange.Require(setup.HoneyTemperature.DegreesCelsius, nameof(StrainingSetup.HoneyTemperature));
        EquipmentCheck.Within(setup.RoomTemperature.DegreesCelsius, -10, 60, "°C", nameof(StrainingSetup.RoomTemperature));
        EquipmentCheck.Within(setup.Longest.Seconds, 1, LongestS, "s", nameof(StrainingSetup.Longest));

        // Lower than this and the run would end before it began.
        double lowest = StrainingParameters.HeelLevel(setup) + TankHeel.LeastHeadM;
        if (lowest > setup.Tank.Shape.HeightM)
            throw EquipmentCheck.OutOfRange(nameof(Gate.Bore), setup.Gate.Bore.Millimeters, FormattableString.Invariant($"A bore of {setup.Gate.Bore.Millimeters:0.###} mm is too wide for this tank, and drains nothing: its surface is nowhere above the gate as wide as the bore, or the brim, {setup.Tank.Shape.HeightM:0.####} m, is less than {2000 * TankHeel.LeastHeadM:0.#} mm above the gate. Take a narrower bore or a lower gate."));
        EquipmentCheck.Within(setup.Tank.Level.Meters, lowest, setup.Tank.Shape.HeightM, "m", nameof(Tank.Level));
        RequireNumbersWhereItRuns(setup);
        RequireControl(setup);
        RequireScraping(setup.Scraping);
    }

    /// <summary>The levels between which the tank drains decide all else, so a shape of the user's own is asked there too.</summary>
    private static void RequireNumbersWhereItRuns(StrainingSetup setup)
    {
        VesselShape shape = setup.Tank.Shape;
        foreach (double levelM in (ReadOnlySpan<double>)[StrainingParameters.HeelLevel(setup), setup.Tank.Level.Meters])
            ShapeProbe.Number(shape, "volume", shape.VolumeM3(levelM), levelM, nameof(Tank.Shape));
    }

    private static void RequireControl(StrainingSetup setup)
    {
        switch (setup.Control)
        {
            case FixedOpening left:
                RequireOpening(left.Opening, nameof(FixedOpening.Opening));
                break;
            case RiddenGate ridden:
                RequireOpening(ridden.Widest, nameof(RiddenGate.Widest));
                EquipmentCheck.Within(
                    ridden.PondDepth.Millimeters,
                    setup.Strainer.MinimumHead.Millimeters + 1,
                    setup.Strainer.Shape.RimHeight.Millimeters - 1,
                    "mm",
                    nameof(RiddenGate.PondDepth));
                break;
            case OpeningSchedule schedule:
                RequireSchedule(EquipmentCheck.Present(schedule.Steps));
                break;
        }
    }

    private static void RequireSchedule(IReadOnlyList<OpeningStep> steps)
    {
        EquipmentCheck.Within(steps.Count, 1, MostSteps, "", nameof(OpeningSchedule.Steps));
        foreach (OpeningStep step in steps)
            EquipmentCheck.Present(step, nameof(OpeningSchedule.Steps));
        EquipmentCheck.Within(steps[0].At.Seconds, 0, 0, "s", nameof(OpeningStep.At));
        RequireIncreasing(steps.Select(step => step.At), nameof(OpeningStep.At));
        foreach (OpeningStep step in steps)
            RequireOpening(step.Opening, nameof(OpeningStep.Opening));
    }

    private static void RequireScraping(Scraping scraping)
    {
        EquipmentCheck.Within(scraping.Recovery, 0, 1, "", nameof(Scraping.Recovery));
        EquipmentCheck.Within(scraping.Pause.Seconds, 1, 30 * 86400, "s", nameof(Scraping.Pause));
        if (scraping.AtPondDepth is { } depth)
            EquipmentCheck.Within(depth.Millimeters, 1, 10_000, "mm", nameof(Scraping.AtPondDepth));

        IReadOnlyList<Duration> times = EquipmentCheck.Present(scraping.Times);
        EquipmentCheck.Within(times.Count, 0, MostSteps, "", nameof(Scraping.Times));
        RequireIncreasing(times.Prepend(Duration.Zero), nameof(Scraping.Times));
    }

    private static void RequireIncreasing(IEnumerable<Duration> times, string name)
    {
        double previous = double.NegativeInfinity;
        foreach (Duration time in times)
        {
            if (!(time.Seconds > previous && double.IsFinite(time.Seconds)))
                throw EquipmentCheck.OutOfRange(name, time.Seconds, FormattableString.Invariant($"The times must increase and be finite: {time.Seconds} s follows {previous} s."));
            previous = time.Seconds;
        }
    }

    private static void RequireOpening(Ratio opening, string name) => EquipmentCheck.Within(opening.Percent, 0, 100, "%", name);
}
