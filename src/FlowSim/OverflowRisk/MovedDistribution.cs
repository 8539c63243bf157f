using FlowSim.Numerics.Sampling;

namespace FlowSim.OverflowRisk;

/// <summary>A distribution carried to another middle: by a distance, or by a ratio where the spread is a factor.</summary>
internal sealed class MovedDistribution : Distribution
{
    private readonly Distribution _from;
    private readonly double _factor;
    private readonly double _offset;

    private MovedDistribution(Distribution from, double factor, double offset) => (_from, _factor, _offset) = (from, factor, offset);

    /// <summary>Whether it is a log-normal distribution still: a moved median.</summary>
    public bool IsLogNormal => _from is LogNormalDistribution && _offset == 0;

    /// <summary>Whether it is a normal distribution still.</summary>
    public bool IsNormal => _from is NormalDistribution;

    /// <inheritdoc/>
    public override double Mean => (_factor * _from.Mean) + _offset;

    /// <inheritdoc/>
    public override double StandardDeviation => _factor * _from.StandardDeviation;

    /// <inheritdoc/>
    public override double Lowest => (_factor * _from.Lowest) + _offset;

    /// <inheritdoc/>
    public override double Highest => (_factor * _from.Highest) + _offset;

    /// <summary>Carries a spread so that its median comes to lie at a value.</summary>
    /// <param name="spread">Spread.</param>
    /// <param name="middle">The new median; above 0 for a log-normal spread.</param>
    public static Distribution To(Distribution spread, double middle)
    {
        double median = spread.Median;
        if (median == middle)
            return spread;
        return spread is LogNormalDistribution && middle > 0
            ? new MovedDistribution(spread, middle / median, 0)
            : new MovedDistribution(spread, 1, middle - median);
    }

    /// <inheritdoc/>
    public override double Quantile(double probability) => (_factor * _from.Quantile(probability)) + _offset;

    /// <inheritdoc/>
    public override double Cumulative(double value) => _from.Cumulative((value - _offset) / _factor);

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{_from}, moved to {Median}");
}
