using UnitsNet;

namespace FlowSim.Screens;

/// <summary>A flat round cloth at the bottom of a solid ring.</summary>
public sealed class FlatDisc : ScreenShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 3, "diameter of the cloth");
    internal static readonly ShapeParameter RimHeightParameter = ShapeParameter.RequiredLength("rim_height", 0.001, 3, "height of the rim above the cloth");

    private readonly double areaM2;

    /// <summary>A disc of a diameter under a rim.</summary>
    /// <param name="diameter">Diameter of the cloth, 0.01 m to 3 m.</param>
    /// <param name="rimHeight">Height of the rim above the cloth, 0.001 m to 3 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public FlatDisc(Length diameter, Length rimHeight)
    {
        double diameterM = DiameterParameter.Check(diameter.Meters, nameof(diameter));
        RimHeightM = RimHeightParameter.Check(rimHeight.Meters, nameof(rimHeight));
        areaM2 = Math.PI / 4 * diameterM * diameterM;
    }

    private FlatDisc(double areaM2, double rimHeightM)
    {
        this.areaM2 = areaM2;
        RimHeightM = rimHeightM;
    }

    internal static ShapeEntry<ScreenShape> Entry { get; } = new(
        "flat-disc",
        "flat round cloth at the bottom of a solid ring",
        typeof(FlatDisc),
        [DiameterParameter, RimHeightParameter],
        valueInSI => new FlatDisc(
            Length.FromMeters(DiameterParameter.Read(valueInSI)),
            Length.FromMeters(RimHeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double RimHeightM { get; }

    /// <inheritdoc/>
    internal override PrismScreen? AsPrism => new PrismScreen(areaM2, areaM2, 0);

    /// <inheritdoc/>
    protected internal override ScreenShape? WithRimM(double rimHeightM) => new FlatDisc(areaM2, rimHeightM);

    /// <inheritdoc/>
    protected internal override double PondVolumeM3(double depthM) => areaM2 * Math.Clamp(depthM, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double PondDepthM(double volumeM3) => Math.Clamp(volumeM3 / areaM2, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double depthM) => areaM2;

    /// <inheritdoc/>
    protected internal override double WettedClothAreaM2(double depthM) => areaM2;

    /// <inheritdoc/>
    protected internal override double HeadIntegralM3(double depthM) => areaM2 * Math.Clamp(depthM, 0, RimHeightM);
}
