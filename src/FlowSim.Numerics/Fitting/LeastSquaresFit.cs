namespace FlowSim.Numerics.Fitting;

/// <summary>The answer of <see cref="LeastSquares.Minimise"/>.</summary>
public sealed record LeastSquaresFit
{
    /// <summary>What may be claimed of <see cref="X"/>.</summary>
    public required LeastSquaresStatus Status { get; init; }

    /// <summary>Parameters of the lowest cost found; the start if nothing could be evaluated.</summary>
    public required double[] X { get; init; }

    /// <summary>½ Σ ρ(r²): half the sum of squares without a robust loss. +∞ when the start could not be evaluated.</summary>
    public required double Cost { get; init; }

    /// <summary>Σ w r² with the weights w = ρ′(r²), which are 1 without a robust loss. +∞ when the start could not be evaluated.</summary>
    public required double ResidualSumOfSquares { get; init; }

    /// <summary>Residuals less parameters not held at a bound; 0 or less leaves no error to be estimated.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>
    /// (JᵀWJ)⁻¹: the covariance of the parameters when the residuals are in units of their standard deviations. A parameter at a bound counts as known:
    /// its rows are 0. None unless every free parameter is determined. W the weights of a robust loss, with which it is an approximation.
    /// </summary>
    public required double[,]? UnscaledCovariance { get; init; }

    /// <summary>Whether each parameter lies at a bound that the residuals press it against, or is held by equal bounds.</summary>
    public required bool[] AtBound { get; init; }

    /// <summary>Evaluations of the residuals, those for difference quotients among them.</summary>
    public required int Evaluations { get; init; }

    /// <summary>
    /// Relative offset at <see cref="X"/> (Bates and Watts 1981): what a change of the parameters could still remove of the residuals, as a share of what it
    /// could not, each per degree of freedom. +∞ when it could not be computed or nothing is left to compare with.
    /// </summary>
    public required double RelativeOffset { get; init; }

    /// <summary>
    /// Smallest over largest singular value of the weighted Jacobian with columns of length 1: how nearly some combination of parameters leaves no trace. 0 when
    /// one does, or it is not known.
    /// </summary>
    public required double ReciprocalCondition { get; init; }

    /// <summary>The status in a sentence.</summary>
    public required string Message { get; init; }

    /// <summary>s² = RSS/(residuals − parameters); none without degrees of freedom.</summary>
    public double? ResidualVariance => DegreesOfFreedom > 0 && double.IsFinite(ResidualSumOfSquares) ? ResidualSumOfSquares / DegreesOfFreedom : null;

    /// <summary>s² (JᵀWJ)⁻¹: the covariance of the parameters when the residuals' common standard deviation is not known but estimated from them.</summary>
    public double[,]? Covariance()
    {
        if (UnscaledCovariance is null || ResidualVariance is not { } variance) return null;
        double[,] covariance = (double[,])UnscaledCovariance.Clone();
        for (int i = 0; i < covariance.GetLength(0); i++)
        {
            for (int j = 0; j < covariance.GetLength(1); j++) covariance[i, j] *= variance;
        }
        return covariance;
    }

    /// <summary>Standard errors s √((JᵀWJ)⁻¹)ᵢᵢ, as statisticians use them; 0 for a parameter at a bound.</summary>
    public double[]? StandardErrors() => Deviations(ResidualVariance);

    /// <summary>√((JᵀWJ)⁻¹)ᵢᵢ: standard errors when the residuals are in units of their standard deviations.</summary>
    public double[]? UnscaledStandardErrors() => Deviations(1);

    private double[]? Deviations(double? variance) => UnscaledCovariance is null || variance is null
        ? null
        : [.. Enumerable.Range(0, X.Length).Select(i => Math.Sqrt(variance.Value * UnscaledCovariance[i, i]))];
}
