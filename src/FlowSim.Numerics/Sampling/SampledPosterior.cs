namespace FlowSim.Numerics.Sampling;

/// <summary>Draws from a density, as <see cref="EnsembleSampler"/> made them, and how many independent ones they are worth.</summary>
public sealed class SampledPosterior
{
    private readonly double[] _draws;
    private readonly double[] _logDensities;
    private readonly EmpiricalDistribution?[] _marginals;

    internal SampledPosterior(int dimensions, double[] draws, double[] logDensities)
    {
        Dimensions = dimensions;
        _draws = draws;
        _logDensities = logDensities;
        _marginals = new EmpiricalDistribution?[dimensions];
    }

    /// <summary>What the draws are good for.</summary>
    public required SamplerStatus Status { get; init; }

    /// <summary>The status in a sentence.</summary>
    public required string Message { get; init; }

    /// <summary>Coordinates of a draw.</summary>
    public int Dimensions { get; }

    /// <summary>Number of draws: walkers × steps kept.</summary>
    public int Count => _logDensities.Length;

    /// <summary>Walkers.</summary>
    public required int Walkers { get; init; }

    /// <summary>Steps of the ensemble, burn-in among them.</summary>
    public required int Steps { get; init; }

    /// <summary>Steps dropped at the start.</summary>
    public required int BurnIn { get; init; }

    /// <summary>Evaluations of the density.</summary>
    public required long Evaluations { get; init; }

    /// <summary>Share of the moves after the burn-in that were accepted, 0 to 1; 0.2 to 0.5 is usual.</summary>
    public required double AcceptanceRate { get; init; }

    /// <summary>Integrated autocorrelation time of each coordinate, steps.</summary>
    public required IReadOnlyList<double> AutocorrelationTime { get; init; }

    /// <summary>Independent draws that those of each coordinate are worth when its mean is asked for.</summary>
    public required IReadOnlyList<double> EffectiveSampleSize { get; init; }

    /// <summary>Split R̂ of each coordinate over the walkers: 1 when they agree; +∞ when none moved.</summary>
    public required IReadOnlyList<double> SplitRHat { get; init; }

    /// <summary>A draw: step by step, the walkers of a step one after the other.</summary>
    /// <param name="index">0 to <see cref="Count"/> − 1.</param>
    public ReadOnlySpan<double> Draw(int index) => _draws.AsSpan(Arguments.From(0, index, Count - 1) * Dimensions, Dimensions);

    /// <summary>Logarithm of the density at a draw.</summary>
    /// <param name="index">0 to <see cref="Count"/> − 1.</param>
    public double LogDensity(int index) => _logDensities[Arguments.From(0, index, Count - 1)];

    /// <summary>All draws of one coordinate.</summary>
    /// <param name="dimension">0 to <see cref="Dimensions"/> − 1.</param>
    public double[] Coordinate(int dimension)
    {
        Arguments.From(0, dimension, Dimensions - 1);
        double[] values = new double[Count];
        for (int i = 0; i < values.Length; i++) values[i] = _draws[i * Dimensions + dimension];
        return values;
    }

    /// <summary>Draws evenly spaced over all, row by row: neighbours repeat each other, so that a few say as much to a costly model.</summary>
    /// <param name="count">How many, 1 to <see cref="Count"/>.</param>
    public double[] Spaced(int count)
    {
        Arguments.From(1, count, Count);
        double[] chosen = new double[count * Dimensions];
        for (int i = 0; i < count; i++) Draw((int)((2L * i + 1) * Count / (2L * count))).CopyTo(chosen.AsSpan(i * Dimensions));
        return chosen;
    }

    /// <summary>Distribution of one coordinate.</summary>
    /// <param name="dimension">0 to <see cref="Dimensions"/> − 1.</param>
    public EmpiricalDistribution Marginal(int dimension) =>
        _marginals[Arguments.From(0, dimension, Dimensions - 1)] ??= new EmpiricalDistribution(Coordinate(dimension));

    /// <summary>Value that a share of the draws of a coordinate lie below.</summary>
    /// <param name="dimension">0 to <see cref="Dimensions"/> − 1.</param>
    /// <param name="probability">Share, 0 to 1.</param>
    public double Quantile(int dimension, double probability) => Marginal(dimension).Quantile(probability);

    /// <summary>Mean of a coordinate; its standard error is the standard deviation over √<see cref="EffectiveSampleSize"/>.</summary>
    /// <param name="dimension">0 to <see cref="Dimensions"/> − 1.</param>
    public double Mean(int dimension)
    {
        double mean = 0;
        foreach (double value in Coordinate(dimension)) mean += value / Count;
        return mean;
    }

    /// <summary>Covariance of all coordinates.</summary>
    public double[,] Covariance()
    {
        double[] means = [.. Enumerable.Range(0, Dimensions).Select(Mean)];
        double[,] covariance = new double[Dimensions, Dimensions];
        for (int i = 0; i < Count; i++)
        {
            ReadOnlySpan<double> draw = Draw(i);
            for (int a = 0; a < Dimensions; a++)
            {
                for (int b = 0; b <= a; b++) covariance[a, b] += (draw[a] - means[a]) * (draw[b] - means[b]) / (Count - 1);
            }
        }
        for (int a = 0; a < Dimensions; a++)
        {
            for (int b = a + 1; b < Dimensions; b++) covariance[a, b] = covariance[b, a];
        }
        return covariance;
    }
}
