namespace FlowSim.Screens;

using UnitsNet;

/// <summary>The cloth's form: the contract of a shape. Depth is the height of the pond's surface above the cloth's lowest point.</summary>
/// <remarks>
/// One file per shape; it is offered to users once it stands in <c>ScreenShapes.All</c>. Each point of the cloth passes
/// honey in proportion to the head above it, so a shape is known to the flow by <see cref="HeadIntegralM3"/>. The
/// kernels clamp the depth to [0, rim height]; negative depths count as 0.
/// </remarks>
public abstract class ScreenShape
{
    /// <summary>Height of the rim above the cloth's lowest point.</summary>
    public Length RimHeight => Length.FromMeters(RimHeightM);

    /// <summary>Height of the rim, m.</summary>
    protected internal abstract double RimHeightM { get; }

    /// <summary>Volume of the pond at a depth, m³; increasing.</summary>
    /// <param name="depthM">Depth, m.</param>
    protected internal abstract double PondVolumeM3(double depthM);

    /// <summary>Depth of a pond, m: the inverse of <see cref="PondVolumeM3"/> to rounding.</summary>
    /// <param name="volumeM3">Volume, m³.</param>
    protected internal abstract double PondDepthM(double volumeM3);

    /// <summary>Free surface of the pond at a depth, m².</summary>
    /// <param name="depthM">Depth, m.</param>
    protected internal abstract double SurfaceAreaM2(double depthM);

    /// <summary>Area of cloth under the surface at a depth, m².</summary>
    /// <param name="depthM">Depth, m.</param>
    protected internal abstract double WettedClothAreaM2(double depthM);

    /// <summary>
    /// <c>I(d) = ∫ (d − y) dA</c> over the wetted cloth, y the height of a point of the cloth, m³; its derivative is
    /// <see cref="WettedClothAreaM2"/>. Honey standing outside to a height b takes away I(b).
    /// </summary>
    /// <param name="depthM">Depth, m.</param>
    protected internal abstract double HeadIntegralM3(double depthM);

    /// <summary>The same form with its rim at another height, so that runs can differ in it; null when the form cannot say.</summary>
    /// <param name="rimHeightM">Height of the rim, m.</param>
    protected internal virtual ScreenShape? WithRimM(double rimHeightM) => null;

    /// <summary>The shape as a pond with upright walls, which many runs side by side can share; null when it has none.</summary>
    internal virtual PrismScreen? AsPrism => null;

    /// <summary>Throws when a kernel answers a depth or a volume of the pond with anything but a number of at least 0: a shape may be the user's own.</summary>
    /// <param name="name">Name of the argument to blame.</param>
    /// <exception cref="ArgumentException">It does.</exception>
    internal void RequireNumbers(string name)
    {
        ShapeProbe.Positive(this, "rim height", RimHeightM, name);
        ShapeProbe.Positive(this, "pond volume at the rim", PondVolumeM3(RimHeightM), name);
        for (int i = 0; i <= ShapeProbe.Parts; i++)
        {
            double depthM = RimHeightM * i / ShapeProbe.Parts;
            ShapeProbe.Number(this, "pond volume", PondVolumeM3(depthM), depthM, name);
            ShapeProbe.Number(this, "free surface", SurfaceAreaM2(depthM), depthM, name);
            ShapeProbe.Number(this, "wetted cloth", WettedClothAreaM2(depthM), depthM, name);
            ShapeProbe.Number(this, "head integral", HeadIntegralM3(depthM), depthM, name);
            ShapeProbe.Number(this, "depth of the pond volume", PondDepthM(PondVolumeM3(depthM)), depthM, name);
        }
    }
}
