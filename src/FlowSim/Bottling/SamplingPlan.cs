using MathNet.Numerics.Distributions;

namespace FlowSim.Bottling;

/// <summary>A check of a lot by samples, as a rule lays it down: jars that fall short are counted in one sample or two, and the average is judged by Student's t.</summary>
/// <param name="LotFrom">Smallest lot it is for.</param>
/// <param name="LotTo">Largest lot it is for.</param>
/// <param name="First">Jars of the first sample.</param>
/// <param name="FirstAccept">Short jars up to which the first sample is accepted.</param>
/// <param name="FirstReject">Short jars from which it is rejected; between the two a second sample is drawn.</param>
/// <param name="Second">Jars of the second sample; 0 for none.</param>
/// <param name="BothAccept">Short jars in both samples up to which the lot is accepted.</param>
/// <param name="ForAverage">Jars that the average is judged by.</param>
public sealed record SamplingPlan(int LotFrom, int LotTo, int First, int FirstAccept, int FirstReject, int Second, int BothAccept, int ForAverage)
{
    /// <summary>Level of Student's t by which the average is judged.</summary>
    public const double AverageLevel = 0.995;

    private const int QuadraturePoints = 128;

    /// <summary>Chance that the count is accepted when each jar falls short with some chance.</summary>
    /// <param name="shortShare">Chance that a jar falls short, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The chance is not within 0 to 1.</exception>
    public double ChanceThatCountIsAccepted(double shortShare)
    {
        EquipmentCheck.Within(shortShare, 0, 1, "", nameof(shortShare));
        double accepted = Binomial.CDF(shortShare, First, FirstAccept);
        for (int found = FirstAccept + 1; found < FirstReject && Second > 0; found++)
            accepted += Binomial.PMF(shortShare, First, found) * Binomial.CDF(shortShare, Second, BothAccept - found);
        return Math.Clamp(accepted, 0, 1);
    }

    /// <summary>The factor k of the judgement "sample average at least label − k s".</summary>
    /// <remarks>
    /// <para><b>Equation</b>: k = t(0.995; n − 1)/√n.</para>
    /// <para><b>Range</b>: n at least 2.</para>
    /// <para><b>Error</b>: exact for normally distributed fills.</para>
    /// <para><b>Source</b>: Council Directive 76/211/EEC, Annex II, 2.3 (opened in the copy kept by legislation.gov.uk).</para>
    /// <para><b>Checked by</b>: Eec76211Tests.cs.</para>
    /// </remarks>
    /// <param name="sample">Jars in the sample n.</param>
    internal static double AverageFactor(int sample) => StudentT.InvCDF(0, 1, sample - 1, AverageLevel) / Math.Sqrt(sample);

    /// <summary>Chance that the average is accepted when fills are normally distributed.</summary>
    /// <param name="aboveLabelInScatters">Mean of the fills less the label, in standard deviations of a fill.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a finite number.</exception>
    public double ChanceThatAverageIsAccepted(double aboveLabelInScatters)
    {
        EquipmentCheck.Within(aboveLabelInScatters, -1e6, 1e6, "", nameof(aboveLabelInScatters));
        double k = AverageFactor(ForAverage), root = Math.Sqrt(ForAverage);
        int freedom = ForAverage - 1;

        // Over the sample's own scatter, by its quantiles: the mean and the scatter of a normal sample are independent.
        return Math.Clamp(MathNet.Numerics.Integrate.GaussLegendre(
            q => Normal.CDF(0, 1, root * (aboveLabelInScatters + k * Math.Sqrt(ChiSquared.InvCDF(freedom, q) / freedom))), 0, 1, QuadraturePoints), 0, 1);
    }
}
