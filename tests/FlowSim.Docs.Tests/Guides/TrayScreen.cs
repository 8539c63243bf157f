using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Docs.Tests.Guides;

/// <summary>A flat rectangular cloth at the bottom of a solid frame.</summary>
public sealed class TrayScreen : ScreenShape
{
    internal static readonly ShapeParameter LengthParameter = ShapeParameter.RequiredLength("length", 0.01, 3, "length of the cloth");
    internal static readonly ShapeParameter WidthParameter = ShapeParameter.RequiredLength("width", 0.01, 3, "width of the cloth");
    internal static readonly ShapeParameter RimHeightParameter = ShapeParameter.RequiredLength("rim_height", 0.001, 3, "height of the frame above the cloth");

    private readonly double areaM2;

    /// <summary>A tray of a length and a width in a frame.</summary>
    /// <param name="length">Length of the cloth, 0.01 m to 3 m.</param>
    /// <param name="width">Width of the cloth, 0.01 m to 3 m.</param>
    /// <param name="rimHeight">Height of the frame above the cloth, 0.001 m to 3 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public TrayScreen(Length length, Length width, Length rimHeight)
    {
        areaM2 = LengthParameter.Check(length.Meters, nameof(length)) * WidthParameter.Check(width.Meters, nameof(width));
        RimHeightM = RimHeightParameter.Check(rimHeight.Meters, nameof(rimHeight));
    }

    internal static ShapeEntry<ScreenShape> Entry { get; } = new(
        "tray",
        "flat rectangular cloth at the bottom of a solid frame",
        typeof(TrayScreen),
        [LengthParameter, WidthParameter, RimHeightParameter],
        valueInSI => new TrayScreen(
            Length.FromMeters(LengthParameter.Read(valueInSI)),
            Length.FromMeters(WidthParameter.Read(valueInSI)),
            Length.FromMeters(RimHeightParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double RimHeightM { get; }

    /// <inheritdoc/>
    internal override PrismScreen? AsPrism => new PrismScreen(areaM2, areaM2, 0);

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
