using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>An upright cylinder with a flat bottom: pail, drum or tank.</summary>
public sealed class UprightCylinder : VesselShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 20, "inside diameter");
    internal static readonly ShapeParameter HeightParameter = new("height", ShapeParameterKind.Length, 0.01, 20, false, null, "inside height to the brim; or give the capacity");
    internal static readonly ShapeParameter CapacityParameter = new("capacity", ShapeParameterKind.Volume, 1e-5, 1000, false, null, "volume to the brim, instead of the height");

    private readonly double floorAreaM2;
    private readonly double perimeterM;

    /// <summary>A cylinder of a diameter and a height.</summary>
    /// <param name="diameter">Inside diameter, 0.01 m to 20 m.</param>
    /// <param name="height">Inside height to the brim, 0.01 m to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public UprightCylinder(Length diameter, Length height)
    {
        double diameterM = DiameterParameter.Check(diameter.Meters, nameof(diameter));
        HeightM = HeightParameter.Check(height.Meters, nameof(height));
        floorAreaM2 = Math.PI / 4 * diameterM * diameterM;
        perimeterM = Math.PI * diameterM;
    }

    /// <summary>A cylinder of a diameter that holds a volume to the brim.</summary>
    /// <param name="volume">Volume to the brim, 0.01 L to 1000 m³; the height that follows must be 0.01 m to 20 m.</param>
    /// <param name="diameter">Inside diameter, 0.01 m to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its limits.</exception>
    public static UprightCylinder OfCapacity(Volume volume, Length diameter) => OfCapacity(volume, diameter, nameof(volume));

    private static UprightCylinder OfCapacity(Volume volume, Length diameter, string volumeName)
    {
        double volumeM3 = CapacityParameter.Check(volume.CubicMeters, volumeName);
        double diameterM = DiameterParameter.Check(diameter.Meters, nameof(diameter));
        double floorM2 = Math.PI / 4 * diameterM * diameterM;

        // The height follows from the volume, so it is the volume that is at fault.
        EquipmentCheck.Within(1000 * volumeM3, 1000 * floorM2 * HeightParameter.Min, 1000 * floorM2 * HeightParameter.Max, "L", volumeName);
        return new UprightCylinder(diameter, Length.FromMeters(Math.Clamp(volumeM3 / floorM2, HeightParameter.Min, HeightParameter.Max)));
    }

    internal static ShapeEntry<VesselShape> Entry { get; } = new(
        "upright-cylinder",
        "upright cylinder with a flat bottom: pail, drum, tank",
        typeof(UprightCylinder),
        [DiameterParameter, HeightParameter, CapacityParameter],
        valueInSI =>
        {
            Length diameter = Length.FromMeters(DiameterParameter.Read(valueInSI));
            return (HeightParameter.ReadOptional(valueInSI), CapacityParameter.ReadOptional(valueInSI)) switch
            {
                ({ } height, null) => new UprightCylinder(diameter, Length.FromMeters(height)),
                (null, { } capacity) => OfCapacity(Volume.FromCubicMeters(capacity), diameter, CapacityParameter.Key),
                _ => throw new ArgumentException("give either 'height' or 'capacity', one of them.", HeightParameter.Key),
            };
        });

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
