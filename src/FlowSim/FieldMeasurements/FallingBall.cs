using System.Globalization;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>A ball timed as it sinks through a jar of the honey. Spreads are one standard deviation.</summary>
/// <remarks>
/// The ball sinks on the axis of an upright cylinder. At Reynolds numbers where this holds it has its full speed within one diameter of
/// where it was let go, so the distance of the first mark from the surface settles that too.
/// </remarks>
public sealed record FallingBall
{
    /// <summary>Share of the wall's correction that is taken as its standard deviation. Engineering choice: a ball is never quite on the axis.</summary>
    private const double WallCorrectionSpread = 0.05;

    /// <summary>Share of the inertia's correction that is taken as its standard deviation. Engineering choice: the wall leaves less of it.</summary>
    private const double InertiaCorrectionSpread = 0.3;

    /// <summary>Density of a steel ball, kg/m³: 7700 to 7900 by the steel (from memory).</summary>
    public static Density Steel { get; } = Density.FromKilogramsPerCubicMeter(7800);

    /// <summary>Density of a glass ball, kg/m³: soda-lime glass (from memory). Give <see cref="BallDensitySpread"/> with it.</summary>
    public static Density Glass { get; } = Density.FromKilogramsPerCubicMeter(2500);

    /// <summary>The honey.</summary>
    public required HoneySample Sample { get; init; }

    /// <summary>Diameter of the ball. 0.3 mm to 50 mm.</summary>
    public required Length BallDiameter { get; init; }

    /// <summary>How well that is known. 0 to 5 mm. Default 0.02 mm (engineering choice: a caliper).</summary>
    public Length BallDiameterSpread { get; init; } = Length.FromMillimeters(0.02);

    /// <summary>Density of the ball. 1000 to 22000 kg/m3. Default <see cref="Steel"/>. It must be above that of the honey.</summary>
    public Density BallDensity { get; init; } = Steel;

    /// <summary>How well that is known. 0 to 2000 kg/m3. Default 50 kg/m3 (engineering choice).</summary>
    public Density BallDensitySpread { get; init; } = Density.FromKilogramsPerCubicMeter(50);

    /// <summary>Inside diameter of the jar. 3 mm to 1000 mm; see also <see cref="WallRange"/>.</summary>
    public required Length JarDiameter { get; init; }

    /// <summary>How well that is known. 0 to 20 mm. Default 1 mm (engineering choice: a rule).</summary>
    public Length JarDiameterSpread { get; init; } = Length.FromMillimeters(1);

    /// <summary>Distance between the marks. 1 mm to 5000 mm.</summary>
    public required Length Distance { get; init; }

    /// <summary>How well that is known. 0 to 50 mm. Default 1 mm (engineering choice: a rule along the glass).</summary>
    public Length DistanceSpread { get; init; } = Length.FromMillimeters(1);

    /// <summary>Times the ball took from mark to mark. 0.1 s to 86400 s each; a ball each time, or the same one.</summary>
    public required IReadOnlyList<Duration> Times { get; init; }

    /// <summary>How well somebody hits a start or a stop. 0 to 60 s. Default 0.3 s (engineering choice).</summary>
    public Duration Reaction { get; init; } = Timings.DefaultReaction;

    /// <summary>Distance from the surface to the first mark; null when it was at least the jar's radius. 0 to 5000 mm.</summary>
    public Length? FromSurface { get; init; }

    /// <summary>Distance from the second mark to the bottom; null when it was at least the jar's radius. 0 to 5000 mm.</summary>
    public Length? FromBottom { get; init; }

    /// <summary>Reynolds numbers of the ball the equation holds for.</summary>
    public static ValidityRange ReynoldsRange => SphereFall.ReynoldsRange;

    /// <summary>Diameter of the ball over that of the jar the wall's correction holds for.</summary>
    public static ValidityRange WallRange => SphereFall.FaxenRange;

    /// <summary>Distance of the marks from surface and bottom, in radii of the jar, from which the ends do not count.</summary>
    public static ValidityRange EndRange => SphereFall.EndRange;

