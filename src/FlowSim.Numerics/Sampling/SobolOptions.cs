namespace FlowSim.Numerics.Sampling;

/// <summary>How many runs Sobol' indices are made from.</summary>
public sealed record SobolOptions
{
    /// <summary>Independent replicates, 4 to 1000.</summary>
    public int Replicates { get; init => field = Arguments.From(4, value, 1000, nameof(Replicates)); } = 16;

    /// <summary>Points per replicate, at least 2; powers of two suit Sobol' points best.</summary>
    public int PointsPerReplicate { get; init => field = Arguments.From(2, value, 1 << 24, nameof(PointsPerReplicate)); } = 256;

    /// <summary>Seed; any number.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Kind of points.</summary>
    public PointKind Points { get; init; } = PointKind.ScrambledSobol;

    /// <summary>Confidence of the intervals, between 0 and 1.</summary>
    public double Confidence { get; init => field = Arguments.InsideUnit(value, nameof(Confidence)); } = 0.95;
}
