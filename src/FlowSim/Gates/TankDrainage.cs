namespace FlowSim.Gates;

/// <summary>Closed forms for the time in which a tank drains at constant temperature: checks of the simulator, and quick answers.</summary>
internal static class TankDrainage
{
    /// <summary>Head that has fallen, as a share of the head at the start. At 0 a viscous drain takes for ever.</summary>
    internal static readonly ValidityRange HeadShareRange = new("closed drain times", "h2/h1", "", 0, 1);

    /// <summary>Time for the head over a prism to fall from h1 to h2 through <c>Δp = R Q + B Q²</c>, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (A/(ρg)) [S + R ln(S − R)] from h2 to h1, S = √(R² + 4Bρgh); written here without the
    /// cancellation in S − R = 4Bρgh/(S + R).</para>
    /// <para><b>Range</b>: <see cref="HeadShareRange"/>, R &gt; 0 or h2 ≥ 0.</para>
    /// <para><b>Error</b>: exact.</para>
    /// <para><b>Source</b>: integral of A dh/dt = −Q; derived for this project.</para>
    /// <para><b>Checked by</b>: TankDrainageTests.cs, against quadrature.</para>
    /// </remarks>
    /// <param name="fromHeadM">Head h1 at the start, m.</param>
    /// <param name="toHeadM">Head h2 at the end, m; 0 &lt; h2 ≤ h1.</param>
    /// <param name="planAreaM2">Plan area A, m².</param>
    /// <param name="resistancePaSPerM3">R = μ R̂, Pa·s/m³.</param>
    /// <param name="inertialPaS2PerM6">B = ρ B̂, Pa·s²/m⁶.</param>
    /// <param name="specificWeightPaPerM">ρ g, Pa/m.</param>
    internal static double PrismTimeS(
        double fromHeadM,
        double toHeadM,
        double planAreaM2,
        double resistancePaSPerM3,
        double inertialPaS2PerM6,
        double specificWeightPaPerM)
    {
        double r = resistancePaSPerM3;
        double bw = 4 * inertialPaS2PerM6 * specificWeightPaPerM;
        double from = Math.Sqrt(r * r + bw * fromHeadM);
        double to = Math.Sqrt(r * r + bw * toHeadM);
        double difference = from + to == 0 ? 0 : bw * (fromHeadM - toHeadM) / (from + to);
        double viscous = r == 0 ? 0 : r * (Math.Log(fromHeadM / toHeadM) - Math.Log((from + r) / (to + r)));
        return planAreaM2 / specificWeightPaPerM * (difference + viscous);
    }

    /// <summary>Time for the head over a prism to fall from h1 to h2 when inertia does not count, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (A R/(ρg)) ln(h1/h2).</para>
    /// <para><b>Range</b>: <see cref="HeadShareRange"/>.</para>
    /// <para><b>Error</b>: exact for B = 0.</para>
    /// <para><b>Source</b>: integral of A dh/dt = −Q; derived for this project.</para>
    /// <para><b>Checked by</b>: TankDrainageTests.cs.</para>
    /// </remarks>
    /// <param name="fromHeadM">Head h1 at the start, m.</param>
    /// <param name="toHeadM">Head h2 at the end, m.</param>
    /// <param name="planAreaM2">Plan area A, m².</param>
    /// <param name="resistancePaSPerM3">R = μ R̂, Pa·s/m³.</param>
    /// <param name="specificWeightPaPerM">ρ g, Pa/m.</param>
    internal static double ViscousPrismTimeS(double fromHeadM, double toHeadM, double planAreaM2, double resistancePaSPerM3, double specificWeightPaPerM) =>
        planAreaM2 * resistancePaSPerM3 / specificWeightPaPerM * Math.Log(fromHeadM / toHeadM);

    /// <summary>Time for the head over a prism to fall from h1 to h2 through a hole without viscosity, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (A/(C_d A_o)) √(2/g) (√h1 − √h2).</para>
    /// <para><b>Range</b>: <see cref="HeadShareRange"/>.</para>
    /// <para><b>Error</b>: exact for constant C_d and a hole much smaller than the tank.</para>
    /// <para><b>Source</b>: Torricelli's law integrated, as in any text on hydraulics (from memory).</para>
    /// <para><b>Checked by</b>: TorricelliTests.cs.</para>
    /// </remarks>
    /// <param name="fromHeadM">Head h1 at the start, m.</param>
    /// <param name="toHeadM">Head h2 at the end, m.</param>
    /// <param name="planAreaM2">Plan area A, m².</param>
    /// <param name="dischargeCoefficient">C_d.</param>
    /// <param name="holeAreaM2">Area of the hole A_o, m².</param>
    /// <param name="gravity">g, m/s².</param>
    internal static double PrismTimeTorricelliS(double fromHeadM, double toHeadM, double planAreaM2, double dischargeCoefficient, double holeAreaM2, double gravity) =>
        planAreaM2 / (dischargeCoefficient * holeAreaM2) * Math.Sqrt(2 / gravity) * (Math.Sqrt(fromHeadM) - Math.Sqrt(toHeadM));

    /// <summary>Time for a cone with its apex down to run empty through a hole at the apex without viscosity, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = 2π tan²β h^2.5/(5 C_d A_o √(2g)).</para>
    /// <para><b>Range</b>: <see cref="HeadShareRange"/>, h2 = 0.</para>
    /// <para><b>Error</b>: exact for constant C_d and a hole much smaller than the cone.</para>
    /// <para><b>Source</b>: Torricelli's law integrated, as in any text on hydraulics (from memory).</para>
    /// <para><b>Checked by</b>: TorricelliTests.cs.</para>
    /// </remarks>
    /// <param name="headM">Head h above the apex at the start, m.</param>
    /// <param name="halfAngleRad">Angle β between wall and axis, rad.</param>
    /// <param name="dischargeCoefficient">C_d.</param>
    /// <param name="holeAreaM2">Area of the hole A_o, m².</param>
    /// <param name="gravity">g, m/s².</param>
    internal static double ConeTimeTorricelliS(double headM, double halfAngleRad, double dischargeCoefficient, double holeAreaM2, double gravity)
    {
        double tangent = Math.Tan(halfAngleRad);
        return 2 * Math.PI * tangent * tangent * headM * headM * Math.Sqrt(headM) / (5 * dischargeCoefficient * holeAreaM2 * Math.Sqrt(2 * gravity));
    }

    /// <summary>Time for a full sphere to run empty through a hole at its lowest point without viscosity, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = 16π R^2.5/(15 C_d A_o √g).</para>
    /// <para><b>Range</b>: <see cref="HeadShareRange"/>, h2 = 0.</para>
    /// <para><b>Error</b>: exact for constant C_d and a hole much smaller than the sphere.</para>
    /// <para><b>Source</b>: Torricelli's law integrated, as in any text on hydraulics (from memory).</para>
    /// <para><b>Checked by</b>: TorricelliTests.cs.</para>
    /// </remarks>
    /// <param name="radiusM">Radius R, m.</param>
    /// <param name="dischargeCoefficient">C_d.</param>
    /// <param name="holeAreaM2">Area of the hole A_o, m².</param>
    /// <param name="gravity">g, m/s².</param>
    internal static double SphereTimeTorricelliS(double radiusM, double dischargeCoefficient, double holeAreaM2, double gravity) =>
        16 * Math.PI * radiusM * radiusM * Math.Sqrt(radiusM) / (15 * dischargeCoefficient * holeAreaM2 * Math.Sqrt(gravity));
}
