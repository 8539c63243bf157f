namespace FlowSim.Gates;

/// <summary>
/// Published equations for the pressure that holes and short tubes take, as shape factors: R̂ in 1/m³ with
/// <c>Δp = μ R̂ Q</c> in creeping flow, and loss coefficients K with <c>Δp = K ρ V²/2</c>.
/// </summary>
internal static class OpeningResistance
{
    /// <summary>Creeping flow. Reynolds number of the bore, ρVD/μ. Inertia is 3 % of a thin hole's pressure at 0.4 and 30 % at 6.</summary>
    internal static readonly ValidityRange CreepingRange = new("creeping flow through a hole", "Re", "", 0, 0.4, 0, 6);

    /// <summary>Laminar flow in a round tube.</summary>
    internal static readonly ValidityRange LaminarTubeRange = new("poiseuille tube flow", "Re", "", 0, 2000, 0, 2300);

    /// <summary>Discharge coefficient of a thin hole from creeping to inertial flow.</summary>
    internal static readonly ValidityRange DischargeRange = new("thin-hole discharge coefficient", "Re", "", 0, 1e5);

    /// <summary>Share of the bore's area that is open, for the loss coefficient.</summary>
    internal static readonly ValidityRange AreaRatioRange = new("short-tube loss coefficient", "A/(πa²)", "", 0, 1);

    /// <summary>Discharge coefficient of a sharp-edged hole at high Reynolds number: the usual handbook value (from memory).</summary>
    private const double SharpEdgeDischargeCoefficient = 0.61;

    /// <summary>K of a thin blade, 1/0.61², and of the fully open short tube (engineering choices).</summary>
    private const double BladeLossCoefficient = 2.69;
    private const double OpenTubeLossCoefficient = 2.30;

    /// <summary>Thin round hole between two wide spaces in creeping flow, 1/m³.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: R̂ = 3/a³.</para>
    /// <para><b>Range</b>: <see cref="CreepingRange"/>; wall of no thickness, spaces much wider than the hole.</para>
    /// <para><b>Error</b>: exact in the limit.</para>
    /// <para><b>Source</b>: Sampson 1891, Phil. Trans. R. Soc. A 182:449, as given in public encyclopaedia articles on
    /// Sampson flow (Q = a³Δp/(3μ)), which were opened.</para>
    /// <para><b>Checked by</b>: Sampson1891Tests.cs.</para>
    /// </remarks>
    /// <param name="radiusM">Radius a, m.</param>
    internal static double ThinHoleSampson1891PerM3(double radiusM) => 3 / (radiusM * radiusM * radiusM);

    /// <summary>Entry half of a thin round hole in creeping flow, 1/m³: what is left when the honey leaves as a free jet.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: R̂ = 1.5/a³.</para>
    /// <para><b>Range</b>: <see cref="CreepingRange"/>.</para>
    /// <para><b>Error</b>: not known; Sampson's flow is symmetric about the plane of the hole, so half of its pressure is
    /// spent before it, and a free jet spends none behind.</para>
    /// <para><b>Source</b>: engineering choice from <see cref="ThinHoleSampson1891PerM3"/>.</para>
    /// <para><b>Checked by</b>: Sampson1891Tests.cs.</para>
    /// </remarks>
    /// <param name="radiusM">Radius a, m.</param>
    internal static double HoleEntryPerM3(double radiusM) => ThinHoleSampson1891PerM3(radiusM) / 2;

    /// <summary>Round tube in developed laminar flow, 1/m³.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: R̂ = 8L/(πa⁴).</para>
    /// <para><b>Range</b>: <see cref="LaminarTubeRange"/>; developed flow.</para>
    /// <para><b>Error</b>: exact.</para>
    /// <para><b>Source</b>: Poiseuille 1840, Comptes Rendus 11:961, as given in any text on fluid mechanics (from memory).</para>
    /// <para><b>Checked by</b>: Poiseuille1840Tests.cs.</para>
    /// </remarks>
    /// <param name="radiusM">Radius a, m.</param>
    /// <param name="lengthM">Length L, m.</param>
    internal static double TubePoiseuille1840PerM3(double radiusM, double lengthM) =>
        8 * lengthM / (Math.PI * radiusM * radiusM * radiusM * radiusM);

