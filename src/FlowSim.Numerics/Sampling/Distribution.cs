namespace FlowSim.Numerics.Sampling;

/// <summary>
/// A distribution of one number. Immutable. Draws are made by putting uniform numbers through <see cref="Quantile"/>, so that
/// quasi-random points keep their evenness.
/// </summary>
public abstract class Distribution
{
    /// <summary>The value below which a share of the probability lies; never falls as the share rises.</summary>
    /// <param name="probability">Share, 0 to 1 inclusive; an unbounded distribution answers ±∞ at the ends.</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is not within 0 to 1.</exception>
    public abstract double Quantile(double probability);

    /// <summary>Probability of a value at most this, 0 to 1.</summary>
    /// <param name="value">Any number or ±∞.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN.</exception>
    public abstract double Cumulative(double value);

    /// <summary>Mean.</summary>
    public abstract double Mean { get; }

    /// <summary>Standard deviation.</summary>
    public abstract double StandardDeviation { get; }

    /// <summary>Lowest value; −∞ when there is none.</summary>
    public abstract double Lowest { get; }

    /// <summary>Highest value; +∞ when there is none.</summary>
    public abstract double Highest { get; }

    /// <summary>Median.</summary>
    public double Median => Quantile(0.5);

    /// <summary>
    /// This distribution given that the value lies from <paramref name="low"/> to <paramref name="high"/> (truncated, not clamped:
    /// what lay outside is spread over the inside in proportion). The object itself when it lies inside already.
    /// </summary>
    /// <param name="low">Low bound; −∞ for none.</param>
    /// <param name="high">High bound, above the low one; +∞ for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bounds are NaN or not in order, or no probability lies between them.</exception>
    public Distribution Within(double low, double high)
    {
        if (double.IsNaN(low)) throw Arguments.Bad(nameof(low), low, "must be a number or −∞");
        if (!(high > low)) throw Arguments.Bad(nameof(high), high, FormattableString.Invariant($"must be above the low bound {low}"));
        return low <= Lowest && high >= Highest ? this : Truncated(Math.Max(low, Lowest), Math.Min(high, Highest));
    }

    private protected static ArgumentOutOfRangeException NothingBetween(double low, double high) =>
        Arguments.Bad(nameof(low), low, FormattableString.Invariant($"leaves no probability up to the high bound {high}"));

    /// <summary>Truncation to bounds that lie within <see cref="Lowest"/> to <see cref="Highest"/>, or leave nothing.</summary>
    internal virtual Distribution Truncated(double low, double high) =>
        low < high ? new TruncatedDistribution(this, low, high) : throw NothingBetween(low, high);

    /// <summary>Probability of a value below this one; differs from <see cref="Cumulative"/> only where single values carry probability.</summary>
    internal virtual double Below(double value) => Cumulative(value);

    /// <summary>Probability above a value, without the cancellation of 1 − F in the upper tail.</summary>
    internal virtual double Above(double value) => 1 - Cumulative(value);

    /// <summary>Probability of a value at least this one; differs from <see cref="Above"/> only where single values carry probability.</summary>
    internal virtual double AtLeast(double value) => Above(value);

    /// <summary>The value above which a share lies, without the rounding of 1 − p in the upper tail.</summary>
    internal virtual double QuantileFromAbove(double probability) => Quantile(1 - probability);

    /// <summary>Mean and standard deviation of this distribution truncated to the bounds; by quadrature where a family knows no closed form.</summary>
    internal virtual (double Mean, double StandardDeviation) MomentsWithin(TruncatedDistribution truncated)
    {
        // Double-exponential quadrature bears the steep ends of a quantile function.
        const double error = 1e-10;
        double scale = truncated.Highest - truncated.Lowest;
        double tolerance = error * (double.IsFinite(scale) ? scale : StandardDeviation);
        double mean = MathNet.Numerics.Integration.DoubleExponentialTransformation.Integrate(Inside, 0, 1, tolerance);
        double variance = MathNet.Numerics.Integration.DoubleExponentialTransformation.Integrate(
            p => (Inside(p) - mean) * (Inside(p) - mean), 0, 1, tolerance * tolerance / error);
        return (mean, Math.Sqrt(variance));

        double Inside(double probability) => truncated.Quantile(Math.Clamp(probability, 1e-300, 1 - 1e-16));
    }
}
