namespace FlowSim.Heating;

/// <summary>
/// Coefficients between a vessel's outside and the room: convection of the air plus radiation to walls at the air's
/// temperature, W/(m²·K). Kernels: arguments are not checked.
/// </summary>
/// <remarks>Warming and cooling are alike: a surface is warmer or colder than the air, and only the difference counts.</remarks>
internal static class OutsideCoefficient
{
    /// <summary>Speed of moving air, m/s.</summary>
    internal static readonly ValidityRange AirSpeedRange = new("moving air", "speed", "m/s", 0, 10, 0, 20);

    /// <summary>Upright wall in still air.</summary>
    /// <param name="surfaceK">Temperature of the surface, K.</param>
    /// <param name="airK">Temperature of air and surroundings, K.</param>
    /// <param name="heightM">Height, m.</param>
    /// <param name="emissivity">Emissivity.</param>
    internal static double StillAirWallWPerM2K(double surfaceK, double airK, double heightM, double emissivity)
    {
        Air film = Air.StandardAtmosphere1976((surfaceK + airK) / 2);
        double nusselt = FreeConvection.VerticalPlateChurchillChu1975(film.Rayleigh(Math.Abs(surfaceK - airK), heightM), film.Prandtl);
        return nusselt * film.ConductivityWPerMK / heightM + Radiation.GreySurfaceWPerM2K(emissivity, surfaceK, airK);
    }

    /// <summary>Round top or bottom in still air.</summary>
    /// <param name="surfaceK">Temperature of the surface, K.</param>
    /// <param name="airK">Temperature of air and surroundings, K.</param>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="emissivity">Emissivity.</param>
    /// <param name="facesUp">Whether the air lies above it.</param>
    internal static double StillAirDiscWPerM2K(double surfaceK, double airK, double diameterM, double emissivity, bool facesUp)
    {
        double lengthM = diameterM / 4; // Area over perimeter.
        Air film = Air.StandardAtmosphere1976((surfaceK + airK) / 2);
        double rayleigh = film.Rayleigh(Math.Abs(surfaceK - airK), lengthM);
        bool airLeaves = facesUp == (surfaceK > airK);
        double nusselt = airLeaves ? FreeConvection.HorizontalUnstableMcAdams1954(rayleigh) : FreeConvection.HorizontalStableMcAdams1954(rayleigh);
        return nusselt * film.ConductivityWPerMK / lengthM + Radiation.GreySurfaceWPerM2K(emissivity, surfaceK, airK);
    }

    /// <summary>Upright round wall in air that a fan moves across it.</summary>
    /// <remarks>
    /// Free and forced convection join as the cube root of the sum of their cubes (the usual blend for mixed convection, as
    /// given in textbooks after Churchill 1977; from memory). At rest it is still air, in a wind the wind.
    /// </remarks>
    /// <param name="surfaceK">Temperature of the surface, K.</param>
    /// <param name="airK">Temperature of air and surroundings, K.</param>
    /// <param name="heightM">Height, m.</param>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="emissivity">Emissivity.</param>
    /// <param name="airSpeedMPerS">Speed of the air, m/s, at least 0.</param>
    internal static double MovingAirWallWPerM2K(double surfaceK, double airK, double heightM, double diameterM, double emissivity, double airSpeedMPerS)
    {
        double free = StillAirWallWPerM2K(surfaceK, airK, heightM, 0);
        return Joined(free, surfaceK, airK, diameterM, airSpeedMPerS) + Radiation.GreySurfaceWPerM2K(emissivity, surfaceK, airK);
    }

    /// <summary>Round top or bottom in air that a fan moves across the vessel.</summary>
    /// <remarks>The forced part is taken as that of the side (engineering choice), joined as there.</remarks>
    /// <param name="surfaceK">Temperature of the surface, K.</param>
    /// <param name="airK">Temperature of air and surroundings, K.</param>
    /// <param name="diameterM">Diameter, m.</param>
    /// <param name="emissivity">Emissivity.</param>
    /// <param name="airSpeedMPerS">Speed of the air, m/s, at least 0.</param>
    /// <param name="facesUp">Whether the air lies above it.</param>
    internal static double MovingAirDiscWPerM2K(double surfaceK, double airK, double diameterM, double emissivity, double airSpeedMPerS, bool facesUp)
    {
        double free = StillAirDiscWPerM2K(surfaceK, airK, diameterM, 0, facesUp);
        return Joined(free, surfaceK, airK, diameterM, airSpeedMPerS) + Radiation.GreySurfaceWPerM2K(emissivity, surfaceK, airK);
    }

    private static double Joined(double free, double surfaceK, double airK, double diameterM, double airSpeedMPerS)
    {
        if (!(airSpeedMPerS > 0))
            return free;

        Air film = Air.StandardAtmosphere1976((surfaceK + airK) / 2);
        double forced = ForcedConvection.CylinderChurchillBernstein1977(airSpeedMPerS * diameterM / film.KinematicViscosityM2PerS, film.Prandtl)
            * film.ConductivityWPerMK / diameterM;
        return Math.Cbrt(free * free * free + forced * forced * forced);
    }
}
