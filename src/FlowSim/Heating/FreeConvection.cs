namespace FlowSim.Heating;

/// <summary>Published Nusselt numbers of free convection, each of a mean coefficient, properties at the film temperature.</summary>
internal static class FreeConvection
{
    /// <summary>Upright wall. The paper's lower limit is none: the laminar form joins conduction.</summary>
    internal static readonly ValidityRange VerticalPlateRange = new("churchill-chu 1975", "Ra", "", 0, 1e12);

    /// <summary>Upward face of a plate warmer than the fluid, or downward face of a colder one.</summary>
    internal static readonly ValidityRange HorizontalUnstableRange = new("mcadams 1954, buoyant side", "Ra", "", 1e4, 1e11, 0, 1e12);

    /// <summary>Downward face of a plate warmer than the fluid, or upward face of a colder one.</summary>
    internal static readonly ValidityRange HorizontalStableRange = new("mcadams 1954, sheltered side", "Ra", "", 1e5, 1e10, 0, 1e11);

    /// <summary>Length over diameter of a closed cylinder full of liquid.</summary>
    internal static readonly ValidityRange ClosedCylinderAspectRange = new("evans-stefany 1966", "L/D", "", 0.75, 2, 0.3, 5);

    /// <summary>Rayleigh number, gβΔT L³/(νa).</summary>
    /// <param name="expansionPerK">Thermal expansion β, 1/K.</param>
    /// <param name="differenceK">Temperature difference ΔT, K, at least 0.</param>
    /// <param name="lengthM">Length L, m.</param>
    /// <param name="kinematicViscosityM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="diffusivityM2PerS">Thermal diffusivity a, m²/s.</param>
    internal static double Rayleigh(double expansionPerK, double differenceK, double lengthM, double kinematicViscosityM2PerS, double diffusivityM2PerS) =>
        Physical.StandardGravity * expansionPerK * differenceK * lengthM * lengthM * lengthM / (kinematicViscosityM2PerS * diffusivityM2PerS);

    /// <summary>Upright wall or upright cylinder that is not slender, by its height.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}².</para>
    /// <para><b>Range</b>: <see cref="VerticalPlateRange"/>, all Pr; a cylinder counts as a wall from D/H ≥ 35/Gr^(1/4).</para>
    /// <para><b>Error</b>: about 10 to 15 % (usual for such correlations; from memory).</para>
    /// <para><b>Source</b>: Churchill and Chu 1975, Int. J. Heat Mass Transfer 18:1323, as given in the source of the open
    /// library ht (opened), which states that it was checked with the paper.</para>
    /// <para><b>Checked by</b>: ChurchillChu1975Tests.cs.</para>
    /// </remarks>
    /// <param name="rayleigh">Rayleigh number by height.</param>
    /// <param name="prandtl">Prandtl number.</param>
    internal static double VerticalPlateChurchillChu1975(double rayleigh, double prandtl)
    {
        double root = 0.825 + 0.387 * Math.Pow(rayleigh, 1 / 6.0) / Math.Pow(1 + Math.Pow(0.492 / prandtl, 9 / 16.0), 8 / 27.0);
        return root * root;
    }

    /// <summary>Horizontal face from which buoyancy carries the fluid away: warm side up, or cold side down. Length: area over perimeter.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Nu = 0.54 Ra^(1/4) to Ra = 10⁷, 0.15 Ra^(1/3) above; here the greater of the two, which moves the
    /// change to 4.7·10⁶ and takes the step of 6 % out of it.</para>
    /// <para><b>Range</b>: <see cref="HorizontalUnstableRange"/>.</para>
    /// <para><b>Error</b>: about 15 to 20 % (from memory); the joint up to 6 % above the published form between 4.7·10⁶ and 10⁷.</para>
    /// <para><b>Source</b>: McAdams 1954, Heat Transmission, 3rd ed., as given in the source of the open library ht (opened).</para>
    /// <para><b>Checked by</b>: McAdams1954Tests.cs.</para>
    /// </remarks>
    /// <param name="rayleigh">Rayleigh number by area over perimeter.</param>
    internal static double HorizontalUnstableMcAdams1954(double rayleigh) =>
        Math.Max(0.54 * Math.Sqrt(Math.Sqrt(rayleigh)), 0.15 * Math.Cbrt(rayleigh));

    /// <summary>Horizontal face under which (or on which) the fluid stays: warm side down, or cold side up. Length: area over perimeter.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Nu = 0.27 Ra^(1/4).</para>
    /// <para><b>Range</b>: <see cref="HorizontalStableRange"/>.</para>
    /// <para><b>Error</b>: 30 % or more: later books give half as much.</para>
    /// <para><b>Source</b>: McAdams 1954, Heat Transmission, 3rd ed., as given in the source of the open library ht (opened).</para>
    /// <para><b>Checked by</b>: McAdams1954Tests.cs.</para>
    /// </remarks>
    /// <param name="rayleigh">Rayleigh number by area over perimeter.</param>
    internal static double HorizontalStableMcAdams1954(double rayleigh) => 0.27 * Math.Sqrt(Math.Sqrt(rayleigh));

    /// <summary>Liquid in a closed cylinder that is being warmed or cooled through its wall, by its length.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Nu = 0.55 Ra^(1/4), Ra with the difference of wall and mean liquid and the length L.</para>
    /// <para><b>Range</b>: <see cref="ClosedCylinderAspectRange"/>; upright or lying.</para>
    /// <para><b>Error</b>: not known; about 20 % is usual.</para>
    /// <para><b>Source</b>: Evans and Stefany 1966, Chem. Eng. Prog. Symp. Ser. 62(64):209, as given in Holman, Heat Transfer
    /// (from memory).</para>
    /// <para><b>Checked by</b>: EvansStefany1966Tests.cs.</para>
    /// </remarks>
    /// <param name="rayleigh">Rayleigh number by length.</param>
    internal static double ClosedCylinderEvansStefany1966(double rayleigh) => 0.55 * Math.Sqrt(Math.Sqrt(rayleigh));
}
