using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Fitting;

/// <summary>Bounds, loss and limits of a fit.</summary>
public sealed record LeastSquaresOptions
{
    /// <summary>Lowest value of each parameter, −∞ for none; no bounds if not given.</summary>
    public double[]? Lower { get; init; }

    /// <summary>Highest value of each parameter, +∞ for none; no bounds if not given.</summary>
    public double[]? Upper { get; init; }

    /// <summary>How much a residual counts as it grows.</summary>
    public RobustLoss Loss { get; init; } = RobustLoss.None;

    /// <summary>
    /// How many of the residuals, from the first, the loss applies to; the rest (what is known beforehand of the parameters) count by their squares. All if
    /// not given.
    /// </summary>
    public int? RobustResiduals { get; init => field = value is { } count ? Arguments.From(0, count, name: nameof(RobustResiduals)) : null; }

    /// <summary>
    /// What a minimum must meet: the part of the residuals that a change of the parameters could still remove, as a share of the rest, each per degree of
    /// freedom (the relative offset). A parameter is then off by about this share of its standard error. 1e-12 to 1e-2.
    /// </summary>
    public double RelativeOffset
    {
        get;
        init => field = value is >= 1e-12 and <= 1e-2 ? value : throw Arguments.Bad(nameof(RelativeOffset), value, "must lie within 1e-12 to 1e-2");
    } = 1e-6;

    /// <summary>
    /// Relative size of what is not smooth in the residuals: rounding, or the tolerance of an integrator behind them. Difference quotients step
    /// accordingly, and nothing finer than it is asked of a minimum. 2⁻⁵² to 1e-3.
    /// </summary>
    public double Roughness
    {
        get;
        init => field = value is >= 2.220446049250313e-16 and <= 1e-3 ? value : throw Arguments.Bad(nameof(Roughness), value, "must lie within 2⁻⁵² to 1e-3");
    } = 2.220446049250313e-16;

    /// <summary>Evaluations of the residuals that are not exceeded, at least 1; those for difference quotients count.</summary>
    public int MaximumEvaluations { get; init => field = Arguments.From(1, value, name: nameof(MaximumEvaluations)); } = 20_000;

    /// <summary>
    /// Further tries, from the same start with shorter steps and then from points around it, when a try does not end in a verified minimum. 0 to 100.
    /// </summary>
    public int Restarts { get; init => field = Arguments.From(0, value, 100, nameof(Restarts)); } = 8;
}