    /// <summary>Where <see cref="EndRange"/> comes from.</summary>
    public static Source EndSource => SphereFall.EndSource;

    /// <summary>The viscosity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="MeasurementRefusedException">The ball is too large for the jar, too fast, too light, or timed too near surface or bottom.</exception>
    public ViscosityMeasurement Measure()
    {
        Timings timings = Check();
        double ballM = BallDiameter.Meters, jarM = JarDiameter.Meters, distanceM = Distance.Meters;
        double ballKgPerM3 = BallDensity.KilogramsPerCubicMeter, honeyKgPerM3 = Sample.DensityKgPerM3;
        double speedMPerS = distanceM / timings.MeanS;
        double viscosityPaS = SphereFall.ViscosityPaS(ballM, jarM, ballKgPerM3, honeyKgPerM3, speedMPerS);
        double reynolds = RequireSlow(viscosityPaS, honeyKgPerM3, speedMPerS);

        ErrorBudget budget = ErrorBudget.Of(
            x => Math.Log(SphereFall.ViscosityPaS(x[0], x[1], x[2], x[3], x[4] / x[5])),
            new("diameter of the ball", ballM, BallDiameterSpread.Meters),
            new("diameter of the jar", jarM, JarDiameterSpread.Meters),
            new("density of the ball", ballKgPerM3, BallDensitySpread.KilogramsPerCubicMeter),
            new("density of the honey", honeyKgPerM3, Sample.DensitySpreadKgPerM3),
            new("distance between the marks", distanceM, DistanceSpread.Meters),
            new("timing", timings.MeanS, timings.SpreadS));
        budget.Add("correction for the wall", WallCorrectionSpread * Math.Log(SphereFall.WallFactorFaxen1922(ballM / jarM)));
        budget.Add("correction for inertia", InertiaCorrectionSpread * Math.Log(SphereFall.DragFactorOseen1910(reynolds)));

        IEnumerable<Notice?> notices = [WallRange.NoticeFor(ballM / jarM), InertiaNotice(reynolds), EndNotice(FromSurface, "surface", "first"), EndNotice(FromBottom, "bottom", "second")];
        return ViscosityMeasurement.Of(
            viscosityPaS, budget, Sample, [.. notices.OfType<Notice>(), .. timings.Notices], [MeasurementCautions.Glass, MeasurementCautions.ForeignBody], SphereFall.Source);
    }

    private Timings Check()
    {
        EquipmentCheck.Present(Sample).Validate();
        EquipmentCheck.Millimetres(BallDiameter, 0.3, 50, nameof(BallDiameter));
        EquipmentCheck.Millimetres(BallDiameterSpread, 0, 5, nameof(BallDiameterSpread));
        EquipmentCheck.Within(BallDensity.KilogramsPerCubicMeter, 1000, 22000, "kg/m3", nameof(BallDensity));
        EquipmentCheck.Within(BallDensitySpread.KilogramsPerCubicMeter, 0, 2000, "kg/m3", nameof(BallDensitySpread));
        EquipmentCheck.Millimetres(JarDiameter, 3, 1000, nameof(JarDiameter));
        EquipmentCheck.Millimetres(JarDiameterSpread, 0, 20, nameof(JarDiameterSpread));
        EquipmentCheck.Millimetres(Distance, 1, 5000, nameof(Distance));
        EquipmentCheck.Millimetres(DistanceSpread, 0, 50, nameof(DistanceSpread));
        foreach ((Length? end, string name) in new[] { (FromSurface, nameof(FromSurface)), (FromBottom, nameof(FromBottom)) })
        {
            if (end is { } given)
                RequireEnd(EquipmentCheck.Millimetres(given, 0, 5000, name), name);
        }

        double ratio = BallDiameter / JarDiameter;
        if (!WallRange.Admits(ratio))
        {
            throw MeasurementRefusedException.Of(
                nameof(JarDiameter),
                string.Create(CultureInfo.InvariantCulture, $"The ball is {ratio:0.00} of the jar's width; the correction for the wall goes to {WallRange.OuterHigh:0.00}."),
                string.Create(CultureInfo.InvariantCulture, $"Take a jar of at least {Math.Ceiling(BallDiameter.Millimeters / WallRange.OuterHigh):0} mm, or a ball of at most {Math.Floor(10 * JarDiameter.Millimeters * WallRange.OuterHigh) / 10:0.0} mm."));
        }

        double lighter = BallDensity.KilogramsPerCubicMeter - Sample.DensityKgPerM3;
        if (!(lighter > 3 * BallDensitySpread.KilogramsPerCubicMeter))
        {
            throw MeasurementRefusedException.Of(
                nameof(BallDensity),
                string.Create(CultureInfo.InvariantCulture, $"A ball of {BallDensity.KilogramsPerCubicMeter:0} ± {BallDensitySpread.KilogramsPerCubicMeter:0} kg/m3 is not clearly heavier than the honey, {Sample.DensityKgPerM3:0} kg/m3."),
                string.Create(CultureInfo.InvariantCulture, $"Take a heavier ball, such as steel ({Steel.KilogramsPerCubicMeter:0} kg/m3), or weigh and measure this one more closely."));
        }

        return new Timings(Times, Reaction, nameof(Times), nameof(Reaction));
    }

