using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>A box: settling tank or sump with upright walls and a flat bottom.</summary>
public sealed class RectangularTank : VesselShape
{
    internal static readonly ShapeParameter LengthParameter = ShapeParameter.RequiredLength("length", 0.01, 20, "inside length");
    internal static readonly ShapeParameter WidthParameter = ShapeParameter.RequiredLength("width", 0.01, 20, "inside width");
    internal static readonly ShapeParameter HeightParameter = ShapeParameter.RequiredLength("height", 0.01, 20, "inside height to the brim");

    private readonly double floorAreaM2;
    private readonly double perimeterM;

    /// <summary>A box of given inside lengths.</summary>
    /// <param name="length">Inside length, 0.01 m to 20 m.</param>
    /// <param name="width">Inside width, 0.01 m to 20 m.</param>
    /// <param name="height">Inside height to the brim, 0.01 m to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public RectangularTank(Length length, Length width, Length height)
    {
        double lengthM = LengthParameter.Check(length.Meters, nameof(length));
        double widthM = WidthParameter.Check(width.Meters, nameof(width));
        HeightM = HeightParameter.Check(height.Meters, nameof(height));
        floorAreaM2 = lengthM * widthM;
        perimeterM = 2 * (lengthM + widthM);
    }

    internal static ShapeEntry<VesselShape> Entry { get; } = new(
        "rectangular-tank",
        "box with upright walls and a flat bottom",
        typeof(RectangularTank),
        [LengthParameter, WidthParameter, HeightParameter],
        valueInSI => new RectangularTank(
            Length.FromMeters(LengthParameter.Read(valueInSI)),
            Length.FromMeters(WidthParameter.Read(valueInSI)),
            Length.FromMeters(HeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double HeightM { get; }

    /// <inheritdoc/>
    internal override Prism? AsPrism => new Prism(floorAreaM2, perimeterM);

    /// <inheritdoc/>
    protected internal override double VolumeM3(double levelM) => floorAreaM2 * Math.Clamp(levelM, 0, HeightM);

    /// <inheritdoc/>
    protected internal override double LevelM(double volumeM3) => Math.Clamp(volumeM3 / floorAreaM2, 0, HeightM);

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double levelM) => floorAreaM2;

    /// <inheritdoc/>
    protected internal override double WettedAreaM2(double levelM) => floorAreaM2 + perimeterM * Math.Clamp(levelM, 0, HeightM);
}
