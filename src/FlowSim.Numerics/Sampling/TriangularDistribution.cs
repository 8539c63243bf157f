namespace FlowSim.Numerics.Sampling;

/// <summary>Triangular distribution.</summary>
public sealed class TriangularDistribution : Distribution
{
    private readonly double _rise;
    private readonly double _fall;

    /// <summary>A triangular distribution; the mode may lie at an end.</summary>
    /// <param name="low">Lowest value, finite.</param>
    /// <param name="mode">Likeliest value, from low to high.</param>
    /// <param name="high">Highest value, finite, above the lowest.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public TriangularDistribution(double low, double mode, double high)
    {
        Lowest = Arguments.Finite(low);
        Highest = Arguments.Finite(high);
        if (!(high > low)) throw Arguments.Bad(nameof(high), high, FormattableString.Invariant($"must be above low, {low}"));
        if (!double.IsFinite(high - low)) throw Arguments.Bad(nameof(high), high, FormattableString.Invariant($"is too far from low, {low}, for a finite width"));
        Mode = mode >= low && mode <= high
            ? mode
            : throw Arguments.Bad(nameof(mode), mode, FormattableString.Invariant($"must lie within {low} to {high}"));
        _rise = mode - low;
        _fall = high - mode;
    }

    /// <summary>Likeliest value.</summary>
    public double Mode { get; }

    /// <inheritdoc/>
    public override double Mean => Mode + (_fall - _rise) / 3;

    // (a² + b² + c² − ab − ac − bc)/18 in the two legs, so that a large offset cannot cancel.
    /// <inheritdoc/>
    public override double StandardDeviation => _fall > _rise
        ? _fall * Math.Sqrt((1 + _rise / _fall * (1 + _rise / _fall)) / 18)
        : _rise * Math.Sqrt((1 + _fall / _rise * (1 + _fall / _rise)) / 18);

    /// <inheritdoc/>
    public override double Lowest { get; }

    /// <inheritdoc/>
    public override double Highest { get; }

    private double Width => Highest - Lowest;

    /// <inheritdoc/>
    public override double Quantile(double probability) =>
        Arguments.Probability(probability) * Width <= _rise
            ? Math.Min(Highest, Lowest + Along(_rise, probability))
            : QuantileFromAbove(1 - probability);

    /// <inheritdoc/>
    public override double Cumulative(double value)
    {
        Arguments.NotNaN(value);
        if (value <= Lowest) return 0;
        if (value >= Highest) return 1;
        return value <= Mode ? (value - Lowest) / Width * ((value - Lowest) / _rise) : 1 - Above(value);
    }

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"triangular, {Lowest} to {Highest}, likeliest {Mode}");

    internal override double Above(double value)
    {
        if (value >= Highest) return 0;
        return value > Mode ? (Highest - value) / Width * ((Highest - value) / _fall) : 1 - Cumulative(value);
    }

    internal override double QuantileFromAbove(double probability) =>
        probability * Width <= _fall
            ? Math.Max(Lowest, Highest - Along(_fall, probability))
            : Math.Min(Highest, Lowest + Along(_rise, 1 - probability));

    // A leg of no length holds no probability; at its full share this is the leg itself, to the last bit.
    private double Along(double leg, double probability) => leg == 0 ? 0 : leg * Math.Sqrt(probability * Width / leg);

    // The density is linear on either side of the mode, so Simpson's rule is exact for the density times a square.
    internal override (double Mean, double StandardDeviation) MomentsWithin(TruncatedDistribution truncated)
    {
        double centre = 0.5 * truncated.Lowest + 0.5 * truncated.Highest;
        double weight = 0, first = 0, second = 0;
        Add(truncated.Lowest, Math.Min(truncated.Highest, Mode));
        Add(Math.Max(truncated.Lowest, Mode), truncated.Highest);
        double shift = first / weight;
        return (centre + shift, Math.Sqrt(Math.Max(0, second / weight - shift * shift)));

        void Add(double from, double to)
        {
            if (!(to > from)) return;
            double middle = 0.5 * from + 0.5 * to;
            bool rising = to <= Mode;
            At(from, 1);
            At(middle, 4);
            At(to, 1);

            void At(double x, double share)
            {
                double w = share * (to - from) * (rising ? (x - Lowest) / _rise : (Highest - x) / _fall);
                weight += w;
                first += w * (x - centre);
                second += w * (x - centre) * (x - centre);
            }
        }
    }
}
