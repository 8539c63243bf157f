using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>The inside of a vessel: the contract of a shape. Level is the height of the surface above the lowest point.</summary>
/// <remarks>
/// One file per shape; it is offered to users once it stands in <c>VesselShapes.All</c>. The kernels accept any finite
/// argument and clamp it to the vessel: level to [0, height], volume to [0, capacity].
/// </remarks>
public abstract class VesselShape
{
    /// <summary>Height of the brim above the lowest point.</summary>
    public Length Height => Length.FromMeters(HeightM);

    /// <summary>Volume to the brim.</summary>
    public Volume Capacity => Volume.FromCubicMeters(CapacityM3);

    /// <summary>Volume below a level.</summary>
    /// <param name="level">Level, 0 to <see cref="Height"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The level is outside the vessel.</exception>
    public Volume VolumeAt(Length level)
    {
        Require(level.Meters, HeightM, "m", nameof(level));
        return Volume.FromCubicMeters(VolumeM3(level.Meters));
    }

    /// <summary>Level of a volume.</summary>
    /// <param name="volume">Volume, 0 to <see cref="Capacity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The volume does not fit the vessel.</exception>
    public Length LevelOf(Volume volume)
    {
        Require(volume.CubicMeters, CapacityM3, "m³", nameof(volume));
        return Length.FromMeters(LevelM(volume.CubicMeters));
    }

    /// <summary>Height of the brim, m.</summary>
    protected internal abstract double HeightM { get; }

    /// <summary>Volume to the brim, m³.</summary>
    protected internal virtual double CapacityM3 => VolumeM3(HeightM);

    /// <summary>Volume below a level, m³; increasing in the level.</summary>
    /// <param name="levelM">Level, m.</param>
    protected internal abstract double VolumeM3(double levelM);

    /// <summary>Level of a volume, m: the inverse of <see cref="VolumeM3"/> to rounding.</summary>
    /// <param name="volumeM3">Volume, m³.</param>
    protected internal abstract double LevelM(double volumeM3);

    /// <summary>Area of the free surface at a level, m²: the derivative of <see cref="VolumeM3"/>.</summary>
    /// <param name="levelM">Level, m.</param>
    protected internal abstract double SurfaceAreaM2(double levelM);

    /// <summary>Area of wall and floor below a level, m².</summary>
    /// <param name="levelM">Level, m.</param>
    protected internal abstract double WettedAreaM2(double levelM);

    /// <summary>The shape as a prism, which many runs side by side can share; null when its walls are not upright.</summary>
    internal virtual Prism? AsPrism => null;

    /// <summary>Throws when a kernel answers a level or a volume of the vessel with anything but a number of at least 0: a shape may be the user's own.</summary>
    /// <param name="name">Name of the argument to blame.</param>
    /// <exception cref="ArgumentException">It does.</exception>
    internal void RequireNumbers(string name)
    {
        ShapeProbe.Positive(this, "height", HeightM, name);
        ShapeProbe.Positive(this, "capacity", CapacityM3, name);
        for (int i = 0; i <= ShapeProbe.Parts; i++)
        {
            double levelM = HeightM * i / ShapeProbe.Parts;
            ShapeProbe.Number(this, "volume", VolumeM3(levelM), levelM, name);
            ShapeProbe.Number(this, "free surface", SurfaceAreaM2(levelM), levelM, name);
            ShapeProbe.Number(this, "wetted area", WettedAreaM2(levelM), levelM, name);
            ShapeProbe.Number(this, "level of the volume", LevelM(VolumeM3(levelM)), levelM, name);
        }
    }

    private static void Require(double value, double high, string unit, string name)
    {
        if (!(value >= 0 && value <= high))
            throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"must be within 0 to {high:0.####} {unit}"));
    }
}
