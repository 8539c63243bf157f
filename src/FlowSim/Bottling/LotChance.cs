using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace FlowSim.Bottling;

/// <summary>Chance that a lot of normally distributed fills breaks a rule. Kernel: arguments are not checked.</summary>
internal static class LotChance
{
    /// <summary>Chance that the average of a lot is below the label.</summary>
    /// <param name="meanG">Mean of the fills, g.</param>
    /// <param name="scatterG">Standard deviation of a fill, g; above 0.</param>
    /// <param name="lot">Jars in the lot.</param>
    /// <param name="labelG">Label, g.</param>
    internal static double AverageShort(double meanG, double scatterG, int lot, double labelG) =>
        Normal.CDF(0, 1, (labelG - meanG) / scatterG * Math.Sqrt(lot));

    /// <summary>Chance that one jar falls short of the label by more than an amount.</summary>
    /// <param name="meanG">Mean of the fills, g.</param>
    /// <param name="scatterG">Standard deviation of a fill, g; above 0.</param>
    /// <param name="labelG">Label, g.</param>
    /// <param name="shortG">The amount, g.</param>
    internal static double JarShort(double meanG, double scatterG, double labelG, double shortG) =>
        Normal.CDF(0, 1, (labelG - shortG - meanG) / scatterG);

    /// <summary>Chance that more jars of a lot fall short than may.</summary>
    /// <param name="jarShort">Chance that one falls short.</param>
    /// <param name="lot">Jars in the lot.</param>
    /// <param name="allowed">Jars that may.</param>
    internal static double TooManyShort(double jarShort, int lot, int allowed) =>
        allowed >= lot ? 0
        : allowed == 0 ? -SpecialFunctions.Expm1(lot * SpecialFunctions.Log1p(-jarShort))
        : Math.Max(0, 1 - Binomial.CDF(jarShort, lot, allowed));

    /// <summary>At most the chance that a lot breaks any part of a rule: the sum of the chances of the parts.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: P ≤ Φ((Q − μ)√N/σ) + Σ P[Bin(N, Φ((Q − kT − μ)/σ)) &gt; aN]; each limit allows the share a of the lot beyond k times
    /// the tolerable error T.</para>
    /// <para><b>Range</b>: μ at least Q, σ above 0.</para>
    /// <para><b>Error</b>: never too low for normal, independent fills of known σ; too high by what two parts break together.</para>
    /// <para><b>Source</b>: the rule itself, read as a condition on the lot; binomial and normal distributions of MathNet.Numerics; derived for this project.</para>
    /// <para><b>Checked by</b>: LotChanceTests.cs, by drawing lots.</para>
    /// </remarks>
    /// <param name="meanG">Mean of the fills μ, g.</param>
    /// <param name="scatterG">Standard deviation of a fill σ, g.</param>
    /// <param name="lot">Jars in the lot N.</param>
    /// <param name="labelG">Label Q, g.</param>
    /// <param name="toleranceG">Tolerable error T, g; not positive for none.</param>
    /// <param name="limits">How many may be beyond.</param>
    internal static double BreaksRule(double meanG, double scatterG, int lot, double labelG, double toleranceG, IReadOnlyList<ShortfallLimit> limits)
    {
        double sum = AverageShort(meanG, scatterG, lot, labelG);
        if (toleranceG > 0)
        {
            foreach (ShortfallLimit limit in limits)
                sum += TooManyShort(JarShort(meanG, scatterG, labelG, limit.Multiple * toleranceG), lot, Allowed(limit, lot));
        }

        return sum;
    }

    /// <summary>Jars of a lot that may be beyond a limit.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="lot">Jars in the lot.</param>
    internal static int Allowed(ShortfallLimit limit, int lot) => (int)Math.Floor(limit.ShareAllowed.DecimalFractions * lot + 1e-9);
}
