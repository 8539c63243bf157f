using UnitsNet;

namespace FlowSim.Screens;

/// <summary>A cone of cloth, apex down.</summary>
public sealed class ConeScreen : ScreenShape
{
    internal static readonly ShapeParameter TopDiameterParameter = ShapeParameter.RequiredLength("top_diameter", 0.01, 3, "diameter at the rim");
    internal static readonly ShapeParameter RimHeightParameter = ShapeParameter.RequiredLength("rim_height", 0.001, 3, "height of the rim above the apex");

    private readonly double radiusPerDepth;
    private readonly double slantPerDepth;

    /// <summary>A cone of a top diameter and a height.</summary>
    /// <param name="topDiameter">Diameter at the rim, 0.01 m to 3 m.</param>
    /// <param name="rimHeight">Height of the rim above the apex, 0.001 m to 3 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public ConeScreen(Length topDiameter, Length rimHeight)
    {
        double topDiameterM = TopDiameterParameter.Check(topDiameter.Meters, nameof(topDiameter));
        RimHeightM = RimHeightParameter.Check(rimHeight.Meters, nameof(rimHeight));
        radiusPerDepth = topDiameterM / 2 / RimHeightM;
        slantPerDepth = Math.Sqrt(1 + radiusPerDepth * radiusPerDepth);
    }

    private ConeScreen(double radiusPerDepth, double rimHeightM)
    {
        this.radiusPerDepth = radiusPerDepth;
        RimHeightM = rimHeightM;
        slantPerDepth = Math.Sqrt(1 + radiusPerDepth * radiusPerDepth);
    }

    internal static ShapeEntry<ScreenShape> Entry { get; } = new(
        "cone",
        "cone of cloth, apex down",
        typeof(ConeScreen),
        [TopDiameterParameter, RimHeightParameter],
        valueInSI => new ConeScreen(
            Length.FromMeters(TopDiameterParameter.Read(valueInSI)),
            Length.FromMeters(RimHeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double RimHeightM { get; }

    /// <inheritdoc/>
    /// <remarks>The cone keeps its slope: a higher rim is a wider one.</remarks>
    protected internal override ScreenShape? WithRimM(double rimHeightM) => new ConeScreen(radiusPerDepth, rimHeightM);

    /// <inheritdoc/>
    protected internal override double PondVolumeM3(double depthM) => SurfaceAreaM2(depthM) * Math.Clamp(depthM, 0, RimHeightM) / 3;

    /// <inheritdoc/>
    protected internal override double PondDepthM(double volumeM3) =>
        Math.Min(RimHeightM, Math.Cbrt(3 * Math.Max(0, volumeM3) / (Math.PI * radiusPerDepth * radiusPerDepth)));

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double depthM)
    {
        double radius = radiusPerDepth * Math.Clamp(depthM, 0, RimHeightM);
        return Math.PI * radius * radius;
    }

    /// <inheritdoc/>
    protected internal override double WettedClothAreaM2(double depthM)
    {
        double d = Math.Clamp(depthM, 0, RimHeightM);
        return Math.PI * radiusPerDepth * slantPerDepth * d * d;
    }

    /// <inheritdoc/>
    protected internal override double HeadIntegralM3(double depthM) => WettedClothAreaM2(depthM) * Math.Clamp(depthM, 0, RimHeightM) / 3;
}
