using UnitsNet;

namespace FlowSim.Screens;

/// <summary>An upright cylinder with bottom and side of cloth.</summary>
public sealed class BasketScreen : ScreenShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 3, "diameter of the basket");
    internal static readonly ShapeParameter RimHeightParameter = ShapeParameter.RequiredLength("rim_height", 0.001, 3, "height of the rim above the bottom");

    private readonly double radiusM;
    private readonly double bottomAreaM2;

    /// <summary>A basket of a diameter and a height.</summary>
    /// <param name="diameter">Diameter, 0.01 m to 3 m.</param>
    /// <param name="rimHeight">Height of the rim above the bottom, 0.001 m to 3 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public BasketScreen(Length diameter, Length rimHeight)
    {
        radiusM = DiameterParameter.Check(diameter.Meters, nameof(diameter)) / 2;
        RimHeightM = RimHeightParameter.Check(rimHeight.Meters, nameof(rimHeight));
        bottomAreaM2 = Math.PI * radiusM * radiusM;
    }

    private BasketScreen(double radiusM, double rimHeightM)
    {
        this.radiusM = radiusM;
        RimHeightM = rimHeightM;
        bottomAreaM2 = Math.PI * radiusM * radiusM;
    }

    internal static ShapeEntry<ScreenShape> Entry { get; } = new(
        "basket",
        "upright cylinder with bottom and side of cloth",
        typeof(BasketScreen),
        [DiameterParameter, RimHeightParameter],
        valueInSI => new BasketScreen(
            Length.FromMeters(DiameterParameter.Read(valueInSI)),
            Length.FromMeters(RimHeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double RimHeightM { get; }

    /// <inheritdoc/>
    internal override PrismScreen? AsPrism => new PrismScreen(bottomAreaM2, bottomAreaM2, 2 * Math.PI * radiusM);

    /// <inheritdoc/>
    protected internal override ScreenShape? WithRimM(double rimHeightM) => new BasketScreen(radiusM, rimHeightM);

    /// <inheritdoc/>
    protected internal override double PondVolumeM3(double depthM) => bottomAreaM2 * Math.Clamp(depthM, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double PondDepthM(double volumeM3) => Math.Clamp(volumeM3 / bottomAreaM2, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double depthM) => bottomAreaM2;

    /// <inheritdoc/>
    protected internal override double WettedClothAreaM2(double depthM) =>
        bottomAreaM2 + 2 * Math.PI * radiusM * Math.Clamp(depthM, 0, RimHeightM);

    /// <inheritdoc/>
    protected internal override double HeadIntegralM3(double depthM)
    {
        double d = Math.Clamp(depthM, 0, RimHeightM);
        return (bottomAreaM2 + Math.PI * radiusM * d) * d;
    }
}
