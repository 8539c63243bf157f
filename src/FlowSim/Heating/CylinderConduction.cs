using MathNet.Numerics.RootFinding;
using UnitsNet;

namespace FlowSim.Heating;

/// <summary>
/// Conduction alone in an upright full cylinder that starts at one temperature and stands in a medium at another: the slow
/// bound of warming, and exact while honey is too stiff to stir itself.
/// </summary>
public sealed record CylinderConduction
{
    /// <summary>Range of the Biot number on side and ends.</summary>
    public static ValidityRange BiotRange => TransientConduction.BiotRange;

    /// <summary>Radius, 1 mm to 10 m.</summary>
    public required Length Radius { get; init; }

    /// <summary>Height, 1 mm to 20 m.</summary>
    public required Length Height { get; init; }

    /// <summary>Thermal conductivity, 0.005 to 500 W/(m·K).</summary>
    public required ThermalConductivity Conductivity { get; init; }

    /// <summary>Density, 1 to 20 000 kg/m³.</summary>
    public required Density Density { get; init; }

    /// <summary>Specific heat capacity, 50 to 10 000 J/(kg·K).</summary>
    public required SpecificEntropy HeatCapacity { get; init; }

    /// <summary>Coefficient at the side, per area of the cylinder. Its Biot number, h R/λ, must be within <see cref="BiotRange"/>.</summary>
    public required HeatTransferCoefficient Side { get; init; }

    /// <summary>Coefficient at top and bottom. Its Biot number by half the height must be within <see cref="BiotRange"/>; null: no heat passes there.</summary>
    public HeatTransferCoefficient? Ends { get; init; }

    /// <summary>Gap to the medium that is left after a time, as shares of the gap at the start.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: θ = θ_cylinder(r/R, Bi_R, Fo_R) · θ_wall(z/L, Bi_L, Fo_L), L half the height; the mean is the product of
    /// the means.</para>
    /// <para><b>Range</b>: <see cref="BiotRange"/> on side and ends; Fo_R and Fo_L from 10⁻⁶ on. Coefficients and properties constant.</para>
    /// <para><b>Error</b>: 1e-10.</para>
    /// <para><b>Source</b>: Newman 1936, Ind. Eng. Chem. 28:545, the product rule, as in any text on heat transfer (from memory).</para>
    /// <para><b>Checked by</b>: CengelTransientTests.cs, CylinderConductionTests.cs.</para>
    /// </remarks>
    /// <param name="time">Time since the start: 0, or such that both Fourier numbers are at least 10⁻⁶.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ConductionGap GapAfter(Duration time)
    {
        Numbers n = Checked();
        double seconds = EquipmentCheck.Within(time.Seconds, 0, 1e12, "s", nameof(time));
        if (seconds == 0)
            return new ConductionGap(Ratio.FromDecimalFractions(1), Ratio.FromDecimalFractions(1), Ratio.FromDecimalFractions(1));

        double radial = n.RadialPerS * seconds, axial = n.AxialPerS * seconds;
        TransientConduction.FourierRange.Require(radial, nameof(time));
        if (Ends is not null)
            TransientConduction.FourierRange.Require(axial, nameof(time));

        return new ConductionGap(
            Share(GapLeft(n, 0, 0, radial, axial)),
            Share(MeanGapLeft(n, radial, axial)),
            Share(GapLeft(n, 1, 1, radial, axial)));
    }

    /// <summary>Time until the centre, which lags most, has a given share of its gap left.</summary>
    /// <param name="gapLeft">Share of the gap left, 10⁻⁶ to 0.99.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public Duration TimeUntilCentreHas(Ratio gapLeft)
    {
        Numbers n = Checked();
        double wanted = EquipmentCheck.Within(gapLeft.DecimalFractions, 1e-6, 0.99, "", nameof(gapLeft));
        double rate = Math.Max(n.RadialPerS, n.AxialPerS);

        double Excess(double logSeconds)
        {
            double seconds = Math.Exp(logSeconds);
            return Math.Log(GapLeft(n, 0, 0, n.RadialPerS * seconds, n.AxialPerS * seconds) / wanted);
        }

        // At Fo = 10⁻³ the centre has not noticed yet; at the latest, each e-fold takes the slower body's ζ₁² and not much more.
        double early = Math.Log(1e-3 / rate), late = early;
        while (Excess(late) > 0)
            late += 1;
        return Duration.FromSeconds(Math.Exp(Brent.FindRoot(Excess, early, late, 1e-12, 200)));
    }

    private static Ratio Share(double value) => Ratio.FromDecimalFractions(Math.Clamp(value, 0, 1));

    private static double GapLeft(Numbers n, double r, double z, double radialFourier, double axialFourier) =>
        TransientConduction.GapLeft(ConductionShape.InfiniteCylinder, n.SideBiot, r, radialFourier)
            * (n.EndBiot is { } biot ? TransientConduction.GapLeft(ConductionShape.PlaneWall, biot, z, axialFourier) : 1);

    private static double MeanGapLeft(Numbers n, double radialFourier, double axialFourier) =>
        TransientConduction.MeanGapLeft(ConductionShape.InfiniteCylinder, n.SideBiot, radialFourier)
            * (n.EndBiot is { } biot ? TransientConduction.MeanGapLeft(ConductionShape.PlaneWall, biot, axialFourier) : 1);

    private Numbers Checked()
    {
        double radiusM = EquipmentCheck.Millimetres(Radius, 1, 10000, nameof(Radius));
        double halfM = EquipmentCheck.Millimetres(Height, 1, 20000, nameof(Height)) / 2;
        double conductivity = EquipmentCheck.Within(Conductivity.WattsPerMeterKelvin, 0.005, 500, "W/(m·K)", nameof(Conductivity));
        double density = EquipmentCheck.Within(Density.KilogramsPerCubicMeter, 1, 20000, "kg/m³", nameof(Density));
        double heatCapacity = EquipmentCheck.Within(HeatCapacity.JoulesPerKilogramKelvin, 50, 10000, "J/(kg·K)", nameof(HeatCapacity));
        double sideBiot = Side.WattsPerSquareMeterKelvin * radiusM / conductivity;
        BiotRange.Require(sideBiot, nameof(Side));
        double? endBiot = Ends?.WattsPerSquareMeterKelvin * halfM / conductivity;
        if (endBiot is { } biot)
            BiotRange.Require(biot, nameof(Ends));

        double diffusivity = conductivity / (density * heatCapacity);
        return new Numbers(sideBiot, endBiot, diffusivity / (radiusM * radiusM), endBiot is null ? 0 : diffusivity / (halfM * halfM));
    }

    /// <summary>The cylinder as numbers; rates of the two Fourier numbers in 1/s.</summary>
    private readonly record struct Numbers(double SideBiot, double? EndBiot, double RadialPerS, double AxialPerS);
}
