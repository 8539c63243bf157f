using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>A lying cylinder with flat ends: a drum on its side.</summary>
public sealed class HorizontalCylinder : VesselShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 20, "inside diameter");
    internal static readonly ShapeParameter LengthParameter = ShapeParameter.RequiredLength("length", 0.01, 20, "inside length");

    private readonly double radiusM;
    private readonly double lengthM;

    /// <summary>A lying cylinder of given inside lengths.</summary>
    /// <param name="diameter">Inside diameter, 0.01 m to 20 m.</param>
    /// <param name="length">Inside length, 0.01 m to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public HorizontalCylinder(Length diameter, Length length)
    {
        radiusM = DiameterParameter.Check(diameter.Meters, nameof(diameter)) / 2;
        lengthM = LengthParameter.Check(length.Meters, nameof(length));
    }

    internal static ShapeEntry<VesselShape> Entry { get; } = new(
        "horizontal-cylinder",
        "lying cylinder with flat ends: a drum on its side",
        typeof(HorizontalCylinder),
        [DiameterParameter, LengthParameter],
        valueInSI => new HorizontalCylinder(
            Length.FromMeters(DiameterParameter.Read(valueInSI)),
            Length.FromMeters(LengthParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double HeightM => 2 * radiusM;

    /// <inheritdoc/>
    protected internal override double CapacityM3 => Math.PI * radiusM * radiusM * lengthM;

    /// <inheritdoc/>
    protected internal override double VolumeM3(double levelM) =>
        radiusM * radiusM / 2 * lengthM * CircleSegment.AngleMinusSine(CentralAngle(levelM));

    /// <inheritdoc/>
    protected internal override double LevelM(double volumeM3)
    {
        double quarterSine = Math.Sin(CircleSegment.AngleOf(2 * volumeM3 / (radiusM * radiusM * lengthM)) / 4);
        return 2 * radiusM * quarterSine * quarterSine;
    }

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double levelM)
    {
        double h = Math.Clamp(levelM, 0, HeightM);
        return 2 * lengthM * Math.Sqrt(h * (HeightM - h));
    }

    /// <inheritdoc/>
    protected internal override double WettedAreaM2(double levelM)
    {
        double angle = CentralAngle(levelM);
        return radiusM * lengthM * angle + radiusM * radiusM * CircleSegment.AngleMinusSine(angle);
    }

    /// <summary>Angle that the surface spans at the axis. The arcsine of a root keeps its digits near empty; mirrored, near full.</summary>
    private double CentralAngle(double levelM)
    {
        double share = Math.Clamp(levelM / HeightM, 0, 1);
        return share <= 0.5 ? 4 * Math.Asin(Math.Sqrt(share)) : 2 * Math.PI - 4 * Math.Asin(Math.Sqrt(1 - share));
    }
}
