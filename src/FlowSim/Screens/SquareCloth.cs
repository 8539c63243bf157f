namespace FlowSim.Screens;

/// <summary>Geometry and clean resistance of plain square woven wire cloth.</summary>
internal static class SquareCloth
{
    /// <summary>Reynolds number of cloth, ρU/(μ a² w). The creeping limit leaves inertia out: 1 % of the pressure at 0.17.</summary>
    internal static readonly ValidityRange ReynoldsRange = new("armour-cannon-1968", "Re", "", 0, 0.17, 0, 1.7);

    /// <summary>Pore diameters that were measured.</summary>
    internal static readonly ValidityRange OpeningRange = new("armour-cannon-1968", "opening", "µm", 5, 550, 5, 10000);

    /// <summary>Void fractions that were measured.</summary>
    internal static readonly ValidityRange PorosityRange = new("armour-cannon-1968", "porosity", "", 0.35, 0.76, 0.3, 1);

    /// <summary>α of Armour and Cannon.</summary>
    private const double ViscousCoefficient = 8.61;

    /// <summary>Wire surface per volume of cloth a, 1/m.</summary>
    /// <remarks>a = π√(p² + d²)/p², p = w + d: two wires of length √(p² + d²) in each cell of p × p × 2d. Plane geometry.</remarks>
    /// <param name="openingM">Clear opening w, m.</param>
    /// <param name="wireM">Wire diameter d, m.</param>
    internal static double SpecificSurfacePerM(double openingM, double wireM)
    {
        double pitch = openingM + wireM;
        return Math.PI * Math.Sqrt(pitch * pitch + wireM * wireM) / (pitch * pitch);
    }

    /// <summary>Void fraction of the cloth ε.</summary>
    /// <remarks>ε = 1 − a d/4, the wires being cylinders of diameter d.</remarks>
    /// <param name="openingM">Clear opening w, m.</param>
    /// <param name="wireM">Wire diameter d, m.</param>
    internal static double Porosity(double openingM, double wireM) => 1 - SpecificSurfacePerM(openingM, wireM) * wireM / 4;

    /// <summary>Thickness of the cloth B, m: two wires.</summary>
    /// <param name="wireM">Wire diameter d, m.</param>
    internal static double ThicknessM(double wireM) => 2 * wireM;

    /// <summary>Resistance of clean cloth in creeping flow r, 1/m: <c>Δp = μ r U</c>, U the superficial velocity.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: r = 8.61 a² B/ε².</para>
    /// <para><b>Range</b>: <see cref="ReynoldsRange"/>, <see cref="OpeningRange"/>, <see cref="PorosityRange"/>; the
    /// correlation with its inertial term goes from Re 0.1 to 1000.</para>
    /// <para><b>Error</b>: other models and a Stokes simulation give 0.33 to 1.0 of it: the screen factor.</para>
    /// <para><b>Source</b>: Armour and Cannon 1968, AIChE J. 14:415. The abstract was read: coefficients 8.61 and 0.52,
    /// Re = ρU/(μ a² D), ranges. The friction factor Δp ε² D/(B ρ U²) is from memory.</para>
    /// <para><b>Checked by</b>: ArmourCannon1968Tests.cs.</para>
    /// </remarks>
    /// <param name="openingM">Clear opening w, m.</param>
    /// <param name="wireM">Wire diameter d, m.</param>
    internal static double ResistancePerMArmourCannon1968(double openingM, double wireM)
    {
        double surface = SpecificSurfacePerM(openingM, wireM);
        double porosity = Porosity(openingM, wireM);
        return ViscousCoefficient * surface * surface * ThicknessM(wireM) / (porosity * porosity);
    }

    /// <summary>Pressure that air needs to push through wet cloth, Pa.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: p = 4γ/w, the cap of a bubble on a round hole as wide as the opening.</para>
    /// <para><b>Range</b>: <see cref="OpeningRange"/>; a liquid that wets the wire fully.</para>
    /// <para><b>Error</b>: not known for square openings; γ of honey is known to about 10 %.</para>
    /// <para><b>Source</b>: Young and Laplace, as in any text on capillarity (from memory).</para>
    /// <para><b>Checked by</b>: ClothTests.cs.</para>
    /// </remarks>
    /// <param name="surfaceTensionNPerM">Surface tension γ, N/m. Honey about 0.055 ± 0.006 (from memory).</param>
    /// <param name="openingM">Clear opening w, m.</param>
    internal static double AirEntryPressurePa(double surfaceTensionNPerM, double openingM) => 4 * surfaceTensionNPerM / openingM;
}
