namespace FlowSim.Numerics.Sampling;

/// <summary>Normal (Gaussian) distribution.</summary>
/// <param name="mean">Mean, finite.</param>
/// <param name="standardDeviation">Standard deviation, finite and above 0: a number without spread needs no distribution.</param>
/// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
public sealed class NormalDistribution(double mean, double standardDeviation) : Distribution
{
    /// <summary>Half the width of the interval that holds 95 %, in standard deviations: Φ⁻¹(0.975).</summary>
    public const double HalfWidth95 = 1.959963984540054;

    /// <inheritdoc/>
    public override double Mean { get; } = Arguments.Finite(mean);

    /// <inheritdoc/>
    public override double StandardDeviation { get; } = Arguments.Positive(standardDeviation);

    /// <inheritdoc/>
    public override double Lowest => double.NegativeInfinity;

    /// <inheritdoc/>
    public override double Highest => double.PositiveInfinity;

    /// <inheritdoc/>
    public override double Quantile(double probability) =>
        Mean + StandardDeviation * StandardNormal.Quantile(Arguments.Probability(probability));

    /// <inheritdoc/>
    public override double Cumulative(double value) => StandardNormal.Cumulative(Standardised(Arguments.NotNaN(value)));

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"normal, {Mean} ± {StandardDeviation}");

    internal override double Above(double value) => StandardNormal.Above(Standardised(value));

    internal override double QuantileFromAbove(double probability) => Mean - StandardDeviation * StandardNormal.Quantile(probability);

    // Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 1, 10.1 (from memory), while it does not cancel.
    internal override (double Mean, double StandardDeviation) MomentsWithin(TruncatedDistribution truncated)
    {
        double low = Standardised(truncated.Lowest);
        double high = Standardised(truncated.Highest);
        double probability = StandardNormal.Between(low, high);
        if (high - low < 0.5 || probability < 1e-3)
        {
            return StandardNormal.MomentsWithin(low, high, z => Mean + StandardDeviation * z);
        }
        double atLow = StandardNormal.Density(low);
        double atHigh = StandardNormal.Density(high);
        double shift = (atLow - atHigh) / probability;
        double variance = 1 + (Weighted(low, atLow) - Weighted(high, atHigh)) / probability - shift * shift;
        return (Mean + StandardDeviation * shift, StandardDeviation * Math.Sqrt(variance));

        static double Weighted(double z, double density) => density == 0 ? 0 : z * density;
    }

    private double Standardised(double value) => (value - Mean) / StandardDeviation;
}
