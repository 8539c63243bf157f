namespace FlowSim.Numerics.Sampling;

/// <summary>Another distribution given that the value lies between two bounds.</summary>
internal sealed class TruncatedDistribution : Distribution
{
    private readonly Distribution _whole;

    // Of two equal formulas the one whose tail does not cancel.
    private readonly bool _fromAbove;
    private readonly double _outside;
    private readonly double _probability;
    private readonly Lazy<(double Mean, double StandardDeviation)> _moments;

    /// <summary>Truncation of a distribution to bounds within its own.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No probability lies between the bounds.</exception>
    public TruncatedDistribution(Distribution whole, double low, double high)
    {
        _whole = whole;
        Lowest = low;
        Highest = high;
        _fromAbove = whole.Below(low) > 0.5;
        _outside = _fromAbove ? whole.Above(high) : whole.Below(low);
        _probability = (_fromAbove ? whole.AtLeast(low) : whole.Cumulative(high)) - _outside;
        if (!(_probability > 0)) throw NothingBetween(low, high);
        _moments = new(() => _whole.MomentsWithin(this));
    }

    public override double Mean => Math.Clamp(_moments.Value.Mean, Lowest, Highest);

    public override double StandardDeviation => _moments.Value.StandardDeviation;

    public override double Lowest { get; }

    public override double Highest { get; }

    public override double Quantile(double probability)
    {
        Arguments.Probability(probability);
        if (probability == 0) return Lowest;
        if (probability == 1) return Highest;
        double value = _fromAbove
            ? _whole.QuantileFromAbove(_outside + (1 - probability) * _probability)
            : _whole.Quantile(Math.Min(1, _outside + probability * _probability));
        return Math.Clamp(value, Lowest, Highest);
    }

    public override double Cumulative(double value)
    {
        if (Arguments.NotNaN(value) < Lowest) return 0;
        if (value >= Highest) return 1;
        return Math.Clamp(
            _fromAbove ? 1 - (_whole.Above(value) - _outside) / _probability : (_whole.Cumulative(value) - _outside) / _probability, 0, 1);
    }

    public override string ToString() => FormattableString.Invariant($"{_whole}, within {Lowest} to {Highest}");

    internal override Distribution Truncated(double low, double high) => _whole.Truncated(low, high);

    internal override double Below(double value)
    {
        if (value <= Lowest) return 0;
        if (value > Highest) return 1;
        return Math.Clamp(
            _fromAbove ? 1 - (_whole.AtLeast(value) - _outside) / _probability : (_whole.Below(value) - _outside) / _probability, 0, 1);
    }

    internal override double Above(double value) => Math.Clamp(
        _fromAbove ? (_whole.Above(value) - _outside) / _probability : 1 - Cumulative(value), 0, 1);

    internal override double AtLeast(double value) => Math.Clamp(
        _fromAbove ? (_whole.AtLeast(value) - _outside) / _probability : 1 - Below(value), 0, 1);
}
