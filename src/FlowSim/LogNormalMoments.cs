using MathNet.Numerics;

namespace FlowSim;

/// <summary>Moments of log-normal sizes between two sizes.</summary>
internal static class LogNormalMoments
{
    /// <summary>Spread of the size distribution.</summary>
    internal static readonly ValidityRange SpreadRange = new("log-normal sizes", "ln-sd", "", 0.05, 2);

    /// <summary>Partial moment E[D^n; lo &lt; D &lt; hi] of log-normal sizes, mⁿ.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: E = D50ⁿ e^(n²s²/2) [Φ((ln(hi/D50) − n s²)/s) − Φ((ln(lo/D50) − n s²)/s)].</para>
    /// <para><b>Range</b>: <see cref="SpreadRange"/>.</para>
    /// <para><b>Error</b>: exact; the difference is taken in the tail where both terms are small.</para>
    /// <para><b>Source</b>: partial moments of the log-normal distribution, as in Aitchison and Brown 1957, The Lognormal
    /// Distribution (from memory).</para>
    /// <para><b>Checked by</b>: LogNormalMomentsTests.cs, against quadrature.</para>
    /// </remarks>
    /// <param name="order">Order n, any whole number.</param>
    /// <param name="medianM">Median size D50, m.</param>
    /// <param name="lnSpread">Standard deviation of ln D, s.</param>
    /// <param name="lowM">Lower size lo, m; may be 0.</param>
    /// <param name="highM">Upper size hi, m; may be infinite.</param>
    internal static double Partial(int order, double medianM, double lnSpread, double lowM, double highM)
    {
        if (!(highM > lowM))
            return 0;

        double shift = order * lnSpread * lnSpread;
        double low = (Math.Log(lowM / medianM) - shift) / lnSpread;
        double high = (Math.Log(highM / medianM) - shift) / lnSpread;
        double share = low > 0
            ? (SpecialFunctions.Erfc(low / Constants.Sqrt2) - SpecialFunctions.Erfc(high / Constants.Sqrt2)) / 2
            : (SpecialFunctions.Erfc(-high / Constants.Sqrt2) - SpecialFunctions.Erfc(-low / Constants.Sqrt2)) / 2;
        return Math.Pow(medianM, order) * Math.Exp(order * shift / 2) * share;
    }
}
