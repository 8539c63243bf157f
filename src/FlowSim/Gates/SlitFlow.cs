namespace FlowSim.Gates;

/// <summary>Flow through the narrow gap that a loose blade leaves.</summary>
internal static class SlitFlow
{
    /// <summary>Gap as a share of its length: a slit must be much longer along the flow than it is wide.</summary>
    internal static readonly ValidityRange SlendernessRange = new("slit flow", "h/L", "", 0, 0.1, 0, 0.5);

    /// <summary>Volume flow through a slit between flat walls, m³/s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Q = w h³ Δp/(12 μ L).</para>
    /// <para><b>Range</b>: <see cref="SlendernessRange"/>; laminar, gap much narrower than wide and long, both walls at rest.</para>
    /// <para><b>Error</b>: exact for a slit without ends; a blade pressed to one side leaks more: round a shaft
    /// 2.5 times as much, as two public pages give it.</para>
    /// <para><b>Source</b>: a public textbook chapter on fluid power, equation (2.19), for a gap of length π D round a shaft; opened.</para>
    /// <para><b>Checked by</b>: SlitFlowTests.cs.</para>
    /// </remarks>
    /// <param name="widthM">Width w across the flow, m.</param>
    /// <param name="gapM">Gap h between the walls, m.</param>
    /// <param name="lengthM">Length L along the flow, m.</param>
    /// <param name="pressurePa">Pressure Δp, Pa.</param>
    /// <param name="viscosityPaS">Viscosity μ, Pa·s.</param>
    internal static double VolumeFlowM3PerS(double widthM, double gapM, double lengthM, double pressurePa, double viscosityPaS) =>
        widthM * gapM * gapM * gapM * pressurePa / (12 * viscosityPaS * lengthM);
}