    /// <summary>Round hole through a wall of any thickness between two wide spaces, creeping flow, 1/m³.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: R̂ = (3 + 8L/(πa))/a³.</para>
    /// <para><b>Range</b>: <see cref="CreepingRange"/>; any L/a.</para>
    /// <para><b>Error</b>: within about 1 % of the series solution (from memory).</para>
    /// <para><b>Source</b>: Dagan, Weinbaum and Pfeffer 1982, J. Fluid Mech. 115:505 (from memory).</para>
    /// <para><b>Checked by</b>: Dagan1982Tests.cs.</para>
    /// </remarks>
    /// <param name="radiusM">Radius a, m.</param>
    /// <param name="lengthM">Length L, m.</param>
    internal static double HoleAndTubeDagan1982PerM3(double radiusM, double lengthM) =>
        ThinHoleSampson1891PerM3(radiusM) + TubePoiseuille1840PerM3(radiusM, lengthM);

    /// <summary>Thin opening of any outline between two wide spaces in creeping flow, 1/m³.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: R̂ = 3πP/(2A²).</para>
    /// <para><b>Range</b>: <see cref="CreepingRange"/>; convex outlines and crescents.</para>
    /// <para><b>Error</b>: exact for circle and ellipse; flow up to 8 % low against a boundary-element solution for segments,
    /// lenses, crescents and squares.</para>
    /// <para><b>Source</b>: derived for this project; the circle is Sampson 1891.</para>
    /// <para><b>Checked by</b>: Sampson1891Tests.cs.</para>
    /// </remarks>
    /// <param name="areaM2">Area A, m².</param>
    /// <param name="perimeterM">Perimeter P, m.</param>
    internal static double ThinOpeningPerM3(double areaM2, double perimeterM) =>
        1.5 * Math.PI * (perimeterM / areaM2) / areaM2;

    /// <summary>Loss coefficient of a short tube behind a blade, on the velocity in what is open.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: K = 2.69 − 0.39 A/(πa²).</para>
    /// <para><b>Range</b>: <see cref="AreaRatioRange"/>.</para>
    /// <para><b>Error</b>: not known; about 15 % on K. Matters below about 5 Pa·s only.</para>
    /// <para><b>Source</b>: engineering choice: straight line between a thin blade, 1/0.61², and an open short tube, 2.3.</para>
    /// <para><b>Checked by</b>: GateFlowTests.cs.</para>
    /// </remarks>
    /// <param name="areaRatio">Open area as a share of the bore's.</param>
    internal static double ShortTubeLossCoefficient(double areaRatio) =>
        BladeLossCoefficient - (BladeLossCoefficient - OpenTubeLossCoefficient) * areaRatio;

    /// <summary>Discharge coefficient of a thin round hole that creeping and inertial pressure, added, imply.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: C_d = 1/√(1/0.61² + 12π/Re), Re = ρVD/μ.</para>
    /// <para><b>Range</b>: <see cref="DischargeRange"/>.</para>
    /// <para><b>Error</b>: real orifices overshoot by up to 20 % near Re 100 to 300; exact for Re → 0.</para>
    /// <para><b>Source</b>: derived from Sampson 1891; C_d = 0.61 at high Re from memory.</para>
    /// <para><b>Checked by</b>: Sampson1891Tests.cs.</para>
    /// </remarks>
    /// <param name="reynolds">Reynolds number of the hole, positive.</param>
    internal static double DischargeCoefficient(double reynolds) =>
        1 / Math.Sqrt(1 / (SharpEdgeDischargeCoefficient * SharpEdgeDischargeCoefficient) + 12 * Math.PI / reynolds);
}
