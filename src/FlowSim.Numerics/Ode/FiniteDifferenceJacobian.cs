namespace FlowSim.Numerics.Ode;

/// <summary>Jacobians by forward differences, for systems without analytic ones.</summary>
/// <remarks>
/// Costs one evaluation per unknown (and one for the time). About half of the digits are right, which costs the
/// integrator steps, not accuracy as the error estimate sees it; but sums of components that <c>f</c> conserves drift at the level of
/// those digits, so prefer an analytic Jacobian where something is conserved.
/// </remarks>
public static class FiniteDifferenceJacobian
{
    /// <summary>
    /// Below this size an unknown, or the time, is perturbed as if it had this size (value of the code RODAS of
    /// Hairer and Wanner, from memory).
    /// </summary>
    private const double SmallestSize = 1e-5;

    private const double UnitRoundoff = 1.1102230246251565e-16;

    /// <summary>Fills <paramref name="jacobian"/> and <paramref name="timeDerivative"/> by forward differences.</summary>
    /// <typeparam name="TSystem">The system; a struct is called without indirection.</typeparam>
    /// <param name="system">The system, usually <c>this</c>; only <see cref="IOdeSystem.Derivative"/> is called. A struct is copied.</param>
    /// <param name="t">Independent variable.</param>
    /// <param name="y">State, length n.</param>
    /// <param name="derivative"><c>f(t, y)</c>, already computed, length n.</param>
    /// <param name="jacobian">Receives <c>∂f/∂y</c>, row-major, length n².</param>
    /// <param name="timeDerivative">Receives <c>∂f/∂t</c>, length n.</param>
    /// <param name="scratch">Work space, length at least 2n.</param>
    /// <param name="autonomous">True when <c>f</c> does not depend on t: saves an evaluation.</param>
    /// <param name="typicalSizes">
    /// Sizes of the unknowns below which they are perturbed as if they had this size, length n, all positive; empty (the
    /// default) takes 1e−5 for all, too coarse where unknowns of order 1e−10 bend f.
    /// </param>
    /// <exception cref="ArgumentNullException"><paramref name="system"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A span has the wrong length.</exception>
    public static void Forward<TSystem>(
        TSystem system,
        double t,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> derivative,
        Span<double> jacobian,
        Span<double> timeDerivative,
        Span<double> scratch,
        bool autonomous = false,
        ReadOnlySpan<double> typicalSizes = default)
        where TSystem : IOdeSystem
    {
        if (!typeof(TSystem).IsValueType && system is null) // The null check alone would box a struct in unoptimized code.
            throw new ArgumentNullException(nameof(system));

        int n = y.Length;
        Require(derivative.Length == n, nameof(derivative), derivative.Length, n);
        Require(jacobian.Length == (long)n * n, nameof(jacobian), jacobian.Length, (long)n * n);
        Require(timeDerivative.Length == n, nameof(timeDerivative), timeDerivative.Length, n);
        Require(scratch.Length >= 2L * n, nameof(scratch), scratch.Length, 2L * n);
        Require(typicalSizes.IsEmpty || typicalSizes.Length == n, nameof(typicalSizes), typicalSizes.Length, n);
        Span<double> moved = scratch[..n];
        Span<double> movedDerivative = scratch.Slice(n, n);
        y.CopyTo(moved);

        for (int j = 0; j < n; j++)
        {
            double exact = typicalSizes.IsEmpty ? Moved(y[j]) : y[j] + Math.Sqrt(UnitRoundoff) * Math.Max(typicalSizes[j], Math.Abs(y[j]));
            moved[j] = exact;
            system.Derivative(t, moved, movedDerivative);
            moved[j] = y[j];

            double inverse = 1 / (exact - y[j]);
            for (int i = 0; i < n; i++)
                jacobian[i * n + j] = (movedDerivative[i] - derivative[i]) * inverse;
        }

        timeDerivative.Clear();
        if (autonomous)
            return;

        double movedTime = Moved(t);
        system.Derivative(movedTime, y, movedDerivative);
        for (int i = 0; i < n; i++)
            timeDerivative[i] = (movedDerivative[i] - derivative[i]) / (movedTime - t);
    }

    private static void Require(bool holds, string name, int length, long wanted)
    {
        if (!holds)
            throw new ArgumentOutOfRangeException(name, length, $"{name} has {length} elements; it needs {wanted}.");
    }

    /// <summary>The perturbed value; the caller divides by its exact distance.</summary>
    private static double Moved(double x) => x + Math.Sqrt(UnitRoundoff * Math.Max(SmallestSize, Math.Abs(x)));
}
