namespace FlowSim.Numerics.Sampling;

/// <summary>
/// The distribution of measured values, as its quantile function interpolates them: definition 5 of Hyndman and Fan (1996, The American
/// Statistician 50, 361–365; from memory), linear between the k-th value in order at a share of (k − ½)/n, flat beyond the ends. Nothing is
/// ever drawn outside the values given, and the mean is theirs exactly. <see cref="Mean"/> and <see cref="StandardDeviation"/> are those of
/// what <see cref="Quantile"/> draws: the standard deviation is a little below that of the values.
/// </summary>
public sealed class EmpiricalDistribution : Distribution
{
    private readonly double[] _values;

    /// <summary>A distribution of measured values.</summary>
    /// <param name="values">At least two finite values, in any order; repeats are allowed.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than two values, or one is not finite.</exception>
    public EmpiricalDistribution(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count < 2)
        {
            throw new ArgumentOutOfRangeException(nameof(values), values.Count, $"values has {values.Count} but must have at least 2.");
        }
        _values = [.. values];
        foreach (double value in _values)
        {
            if (!double.IsFinite(value)) throw Arguments.Bad(nameof(values), value, "must all be finite numbers");
        }
        Array.Sort(_values);
        if (!double.IsFinite(Highest - Lowest)) throw Arguments.Bad(nameof(values), Highest, "are too far apart for a finite range");
        (Mean, StandardDeviation) = Moments(0, 1);
    }

    /// <inheritdoc/>
    public override double Mean { get; }

    /// <inheritdoc/>
    public override double StandardDeviation { get; }

    /// <inheritdoc/>
    public override double Lowest => _values[0];

    /// <inheritdoc/>
    public override double Highest => _values[^1];

    private int Count => _values.Length;

    /// <inheritdoc/>
    public override double Quantile(double probability)
    {
        double place = Arguments.Probability(probability) * Count - 0.5;
        if (place <= 0) return Lowest;
        if (place >= Count - 1) return Highest;
        int below = (int)place;
        return Math.Min(_values[below + 1], _values[below] + (place - below) * (_values[below + 1] - _values[below]));
    }

    /// <inheritdoc/>
    public override double Cumulative(double value)
    {
        Arguments.NotNaN(value);
        if (value < Lowest) return 0;
        if (value >= Highest) return 1;
        int above = FirstIndex(value, orEqual: false);
        return Between(above, value);
    }

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{Count} values, {Lowest} to {Highest}");

    internal override double Below(double value)
    {
        if (value <= Lowest) return 0;
        if (value > Highest) return 1;
        return Between(FirstIndex(value, orEqual: true), value);
    }

    internal override double AtLeast(double value) => 1 - Below(value);

    internal override Distribution Truncated(double low, double high) =>
        low <= high && Cumulative(high) > Below(low) ? new TruncatedDistribution(this, low, high) : throw NothingBetween(low, high);

    internal override (double Mean, double StandardDeviation) MomentsWithin(TruncatedDistribution truncated) =>
        Moments(Below(truncated.Lowest), Cumulative(truncated.Highest));

    /// <summary>Exact moments of the piecewise linear quantile function between two shares.</summary>
    private (double Mean, double StandardDeviation) Moments(double from, double to)
    {
        double centre = Quantile(0.5 * (from + to));
        double first = 0, second = 0;
        double start = from;
        int knot = Math.Max(0, (int)Math.Ceiling(from * Count - 0.5));
        while (start < to)
        {
            double end = knot < Count ? Math.Clamp((knot + 0.5) / Count, start, to) : to;
            double a = Quantile(start) - centre;
            double b = Quantile(end) - centre;
            first += (end - start) * 0.5 * (a + b);
            second += (end - start) * (a * a + a * b + b * b) / 3;
            start = end;
            knot++;
        }
        double shift = first / (to - from);
        return (centre + shift, Math.Sqrt(Math.Max(0, second / (to - from) - shift * shift)));
    }

    /// <summary>Share at a value that lies between the values at index − 1 and index.</summary>
    private double Between(int index, double value) =>
        (index - 0.5 + (value - _values[index - 1]) / (_values[index] - _values[index - 1])) / Count;

    /// <summary>Index of the first value above (or at, or above) a value.</summary>
    private int FirstIndex(double value, bool orEqual)
    {
        int low = 0, high = Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            bool reached = orEqual ? _values[middle] >= value : _values[middle] > value;
            if (reached) high = middle;
            else low = middle + 1;
        }
        return low;
    }
}
