namespace FlowSim.Screens;

/// <summary>How debris closes cloth.</summary>
internal static class Clogging
{
    /// <summary>Time in units of 1/K, for the closed forms at constant pressure.</summary>
    internal static readonly ValidityRange TimeRange = new("hermia-1982", "K t", "", 0, double.PositiveInfinity);

    /// <summary>Blinded area of a sphere over its volume, times its size: (π/4 D²)/(π/6 D³) · D.</summary>
    private const double AreaPerVolumeTimesSize = 1.5;

    /// <summary>Partial expectation E[1/D; lo &lt; D &lt; hi] of log-normal sizes, 1/m.</summary>
    /// <param name="medianM">Median size by mass D50, m.</param>
    /// <param name="lnSpread">Standard deviation of ln D, s.</param>
    /// <param name="lowM">Lower size lo, m; may be 0.</param>
    /// <param name="highM">Upper size hi, m; may be infinite.</param>
    internal static double OversizeInverseSize(double medianM, double lnSpread, double lowM, double highM) =>
        LogNormalMoments.Partial(-1, medianM, lnSpread, lowM, highM);

    /// <summary>Area that each cubic metre of strained honey blinds on each cloth, per area: σ, 1/m.</summary>
    /// <remarks>
    /// σ_j = 1.5 (ρ_h/ρ_d) c E Σ over size classes of (share that earlier cloths let pass) · E[1/D; class]. A cloth catches the
    /// share E of the bits larger than its opening; the others pass it. The classes lie between the openings.
    /// </remarks>
    /// <param name="debris">Debris, already checked.</param>
    /// <param name="honeyDensityKgPerM3">Density of the honey ρ_h, kg/m³.</param>
    /// <param name="openingsM">Openings of the cloths in the order in which honey passes them, m; at most 8 or so.</param>
    /// <param name="sigmaPerM">Receives σ of each cloth, 1/m; as long as <paramref name="openingsM"/>.</param>
    internal static void BlindedAreaPerVolumePerM(in DebrisNumbers debris, double honeyDensityKgPerM3, ReadOnlySpan<double> openingsM, Span<double> sigmaPerM)
    {
        double efficiency = debris.Capture;
        double scale = AreaPerVolumeTimesSize * (honeyDensityKgPerM3 / debris.DensityKgPerM3) * debris.Load * efficiency;

        Span<double> edgesM = stackalloc double[openingsM.Length];
        openingsM.CopyTo(edgesM);
        edgesM.Sort();
        sigmaPerM[..openingsM.Length].Clear();
        for (int size = 0; size < edgesM.Length; size++)
        {
            double low = edgesM[size];
            double high = size + 1 < edgesM.Length ? edgesM[size + 1] : double.PositiveInfinity;
            double inverseSize = OversizeInverseSize(debris.MedianM, debris.SizeSpread, low, high);
            double arriving = 1;
            for (int j = 0; j < openingsM.Length; j++)
            {
                if (openingsM[j] > low)
                    continue;

                sigmaPerM[j] += scale * arriving * inverseSize;
                arriving *= 1 - efficiency;
            }
        }
    }

    /// <summary>Rate at which the open share of a cloth falls, 1/s: φ′ = −σ φ^m U; 0 when nothing is open.</summary>
    /// <remarks>m = 0 complete, ½ standard, 1 intermediate, 2 cake: 2 − n of Hermia's exponent n.</remarks>
    /// <param name="law">Blocking law.</param>
    /// <param name="openShare">Open share φ.</param>
    /// <param name="sigmaPerM">σ, 1/m.</param>
    /// <param name="superficialVelocityMPerS">Superficial velocity U, m/s.</param>
    internal static double OpenShareRate(BlockingLaw law, double openShare, double sigmaPerM, double superficialVelocityMPerS)
    {
        if (!(openShare > 0))
            return 0;

        double power = law switch
        {
            BlockingLaw.Complete => 1,
            BlockingLaw.Standard => Math.Sqrt(openShare),
            BlockingLaw.Intermediate => openShare,
            _ => openShare * openShare,
        };
        return -sigmaPerM * power * superficialVelocityMPerS;
    }

    /// <summary>Flux over its start at constant pressure, J/J0.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: complete e^(−Kt); standard 1/(1 + Kt/2)²; intermediate 1/(1 + Kt); cake 1/√(1 + 2Kt); K = −J′(0)/J0.</para>
    /// <para><b>Range</b>: <see cref="TimeRange"/>; constant pressure, constant viscosity, one cloth.</para>
    /// <para><b>Error</b>: exact solutions of the laws.</para>
    /// <para><b>Source</b>: Hermia 1982, Trans. IChemE 60:183 (from memory); the standard forms.</para>
    /// <para><b>Checked by</b>: Hermia1982Tests.cs.</para>
    /// </remarks>
    /// <param name="law">Blocking law.</param>
    /// <param name="kt">K t, at least 0.</param>
    internal static double FluxRatioHermia1982(BlockingLaw law, double kt) => law switch
    {
        BlockingLaw.Complete => Math.Exp(-kt),
        BlockingLaw.Standard => 1 / ((1 + kt / 2) * (1 + kt / 2)),
        BlockingLaw.Intermediate => 1 / (1 + kt),
        _ => 1 / Math.Sqrt(1 + 2 * kt),
    };

    /// <summary>Strained volume per area at constant pressure in units of J0/K.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: complete 1 − e^(−Kt); standard Kt/(1 + Kt/2); intermediate ln(1 + Kt); cake √(1 + 2Kt) − 1.</para>
    /// <para><b>Range</b>: <see cref="TimeRange"/>.</para>
    /// <para><b>Error</b>: exact integrals of <see cref="FluxRatioHermia1982"/>.</para>
    /// <para><b>Source</b>: Hermia 1982, Trans. IChemE 60:183 (from memory); integrated for this project.</para>
    /// <para><b>Checked by</b>: Hermia1982Tests.cs.</para>
    /// </remarks>
    /// <param name="law">Blocking law.</param>
    /// <param name="kt">K t, at least 0.</param>
    internal static double VolumeRatioHermia1982(BlockingLaw law, double kt) => law switch
    {
        BlockingLaw.Complete => 1 - Math.Exp(-kt),
        BlockingLaw.Standard => kt / (1 + kt / 2),
        BlockingLaw.Intermediate => Math.Log(1 + kt),
        _ => 2 * kt / (Math.Sqrt(1 + 2 * kt) + 1),
    };
}