    private void RequireEnd(double endM, string name)
    {
        double radii = 2 * endM / JarDiameter.Meters;
        if (radii >= EndRange.OuterLow)
            return;
        throw MeasurementRefusedException.Of(
            name,
            string.Create(CultureInfo.InvariantCulture, $"A mark {1000 * endM:0.#} mm from the {(name == nameof(FromSurface) ? "surface" : "bottom")} is too near: the end slows the ball more than the wall does."),
            string.Create(CultureInfo.InvariantCulture, $"Time it at least {JarDiameter.Millimeters / 2:0.#} mm away, the radius of the jar."));
    }

    private double RequireSlow(double viscosityPaS, double honeyKgPerM3, double speedMPerS)
    {
        double reynolds = honeyKgPerM3 * speedMPerS * BallDiameter.Meters / viscosityPaS;
        if (viscosityPaS > 0 && reynolds <= ReynoldsRange.OuterHigh)
            return reynolds;

        // Re grows with the cube of the diameter; where inertia has taken over the viscosity is below 0 and says nothing.
        double smaller = viscosityPaS > 0 ? BallDiameter.Millimeters * Math.Cbrt(ReynoldsRange.OuterHigh / reynolds) : BallDiameter.Millimeters / 2;
        throw MeasurementRefusedException.Of(
            nameof(Times),
            viscosityPaS > 0
                ? string.Create(CultureInfo.InvariantCulture, $"The ball sinks too fast: its Reynolds number is {reynolds:0.00}, and the equation goes to {ReynoldsRange.OuterHigh:0.0}.")
                : "The ball sinks faster than friction explains: check diameter, distance and time.",
            string.Create(CultureInfo.InvariantCulture, $"Take a ball of at most {Math.Floor(10 * smaller) / 10:0.0} mm, a lighter one, such as glass, or cooler honey."));
    }

    private static Notice? InertiaNotice(double reynolds) => ReynoldsRange.Supports(reynolds)
        ? null
        : new Notice(
            "ball.inertia",
            string.Create(CultureInfo.InvariantCulture, $"the Reynolds number of the ball is {reynolds:0.00}, above {ReynoldsRange.High:0.0}"),
            string.Create(CultureInfo.InvariantCulture, $"inertia adds {100 * (SphereFall.DragFactorOseen1910(reynolds) - 1):0} % to the drag; that is taken out, and how well is part of the error"),
            "take a smaller or a lighter ball, or cooler honey");

    private Notice? EndNotice(Length? end, string name, string mark) => end is not { } given || EndRange.Supports(2 * given.Meters / JarDiameter.Meters)
        ? null
        : new Notice(
            "ball.end",
            string.Create(CultureInfo.InvariantCulture, $"the {mark} mark is {given.Millimeters:0.#} mm from the {name}, less than the jar's radius of {JarDiameter.Millimeters / 2:0.#} mm"),
            "the end slows the ball by an amount that is not corrected, so the honey is thinner than stated",
            "move the mark away from it");
}
