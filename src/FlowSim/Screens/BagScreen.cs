using UnitsNet;

namespace FlowSim.Screens;

/// <summary>A hanging bag of cloth: an upright cylinder with a hemispherical bottom.</summary>
public sealed class BagScreen : ScreenShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 3, "diameter of the bag");
    internal static readonly ShapeParameter RimHeightParameter = ShapeParameter.RequiredLength("rim_height", 0.005, 3, "height of the rim above the lowest point, at least half the diameter");

    private readonly double radiusM;

    /// <summary>A bag of a diameter and a height.</summary>
    /// <param name="diameter">Diameter, 0.01 m to 3 m.</param>
    /// <param name="rimHeight">Height of the rim above the lowest point, half the diameter to 3 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public BagScreen(Length diameter, Length rimHeight)
    {
        radiusM = DiameterParameter.Check(diameter.Meters, nameof(diameter)) / 2;
        RimHeightM = EquipmentCheck.Within(rimHeight.Meters, radiusM, RimHeightParameter.Max, "m", nameof(rimHeight));
    }

    private BagScreen(double radiusM, double rimHeightM)
    {
        this.radiusM = radiusM;
        RimHeightM = rimHeightM;
    }

    internal static ShapeEntry<ScreenShape> Entry { get; } = new(
        "bag",
        "hanging bag of cloth: cylinder with a hemispherical bottom",
        typeof(BagScreen),
        [DiameterParameter, RimHeightParameter],
        valueInSI => new BagScreen(
            Length.FromMeters(DiameterParameter.Read(valueInSI)),
            Length.FromMeters(RimHeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double RimHeightM { get; }

    /// <inheritdoc/>
    protected internal override ScreenShape? WithRimM(double rimHeightM) => new BagScreen(radiusM, rimHeightM);

    /// <inheritdoc/>
    protected internal override double PondVolumeM3(double depthM)
    {
        double d = Math.Clamp(depthM, 0, RimHeightM);
        return d <= radiusM
            ? Math.PI * d * d * (radiusM - d / 3)
            : HemisphereM3 + Math.PI * radiusM * radiusM * (d - radiusM);
    }

    /// <inheritdoc/>
    protected internal override double PondDepthM(double volumeM3)
    {
        if (volumeM3 <= 0)
            return 0;
        if (volumeM3 > HemisphereM3)
            return Math.Min(RimHeightM, radiusM + (volumeM3 - HemisphereM3) / (Math.PI * radiusM * radiusM));

        // Depth u radii in the cap: u²(3 − u) = q. With u = 1 + 2 cos t this is cos 3t = 1 − q/2, solved by
        // t = (2π − ψ)/3, sin(ψ/2) = √q/2; written so that nothing cancels at small q.
        double q = 3 * volumeM3 / (Math.PI * radiusM * radiusM * radiusM);
        double third = 2 * Math.Asin(Math.Sqrt(q) / 2) / 3;
        double halfSine = Math.Sin(third / 2);
        return Math.Min(radiusM, radiusM * (2 * halfSine * halfSine + Math.Sqrt(3) * Math.Sin(third)));
    }

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double depthM)
    {
        double d = Math.Min(Math.Clamp(depthM, 0, RimHeightM), radiusM);
        return Math.PI * d * (2 * radiusM - d);
    }

    /// <inheritdoc/>
    /// <remarks>A cap of a sphere and the cylinder around it have the same area up to any depth (Archimedes).</remarks>
    protected internal override double WettedClothAreaM2(double depthM) => 2 * Math.PI * radiusM * Math.Clamp(depthM, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double HeadIntegralM3(double depthM)
    {
        double d = Math.Clamp(depthM, 0, RimHeightM);
        return Math.PI * radiusM * d * d;
    }

    private double HemisphereM3 => 2 * Math.PI / 3 * radiusM * radiusM * radiusM;
}
