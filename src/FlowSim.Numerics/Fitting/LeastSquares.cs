using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Fitting;

/// <summary>Nonlinear least squares.</summary>
public static class LeastSquares
{
    /// <summary>Seeks the parameters of the lowest ½ Σ ρ(r²).</summary>
    /// <remarks>
    /// A descent (Levenberg–Marquardt), a polish by Gauss–Newton steps, then a verdict that trusts neither; a point that does not pass is
    /// left by new tries, the same start with shorter steps first and then points around it. The lowest point of all is the answer. A minimum may be a local one:
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
