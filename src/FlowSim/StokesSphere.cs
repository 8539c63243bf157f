namespace FlowSim;

/// <summary>Creeping flow about a sphere in a wide vessel.</summary>
internal static class StokesSphere
{
    /// <summary>Creeping flow: below the supported end inertia takes under 2 % off the speed, at the outer end some 15 % (Oseen 1910, from memory).</summary>
    internal static readonly ValidityRange ReynoldsRange = new("stokes-1851", "Reynolds number", "", 0, 0.1, 0, 1);

    /// <summary>Speed times viscosity of a sphere that sinks or rises, N/m: one over the other is what is wanted.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: v μ = g d² Δρ/18.</para>
    /// <para><b>Range</b>: <see cref="ReynoldsRange"/>.</para>
    /// <para><b>Error</b>: exact in the limit of Re → 0, far from walls and ends.</para>
    /// <para><b>Source</b>: Stokes 1851, Trans. Camb. Phil. Soc. 9:8, as given in any text on fluid mechanics (from memory).</para>
    /// <para><b>Checked by</b>: Stokes1851Tests.cs.</para>
    /// </remarks>
    /// <param name="diameterM">Diameter d, m.</param>
    /// <param name="densityDifferenceKgPerM3">Δρ, kg/m³; its sign is the speed's.</param>
    internal static double SpeedTimesViscosityStokes1851(double diameterM, double densityDifferenceKgPerM3) =>
        Physical.StandardGravity * diameterM * diameterM * densityDifferenceKgPerM3 / 18;
}
