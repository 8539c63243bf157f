namespace FlowSim.FieldMeasurements;

/// <summary>Published equations for a ball that sinks through a liquid on the axis of an upright cylinder.</summary>
internal static class SphereFall
{
    /// <summary>Creeping flow about the ball. Beyond the supported end inertia is corrected for, beyond the outer end no longer.</summary>
    internal static readonly ValidityRange ReynoldsRange = new("falling ball", "Reynolds number of the ball", "", 0, 0.1, 0, 0.5);

    /// <summary>Faxén's wall factor. The outer end is the source's; the supported one an engineering choice: a ball so large never keeps to the axis.</summary>
    internal static readonly ValidityRange FaxenRange = new("wall correction of a falling ball", "diameter of the ball over that of the jar", "", 0, 0.2, 0, 0.32);

    /// <summary>Francis's wall factor, a cross-check.</summary>
    internal static readonly ValidityRange FrancisRange = new("wall correction of a falling ball, after Francis", "diameter of the ball over that of the jar", "", 0, 0.97);

    /// <summary>Distance of the ball from surface or bottom, in radii of the jar: from 1 on the end adds under half a percent, at 0.25 one and a half times the drag without it.</summary>
    internal static readonly ValidityRange EndRange = new("falling ball away from the ends", "distance from surface or bottom in radii of the jar", "", 1, 1000, 0.25, 1000);

    /// <summary>Source of Stokes's law with the wall's and the inertia's correction.</summary>
    internal static readonly Source Source = new(
        "Stokes 1851 with the wall correction of Faxén 1922, as given in Steffe, Rheological Methods in Food Process Engineering, 1.14.4, falling ball viscometer for honey (one page read); first correction for inertia after Oseen 1910 (from memory)",
        Standing.SecondaryCopy);

    /// <summary>Source of the end effects.</summary>
    internal static readonly Source EndSource = new(
        "Tanner 1963, End effects in falling-ball viscometry, J. Fluid Mech. 17:161",
        Standing.AbstractOnly);

    /// <summary>Viscosity from the speed of a ball in a wide vessel, Pa·s: <see cref="StokesSphere.SpeedTimesViscosityStokes1851"/> over the speed.</summary>
    /// <param name="diameterM">Diameter d, m.</param>
    /// <param name="densityDifferenceKgPerM3">ρ_s − ρ, kg/m³.</param>
    /// <param name="speedMPerS">Speed v, m/s.</param>
    internal static double WideVesselViscosityPaS(double diameterM, double densityDifferenceKgPerM3, double speedMPerS) =>
        StokesSphere.SpeedTimesViscosityStokes1851(diameterM, densityDifferenceKgPerM3) / speedMPerS;

    /// <summary>Speed on the axis of a cylinder over that in a wide vessel.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: f = 1 − 2.104 x + 2.09 x³ − 0.95 x⁵, x = d/D.</para>
    /// <para><b>Range</b>: <see cref="FaxenRange"/>.</para>
    /// <para><b>Error</b>: within 0.05 % of Haberman and Sayre 1958 up to x = 0.2, 0.3 % at 0.32.</para>
    /// <para><b>Source</b>: Faxén 1922, Ann. Phys. 68:89, as given in Steffe (see <see cref="Source"/>); the coefficients from memory, the first two also seen in a public program.</para>
    /// <para><b>Checked by</b>: Faxen1922Tests.cs.</para>
    /// </remarks>
    /// <param name="diameterRatio">x, 0 to 0.32.</param>
    internal static double WallFactorFaxen1922(double diameterRatio)
    {
        double x2 = diameterRatio * diameterRatio;
        return 1 - diameterRatio * (2.104 - x2 * (2.09 - 0.95 * x2));
    }

    /// <summary>Speed on the axis of a cylinder over that in a wide vessel, by experiment.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: f = ((1 − x)/(1 − 0.475 x))⁴, x = d/D.</para>
    /// <para><b>Range</b>: <see cref="FrancisRange"/>.</para>
    /// <para><b>Error</b>: within 0.7 % of Haberman and Sayre 1958 up to x = 0.1, 3 % at 0.2, 9 % above.</para>
    /// <para><b>Source</b>: Francis 1933, Physics 4:403, as given by Chhabra 1992 in Steffe (see <see cref="Source"/>), there for x below 0.97.</para>
    /// <para><b>Checked by</b>: Francis1933Tests.cs.</para>
    /// </remarks>
    /// <param name="diameterRatio">x, 0 to 0.97.</param>
    internal static double WallFactorFrancis1933(double diameterRatio)
    {
        double root = (1 - diameterRatio) / (1 - 0.475 * diameterRatio);
        return root * root * root * root;
    }

    /// <summary>Drag of a ball over that in creeping flow.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: 1 + 3 Re/16, Re = ρ v d/μ.</para>
    /// <para><b>Range</b>: <see cref="ReynoldsRange"/>.</para>
    /// <para><b>Error</b>: 0.2 % at Re 0.1, 2 % too high at 0.5, against the next term of Proudman and Pearson 1957 (from memory); near a wall less
    /// of it is left.</para>
    /// <para><b>Source</b>: Oseen 1910, Ark. Mat. Astr. Fys. 6(29) (from memory).</para>
    /// <para><b>Checked by</b>: Oseen1910Tests.cs.</para>
    /// </remarks>
    /// <param name="reynolds">Re.</param>
    internal static double DragFactorOseen1910(double reynolds) => 1 + 3 * reynolds / 16;

    /// <summary>Viscosity from the speed of a ball, wall and inertia taken out, Pa·s: the solution of <c>μ (1 + 3Re/16) = μ_Stokes f</c>.</summary>
    /// <param name="diameterM">Diameter of the ball d, m.</param>
    /// <param name="jarM">Diameter of the jar, m.</param>
    /// <param name="ballKgPerM3">Density of the ball, kg/m³.</param>
    /// <param name="honeyKgPerM3">Density of the honey ρ, kg/m³.</param>
    /// <param name="speedMPerS">Speed v, m/s.</param>
    internal static double ViscosityPaS(double diameterM, double jarM, double ballKgPerM3, double honeyKgPerM3, double speedMPerS) =>
        WideVesselViscosityPaS(diameterM, ballKgPerM3 - honeyKgPerM3, speedMPerS) * WallFactorFaxen1922(diameterM / jarM)
        - 3.0 / 16 * honeyKgPerM3 * speedMPerS * diameterM;
}
