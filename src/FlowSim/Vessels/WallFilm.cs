namespace FlowSim.Vessels;

/// <summary>The film that a falling level leaves on an upright wall, draining under its own weight.</summary>
internal static class WallFilm
{
    /// <summary>Lubrication theory asks for a film much thinner than it is long; this is its one limit.</summary>
    internal static readonly ValidityRange SlendernessRange = new("jeffreys-1930 wall film", "film thickness / film length", "", 0, 0.1);

    /// <summary>The mean over the film's length, as a share of the thickness at its foot: ∫√z dz = ⅔ z √z.</summary>
    internal const double MeanShareOfBottom = 2.0 / 3;

    /// <summary>Thickness of the film at a depth below its top, m. 0 while depth or time is not positive.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: δ = √(ν z/(g t)).</para>
    /// <para><b>Range</b>: <see cref="SlendernessRange"/>; laminar, flat wall, no surface tension, no evaporation.</para>
    /// <para><b>Error</b>: exact for an infinite wall wetted at once at t = 0; a level that falls in finite time leaves more
    /// near its foot, which wetted later.</para>
    /// <para><b>Source</b>: Jeffreys 1930, Proc. Cambridge Phil. Soc. 26:204; only the abstract was read, which names the
    /// problem; the equation follows from ∂δ/∂t + (g δ²/ν) ∂δ/∂z = 0.</para>
    /// <para><b>Checked by</b>: Jeffreys1930Tests.cs.</para>
    /// </remarks>
    /// <param name="kinematicViscosityM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="depthBelowTopM">Depth below the film's top z, m.</param>
    /// <param name="gravity">Gravity g, m/s².</param>
    /// <param name="timeS">Time t since the wall was laid bare, s.</param>
    internal static double BottomThicknessJeffreys1930M(double kinematicViscosityM2PerS, double depthBelowTopM, double gravity, double timeS) =>
        depthBelowTopM > 0 && timeS > 0 ? Math.Sqrt(kinematicViscosityM2PerS * depthBelowTopM / (gravity * timeS)) : 0;

    /// <summary>Mean thickness of the film over its length, m. 0 while depth or time is not positive.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: δ̄ = ⅔ √(ν z/(g t)).</para>
    /// <para><b>Range</b>: <see cref="SlendernessRange"/>.</para>
    /// <para><b>Error</b>: as <see cref="BottomThicknessJeffreys1930M"/>.</para>
    /// <para><b>Source</b>: integral of <see cref="BottomThicknessJeffreys1930M"/> over z.</para>
    /// <para><b>Checked by</b>: Jeffreys1930Tests.cs.</para>
    /// </remarks>
    /// <param name="kinematicViscosityM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="depthBelowTopM">Length of the film z, m.</param>
    /// <param name="gravity">Gravity g, m/s².</param>
    /// <param name="timeS">Time t since the wall was laid bare, s.</param>
    internal static double MeanThicknessJeffreys1930M(double kinematicViscosityM2PerS, double depthBelowTopM, double gravity, double timeS) =>
        MeanShareOfBottom * BottomThicknessJeffreys1930M(kinematicViscosityM2PerS, depthBelowTopM, gravity, timeS);

    /// <summary>Volume of the film on a wall, m³: mean thickness times wall area.</summary>
    /// <param name="kinematicViscosityM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="depthBelowTopM">Length of the film z, m.</param>
    /// <param name="gravity">Gravity g, m/s².</param>
    /// <param name="timeS">Time t since the wall was laid bare, s.</param>
    /// <param name="wallAreaM2">Area of the wall laid bare, m².</param>
    internal static double VolumeM3(double kinematicViscosityM2PerS, double depthBelowTopM, double gravity, double timeS, double wallAreaM2) =>
        MeanThicknessJeffreys1930M(kinematicViscosityM2PerS, depthBelowTopM, gravity, timeS) * wallAreaM2;
}
