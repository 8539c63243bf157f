using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>An upright cylinder over a cone that narrows to the outlet.</summary>
public sealed class ConeBottomedTank : VesselShape
{
    internal static readonly ShapeParameter DiameterParameter = ShapeParameter.RequiredLength("diameter", 0.01, 20, "inside diameter of the cylinder");
    internal static readonly ShapeParameter CylinderHeightParameter = ShapeParameter.RequiredLength("cylinder_height", 0, 20, "inside height of the cylinder, above the cone");
    internal static readonly ShapeParameter ConeHeightParameter = ShapeParameter.RequiredLength("cone_height", 0.001, 20, "inside height of the cone");
    internal static readonly ShapeParameter OutletDiameterParameter = new("outlet_diameter", ShapeParameterKind.Length, 0, 20, false, 0, "inside diameter at the foot of the cone, at most the cylinder's");

    private readonly double outletRadiusM;
    private readonly double topRadiusM;
    private readonly double coneHeightM;
    private readonly double coneVolumeM3;
    private readonly double coneWettedAreaM2;
    private readonly double slope;
    private readonly double slantPerHeight;

    /// <summary>A tank of given inside lengths.</summary>
    /// <param name="diameter">Inside diameter of the cylinder, 0.01 m to 20 m.</param>
    /// <param name="cylinderHeight">Inside height of the cylinder, 0 to 20 m.</param>
    /// <param name="coneHeight">Inside height of the cone, 0.001 m to 20 m.</param>
    /// <param name="outletDiameter">Inside diameter at the foot of the cone, 0 (an apex) to <paramref name="diameter"/>. Its area counts as floor.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its limits.</exception>
    public ConeBottomedTank(Length diameter, Length cylinderHeight, Length coneHeight, Length outletDiameter = default)
    {
        double diameterM = DiameterParameter.Check(diameter.Meters, nameof(diameter));
        double cylinderHeightM = CylinderHeightParameter.Check(cylinderHeight.Meters, nameof(cylinderHeight));
        coneHeightM = ConeHeightParameter.Check(coneHeight.Meters, nameof(coneHeight));
        outletRadiusM = EquipmentCheck.Within(outletDiameter.Meters, OutletDiameterParameter.Min, diameterM, "m", nameof(outletDiameter)) / 2;
        topRadiusM = diameterM / 2;
        HeightM = coneHeightM + cylinderHeightM;
        slope = (topRadiusM - outletRadiusM) / coneHeightM;
        slantPerHeight = Math.Sqrt(1 + slope * slope);
        coneVolumeM3 = FrustumVolumeM3(coneHeightM);
        coneWettedAreaM2 = FrustumWettedAreaM2(coneHeightM);
    }

    internal static ShapeEntry<VesselShape> Entry { get; } = new(
        "cone-bottomed-tank",
        "upright cylinder over a cone that narrows to the outlet",
        typeof(ConeBottomedTank),
        [DiameterParameter, CylinderHeightParameter, ConeHeightParameter, OutletDiameterParameter],
        valueInSI => new ConeBottomedTank(
            Length.FromMeters(DiameterParameter.Read(valueInSI)),
            Length.FromMeters(CylinderHeightParameter.Read(valueInSI)),
            Length.FromMeters(ConeHeightParameter.Read(valueInSI)),
            Length.FromMeters(OutletDiameterParameter.Read(valueInSI))));

    /// <inheritdoc/>
    protected internal override double HeightM { get; }

    /// <inheritdoc/>
    protected internal override double VolumeM3(double levelM)
    {
        double h = Math.Clamp(levelM, 0, HeightM);
        return h <= coneHeightM
            ? FrustumVolumeM3(h)
            : coneVolumeM3 + Math.PI * topRadiusM * topRadiusM * (h - coneHeightM);
    }

    /// <inheritdoc/>
    protected internal override double LevelM(double volumeM3)
    {
        double volume = Math.Clamp(volumeM3, 0, CapacityM3);
        if (volume == 0)
            return 0;
        if (volume > coneVolumeM3)
            return Math.Min(HeightM, coneHeightM + (volume - coneVolumeM3) / (Math.PI * topRadiusM * topRadiusM));

        // r³ = r0³ + 3 k V/π; then h = (r³ − r0³)/(k (r² + r r0 + r0²)), in which the small slope k cancels.
        double r0 = outletRadiusM;
        double r = Math.Cbrt(r0 * r0 * r0 + 3 * slope * volume / Math.PI);
        return Math.Min(coneHeightM, 3 * volume / (Math.PI * (r * r + r * r0 + r0 * r0)));
    }

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double levelM)
    {
        double r = RadiusM(Math.Clamp(levelM, 0, HeightM));
        return Math.PI * r * r;
    }

    /// <inheritdoc/>
    protected internal override double WettedAreaM2(double levelM)
    {
        double h = Math.Clamp(levelM, 0, HeightM);
        return h <= coneHeightM
            ? FrustumWettedAreaM2(h)
            : coneWettedAreaM2 + 2 * Math.PI * topRadiusM * (h - coneHeightM);
    }

    private double RadiusM(double h) => h >= coneHeightM ? topRadiusM : outletRadiusM + slope * h;

    private double FrustumVolumeM3(double h)
    {
        double r0 = outletRadiusM;
        double r = RadiusM(h);
        return Math.PI / 3 * h * (r * r + r * r0 + r0 * r0);
    }

    private double FrustumWettedAreaM2(double h) =>
        Math.PI * outletRadiusM * outletRadiusM + Math.PI * (outletRadiusM + RadiusM(h)) * h * slantPerHeight;
}
