namespace FlowSim.Heating;

/// <summary>Heat exchange by radiation.</summary>
internal static class Radiation
{
    /// <summary>Emissivity of the surface.</summary>
    internal static readonly ValidityRange EmissivityRange = new("grey surface", "emissivity", "", 0, 1);

    /// <summary>Coefficient of a small grey surface in a large enclosure, W/(m²·K): exact, not linearised, when used with the difference of the two temperatures.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: h = ε σ (T₁² + T₂²)(T₁ + T₂), so that h (T₁ − T₂) = ε σ (T₁⁴ − T₂⁴).</para>
    /// <para><b>Range</b>: <see cref="EmissivityRange"/>; the enclosure much larger than the surface, or black.</para>
    /// <para><b>Error</b>: that of the emissivity.</para>
    /// <para><b>Source</b>: Stefan–Boltzmann law, σ of CODATA 2018; factored for this project.</para>
    /// <para><b>Checked by</b>: RadiationTests.cs.</para>
    /// </remarks>
    /// <param name="emissivity">Emissivity ε.</param>
    /// <param name="surfaceK">Temperature of the surface T₁, K.</param>
    /// <param name="surroundingsK">Temperature of the surroundings T₂, K.</param>
    internal static double GreySurfaceWPerM2K(double emissivity, double surfaceK, double surroundingsK) =>
        emissivity * Physical.StefanBoltzmann * (surfaceK * surfaceK + surroundingsK * surroundingsK) * (surfaceK + surroundingsK);
}
