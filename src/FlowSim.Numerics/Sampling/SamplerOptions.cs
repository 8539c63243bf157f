namespace FlowSim.Numerics.Sampling;

/// <summary>How long an <see cref="EnsembleSampler"/> runs.</summary>
public sealed record SamplerOptions
{
    /// <summary>Walkers, an even number from 4 to 10 000, at least twice the dimensions and 2; if not given the larger of 32 and four times the dimensions.</summary>
    public int? Walkers
    {
        get;
        init => field = value is not { } count || (count is >= 4 and <= 10_000 && count % 2 == 0)
            ? value
            : throw Arguments.Bad(nameof(Walkers), count, "must be an even number within 4 to 10000");
    }

    /// <summary>Steps of the ensemble dropped at the start, 0 or more; if not given the first quarter.</summary>
    public int? BurnIn { get; init => field = value is { } steps ? Arguments.From(0, steps, name: nameof(BurnIn)) : null; }

    /// <summary>
    /// Effective draws of the least certain coordinate after which the run stops, above 0; +∞ never stops before the steps allowed. A mean is then known to
    /// the standard deviation over √this; the ends of a 95 % interval to about 2.1 times that (normal density).
    /// </summary>
    public double TargetEffectiveSamples
    {
        get;
        init => field = value > 0 ? value : throw Arguments.Bad(nameof(TargetEffectiveSamples), value, "must be above 0");
    } = 2000;

    /// <summary>Steps of the ensemble that are not exceeded, burn-in among them, 8 to 10 000 000.</summary>
    public int HighestSteps { get; init => field = Arguments.From(8, value, 10_000_000, nameof(HighestSteps)); } = 50_000;

    /// <summary>Evaluations of the density that are not exceeded, at least 1.</summary>
    public long HighestEvaluations { get; init => field = Arguments.From(1, value, long.MaxValue, nameof(HighestEvaluations)); } = 2_000_000;

    /// <summary>Share of moves along the difference of two other walkers; the rest are stretch moves. 0 to 1.</summary>
    public double DifferenceMoves { get; init => field = Arguments.Probability(value, nameof(DifferenceMoves)); } = 0.8;

    /// <summary>
    /// Walkers stand on multiples of this, the same for all coordinates; 0 for anywhere. On a grid far finer than the narrowest coordinate, and best a power of 2, machines whose exp and log
    /// differ in the last bit walk the same way; without one they part after some ten thousand evaluations, as if the seeds were different.
    /// </summary>
    public double Grid
    {
        get;
        init => field = value >= 0 && double.IsFinite(value) ? value : throw Arguments.Bad(nameof(Grid), value, "must be 0 or above, and finite");
    }

    /// <summary>Seed; any number.</summary>
    public ulong Seed { get; init; } = 1;
}
