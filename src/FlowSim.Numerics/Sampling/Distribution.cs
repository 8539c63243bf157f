namespace FlowSim.Numerics.Sampling;

/// <summary>A distribution of one number.</summary>
public abstract class Distribution
{
    /// <summary>The value below which a share of the probability lies.</summary>
    /// <param name="probability">Share, 0 to 1; an unbounded distribution answers ±∞ at the ends.</param>
    public abstract double Quantile(double probability);

    /// <summary>Probability of a value at most this.</summary>
    /// <param name="value">Value.</param>
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
}
