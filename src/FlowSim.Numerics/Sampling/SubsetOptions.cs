namespace FlowSim.Numerics.Sampling;

/// <summary>How many runs subset simulation makes.</summary>
public sealed record SubsetOptions
{
    /// <summary>Independent replicates, 4 to 1000: their spread is the error.</summary>
    public int Replicates { get; init => field = Arguments.From(4, value, 1000, nameof(Replicates)); } = 16;

    /// <summary>Points per level and replicate, 50 to 2²⁰.</summary>
    public int PointsPerLevel { get; init => field = Arguments.From(50, value, 1 << 20, nameof(PointsPerLevel)); } = 500;

    /// <summary>Probability of each level given the one before, 0.05 to 0.5.</summary>
    public double LevelProbability
    {
        get;
        init => field = value is >= 0.05 and <= 0.5 ? value : throw Arguments.Bad(nameof(LevelProbability), value, "must lie within 0.05 to 0.5");
    } = 0.1;

    /// <summary>Levels after which a replicate gives up, 1 to 60; the lowest probability is about <see cref="LevelProbability"/> to that power.</summary>
    public int HighestLevels { get; init => field = Arguments.From(1, value, 60, nameof(HighestLevels)); } = 12;

    /// <summary>Seed; any number.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Confidence of the interval, between 0 and 1.</summary>
    public double Confidence { get; init => field = Arguments.InsideUnit(value, nameof(Confidence)); } = 0.95;
}
