namespace FlowSim.Heating;

/// <summary>Published Nusselt numbers of moving air.</summary>
internal static class ForcedConvection
{
    /// <summary>Reynolds times Prandtl number.</summary>
    internal static readonly ValidityRange CrossFlowRange = new("churchill-bernstein 1977", "Re Pr", "", 0.2, 1e7, 0, 1e7);

    /// <summary>Cylinder across a stream, by its diameter, properties at the film temperature.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) · [1 + (Re/282 000)^(5/8)]^(4/5).</para>
    /// <para><b>Range</b>: <see cref="CrossFlowRange"/>.</para>
    /// <para><b>Error</b>: about 20 % (from memory); the paper calls it a lower bound for Re Pr &gt; 0.4, as quoted in the copy.</para>
    /// <para><b>Source</b>: Churchill and Bernstein 1977, J. Heat Transfer 99:300, as given in the source of the open library ht (opened).</para>
    /// <para><b>Checked by</b>: ChurchillBernstein1977Tests.cs.</para>
    /// </remarks>
    /// <param name="reynolds">Reynolds number by diameter.</param>
    /// <param name="prandtl">Prandtl number.</param>
    internal static double CylinderChurchillBernstein1977(double reynolds, double prandtl) =>
        0.3 + 0.62 * Math.Sqrt(reynolds) * Math.Cbrt(prandtl) / Math.Pow(1 + Math.Pow(0.4 / prandtl, 2 / 3.0), 0.25)
            * Math.Pow(1 + Math.Pow(reynolds / 282000, 0.625), 0.8);
}
