using MathNet.Numerics;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Log-normal distribution: its logarithm is normal. "×/÷ f" about a median is a log standard deviation of ln f: 68 % of the values lie
/// between median/f and median·f.
/// </summary>
public sealed class LogNormalDistribution : Distribution
{
    // Beyond, the moments are numbers without meaning (e^100 medians) and soon none at all.
    private const double HighestLogStandardDeviation = 10;

    private readonly double _median;

    /// <summary>A log-normal distribution.</summary>
    /// <param name="median">Median, finite and above 0.</param>
    /// <param name="logStandardDeviation">Standard deviation of the natural logarithm, above 0, at most 10.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public LogNormalDistribution(double median, double logStandardDeviation)
    {
        _median = Arguments.Positive(median);
        LogStandardDeviation = logStandardDeviation is > 0 and <= HighestLogStandardDeviation
            ? logStandardDeviation
            : throw Arguments.Bad(nameof(logStandardDeviation), logStandardDeviation, FormattableString.Invariant($"must be above 0 and at most {HighestLogStandardDeviation}"));
        double square = logStandardDeviation * logStandardDeviation;
        Mean = median * Math.Exp(0.5 * square);
        StandardDeviation = Mean * Math.Sqrt(SpecialFunctions.Expm1(square));
        if (!double.IsFinite(StandardDeviation))
        {
            throw Arguments.Bad(nameof(median), median, "is too large for a finite standard deviation");
        }
    }

    /// <summary>Standard deviation of the natural logarithm.</summary>
    public double LogStandardDeviation { get; }

    /// <inheritdoc/>
    public override double Mean { get; }

    /// <inheritdoc/>
    public override double StandardDeviation { get; }

    /// <inheritdoc/>
    public override double Lowest => 0;

    /// <inheritdoc/>
    public override double Highest => double.PositiveInfinity;

    /// <inheritdoc/>
    public override double Quantile(double probability) =>
        _median * Math.Exp(LogStandardDeviation * StandardNormal.Quantile(Arguments.Probability(probability)));

    /// <inheritdoc/>
    public override double Cumulative(double value) =>
        Arguments.NotNaN(value) <= 0 ? 0 : StandardNormal.Cumulative(Standardised(value));

    /// <inheritdoc/>
    public override string ToString() =>
        FormattableString.Invariant($"log-normal, {_median} ×/÷ {Math.Exp(LogStandardDeviation)}");

    internal override double Above(double value) => value <= 0 ? 1 : StandardNormal.Above(Standardised(value));

    internal override double QuantileFromAbove(double probability) =>
        _median * Math.Exp(-LogStandardDeviation * StandardNormal.Quantile(probability));

    // E[xᵏ; low < x < high] = medianᵏ exp(k²s²/2) [Φ(b − ks) − Φ(a − ks)], while it does not cancel.
    internal override (double Mean, double StandardDeviation) MomentsWithin(TruncatedDistribution truncated)
    {
        double s = LogStandardDeviation;
        double low = Standardised(truncated.Lowest);
        double high = Standardised(truncated.Highest);
        double probability = StandardNormal.Between(low, high);
        double first = Math.Exp(0.5 * s * s) * StandardNormal.Between(low - s, high - s) / probability;
        double second = Math.Exp(2 * s * s) * StandardNormal.Between(low - 2 * s, high - 2 * s) / probability;
        double variance = second - first * first;
        return variance > 1e-4 * second
            ? (_median * first, _median * Math.Sqrt(variance))
            : StandardNormal.MomentsWithin(low, high, z => _median * Math.Exp(s * z));
    }

    private double Standardised(double value) =>
        value == 0 ? double.NegativeInfinity : Math.Log(value / _median) / LogStandardDeviation;
}
