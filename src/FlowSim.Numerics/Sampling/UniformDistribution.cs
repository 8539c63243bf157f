namespace FlowSim.Numerics.Sampling;

/// <summary>Uniform (rectangular) distribution.</summary>
public sealed class UniformDistribution : Distribution
{
    /// <summary>A uniform distribution.</summary>
    /// <param name="low">Lowest value, finite.</param>
    /// <param name="high">Highest value, finite, above the lowest.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public UniformDistribution(double low, double high)
    {
        Lowest = Arguments.Finite(low);
        Highest = Arguments.Finite(high);
        if (!(high > low)) throw Arguments.Bad(nameof(high), high, FormattableString.Invariant($"must be above low, {low}"));
        if (!double.IsFinite(high - low)) throw Arguments.Bad(nameof(high), high, FormattableString.Invariant($"is too far from low, {low}, for a finite width"));
    }

    /// <inheritdoc/>
    public override double Mean => Lowest + 0.5 * (Highest - Lowest);

    /// <inheritdoc/>
    public override double StandardDeviation => (Highest - Lowest) / Math.Sqrt(12);

    /// <inheritdoc/>
    public override double Lowest { get; }

    /// <inheritdoc/>
    public override double Highest { get; }

    /// <inheritdoc/>
    public override double Quantile(double probability) =>
        Math.Min(Highest, Lowest + Arguments.Probability(probability) * (Highest - Lowest));

    /// <inheritdoc/>
    public override double Cumulative(double value) =>
        Math.Clamp((Arguments.NotNaN(value) - Lowest) / (Highest - Lowest), 0, 1);

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"uniform, {Lowest} to {Highest}");

    internal override Distribution Truncated(double low, double high) =>
        low < high ? new UniformDistribution(low, high) : throw NothingBetween(low, high);
}
