namespace FlowSim.Numerics.Sampling;

/// <summary>How well a number is to be known, and how many points that may cost.</summary>
public sealed record PrecisionGoal
{
    /// <summary>Half-width of the interval that is good enough; 0 asks nothing.</summary>
    public double Absolute { get; init => field = Checked(value, nameof(Absolute)); }

    /// <summary>Half-width as a share of the number that is good enough; 0 asks nothing. Either goal alone is enough.</summary>
    public double Relative { get; init => field = Checked(value, nameof(Relative)); }

    /// <summary>Points per replicate that are not exceeded, at least 1.</summary>
    public int HighestPointsPerReplicate { get; init => field = Arguments.From(1, value, name: nameof(HighestPointsPerReplicate)); } = 1 << 14;

    /// <summary>Whether an estimate is good enough.</summary>
    /// <param name="estimate">Estimate.</param>
    public bool IsMetBy(IEstimate estimate)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        double half = 0.5 * (estimate.High - estimate.Low);
        return half <= Absolute || half <= Relative * Math.Abs(estimate.Value);
    }

    private static double Checked(double value, string name) =>
        double.IsFinite(value) && value >= 0 ? value : throw Arguments.Bad(name, value, "must be finite and at least 0");
}
