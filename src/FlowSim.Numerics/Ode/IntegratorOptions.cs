namespace FlowSim.Numerics.Ode;

/// <summary>Tolerances and limits of an integration. The defaults suit smooth stiff systems of a few dozen unknowns.</summary>
public sealed record IntegratorOptions
{
    /// <summary>Tolerated error of a step relative to each unknown. Range [1e−14, 0.1], default 1e−8.</summary>
    public double RelativeTolerance { get; init; } = 1e-8;

    /// <summary>
    /// Tolerated absolute error of a step, in units of <see cref="ComponentScales"/>. Positive, default 1e−10.
    /// </summary>
    public double AbsoluteTolerance { get; init; } = 1e-10;

    /// <summary>
    /// Typical size of each unknown: the absolute tolerance of unknown i is
    /// <c>AbsoluteTolerance · ComponentScales[i]</c>. All positive; null (the default) means 1 for all.
    /// </summary>
    public IReadOnlyList<double>? ComponentScales { get; init; }

    /// <summary>First step after a start or restart; null (the default) chooses automatically.</summary>
    public double? InitialStep { get; init; }

    /// <summary>Longest step. Positive, default unlimited. Event functions that oscillate by themselves need a limit.</summary>
    public double MaxStep { get; init; } = double.PositiveInfinity;

    /// <summary>
    /// The error control gives up when it wants steps shorter than this fraction of |t|. Range [1e−15, 1), default 1e−14,
    /// some fifty roundings of t.
    /// </summary>
    public double MinStepRatio { get; init; } = 1e-14;

    /// <summary>Most steps tried in one integration, rejected ones included. At least 1, default 100 000.</summary>
    public int MaxSteps { get; init; } = 100_000;

    /// <summary>Most events handled in one integration. At least 0, default 10 000.</summary>
    public int MaxEvents { get; init; } = 10_000;

    /// <summary>The absolute tolerances, after a check of all options.</summary>
    internal double[] Validate(int dimension)
    {
        Require(RelativeTolerance is >= 1e-14 and <= 0.1, nameof(RelativeTolerance), RelativeTolerance, "[1e-14, 0.1]");
        RequirePositive(AbsoluteTolerance, nameof(AbsoluteTolerance));
        Require(MaxStep > 0, nameof(MaxStep), MaxStep, "(0, infinity]");
        Require(MinStepRatio is >= 1e-15 and < 1, nameof(MinStepRatio), MinStepRatio, "[1e-15, 1)");
        Require(MaxSteps >= 1, nameof(MaxSteps), MaxSteps, "[1, 2147483647]");
        Require(MaxEvents >= 0, nameof(MaxEvents), MaxEvents, "[0, 2147483647]");
        if (InitialStep is double first)
            RequirePositive(first, nameof(InitialStep));

        int scales = ComponentScales?.Count ?? dimension;
        Require(scales == dimension, nameof(ComponentScales), scales, $"one scale for each of the {dimension} unknowns");
        double[] absolute = new double[dimension];
        for (int i = 0; i < dimension; i++)
        {
            absolute[i] = AbsoluteTolerance * (ComponentScales?[i] ?? 1);
            RequirePositive(absolute[i], nameof(ComponentScales));
        }

        return absolute;
    }

    private static void RequirePositive(double value, string name) =>
        Require(value > 0 && double.IsFinite(value), name, value, "(0, infinity)");

    private static void Require(bool holds, string name, double value, string interval)
    {
        if (!holds)
            throw new ArgumentOutOfRangeException(name, value, $"{name} must lie in {interval}.");
    }
}
