using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace FlowSim.Numerics.Sampling;

/// <summary>The standard normal distribution as the other files need it: true in both tails.</summary>
internal static class StandardNormal
{
    private static readonly GaussLegendreRule UnitRule = new(0, 1, 16);

    public static double Density(double z) => Math.Exp(-0.5 * z * z) / Constants.Sqrt2Pi;

    public static double Cumulative(double z) => 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);

    public static double Above(double z) => Cumulative(-z);

    /// <summary>Quantile; keeps its relative precision down to the smallest probabilities, loses it towards 1 as 1 − p does.</summary>
    public static double Quantile(double probability) => -Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * probability);

    /// <summary>Cumulative probability, kept strictly inside (0, 1).</summary>
    public static double InsideUnit(double z) => Math.Clamp(Cumulative(z), 1e-300, 1 - 1.0 / (1L << 53));

    /// <summary>Probability between two bounds, from the tail in which nothing cancels.</summary>
    public static double Between(double low, double high) =>
        low > 0 ? Cumulative(-low) - Cumulative(-high) : Cumulative(high) - Cumulative(low);

    /// <summary>
    /// Mean and standard deviation of <paramref name="map"/>(z) for a standard normal z truncated to low..high, by Gauss–Legendre
    /// quadrature of the density relative to its peak: for bounds so narrow or so far out that the closed forms cancel.
    /// </summary>
    public static (double Mean, double StandardDeviation) MomentsWithin(double low, double high, Func<double, double> map)
    {
        const int pieces = 40;
        const double negligible = 45; // exp(−45) = 3e-20
        double peak = Math.Clamp(0, low, high);
        // Solves z²/2 − peak²/2 = negligible outwards from the peak.
        double reach = Math.Sqrt(peak * peak + 2 * negligible);
        double start = Math.Max(low, -reach);
        double end = Math.Min(high, reach);
        double length = (end - start) / pieces;
        double weight = 0, first = 0, second = 0;
        double centre = map(peak);
        for (int piece = 0; piece < pieces; piece++)
        {
            for (int i = 0; i < UnitRule.Order; i++)
            {
                double z = start + length * (piece + UnitRule.GetAbscissa(i));
                double w = UnitRule.GetWeight(i) * Math.Exp(0.5 * (peak - z) * (peak + z));
                double off = map(z) - centre;
                weight += w;
                first += w * off;
                second += w * off * off;
            }
        }
        double shift = first / weight;
        return (centre + shift, Math.Sqrt(Math.Max(0, second / weight - shift * shift)));
    }
}
