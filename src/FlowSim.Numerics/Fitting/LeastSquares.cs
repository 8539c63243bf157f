using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Fitting;

/// <summary>
/// Nonlinear least squares.
/// <para><b>Equation</b>: the x of the lowest ½ Σ ρ(rᵢ(x)²) between the bounds.</para>
/// <para><b>Range</b>: residuals smooth but for a stated roughness; some tens of parameters.</para>
/// <para><b>Error</b>: a converged parameter is off by at most about <see cref="LeastSquaresOptions.RelativeOffset"/> of its standard error, or by what rounding
/// leaves.</para>
/// <para><b>Source</b>: J. J. Moré (1978), D. M. Bates and D. G. Watts (1981) and others, named where the parts are; from memory.</para>
/// <para><b>Checked by</b>: NistRegressionTests.cs, LeastSquaresTests.cs, LeastSquaresPropertyTests.cs, RobustLossTests.cs.</para>
/// </summary>
public static class LeastSquares
{
    /// <summary>Seeks the parameters of the lowest ½ Σ ρ(r²).</summary>
    /// <remarks>
    /// A descent (Levenberg–Marquardt), a polish by Gauss–Newton steps, then a verdict that trusts neither; a point that does not pass is
    /// left by new tries: the same start with shorter steps, then points around it. The lowest point of all is the answer. A minimum may be a local one:
    /// nothing but other starts can tell.
    /// </remarks>
    /// <param name="problem">Residuals.</param>
    /// <param name="start">Where to begin; taken into the bounds.</param>
    /// <param name="options">Bounds, loss and limits; the defaults if not given.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <exception cref="ArgumentException">A length does not fit, bounds are not in order, or the start is not finite.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static LeastSquaresFit Minimise(
        ILeastSquaresProblem problem, ReadOnlySpan<double> start, LeastSquaresOptions? options = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(problem);
        options ??= new LeastSquaresOptions();
        Check(problem, start, options);
        FitFunction function = new(problem, options, cancellation);
        double[] first = new double[start.Length];
        for (int j = 0; j < first.Length; j++) first[j] = function.Clip(j, start[j]);
        return new Search(function, options).Run(first);
    }

    private static void Check(ILeastSquaresProblem problem, ReadOnlySpan<double> start, LeastSquaresOptions options)
    {
        int n = problem.Parameters;
        if (n < 1 || problem.Residuals < 1)
        {
            throw new ArgumentException($"A problem needs at least 1 parameter and 1 residual; this one has {n} and {problem.Residuals}.", nameof(problem));
        }
        if (start.Length != n) throw new ArgumentException($"start has {start.Length} values but the problem has {n} parameters.", nameof(start));
        foreach (double value in start) Arguments.Finite(value, nameof(start));
        if (options.RobustResiduals > problem.Residuals)
        {
            throw new ArgumentException($"RobustResiduals is {options.RobustResiduals} but the problem has {problem.Residuals} residuals.", nameof(options));
        }
        CheckBounds(options.Lower, n, nameof(options.Lower));
        CheckBounds(options.Upper, n, nameof(options.Upper));
        for (int j = 0; j < n; j++)
        {
            double low = options.Lower?[j] ?? double.NegativeInfinity, high = options.Upper?[j] ?? double.PositiveInfinity;
            if (!(low <= high) || low == double.PositiveInfinity || high == double.NegativeInfinity)
            {
                throw new ArgumentException(FormattableString.Invariant($"Lower[{j}] is {low} and Upper[{j}] is {high}: no value lies between."), nameof(options));
            }
        }
    }

    private static void CheckBounds(double[]? bounds, int parameters, string name)
    {
        if (bounds is null) return;
        if (bounds.Length != parameters)
        {
            throw new ArgumentException($"{name} has {bounds.Length} values but the problem has {parameters} parameters.", nameof(bounds));
        }
        foreach (double bound in bounds) Arguments.NotNaN(bound, name);
    }
}
