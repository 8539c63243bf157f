namespace FlowSim.Numerics.Ode;

/// <summary>First step length after a start or a change of the equations.</summary>
internal static class InitialStep
{
    /// <summary>Error aimed at in the first step, in tolerances: well below 1, for the estimate is crude.</summary>
    internal const double TargetError = 0.01;

    /// <summary>First guess when nothing moves yet, as a fraction of the interval; the controller grows it sixfold per step.</summary>
    internal const double FractionWhenNothingMoves = 1e-4;

    /// <summary>Estimates the step from the first two derivatives of the solution at the start.</summary>
    /// <remarks>
    /// The idea is that of Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, section II.4 "Starting step
    /// size" (from memory), with two changes. The second derivative is <c>(∂f/∂y)·f + ∂f/∂t</c>, which is at hand here. And
    /// the fifth Taylor term is guessed as <c>h·|y′|·(h·|y″|/|y′|)⁴</c>, a geometric series, so that the result does not depend on the
    /// unit of time.
    /// </remarks>
    internal static double Estimate(Rodas5PWorkspace w, ReadOnlySpan<double> absolute, double relative, double interval)
    {
        int n = w.Dimension;
        Span<double> second = w.StageState;
        for (int i = 0; i < n; i++)
        {
            double sum = w.TimeDerivative[i];
            for (int j = 0; j < n; j++)
                sum += w.Jacobian[i * n + j] * w.F0[j];
            second[i] = sum;
        }

        double size = ErrorNorm.Rms(w.Y0, w.Y0, w.Y0, absolute, relative);
        double slope = ErrorNorm.Rms(w.F0, w.Y0, w.Y0, absolute, relative);
        double curvature = ErrorNorm.Rms(second, w.Y0, w.Y0, absolute, relative);

        double h = curvature > 0
            ? Math.Max(
                Math.Pow(TargetError * slope * slope * slope / (curvature * curvature * curvature * curvature), 1.0 / Rodas5PTableau.Order),
                Math.Sqrt(TargetError / curvature))
            : interval;

        // A state larger than its tolerance should not change by more than itself.
        if (size > 1 && slope > 0)
            h = Math.Min(h, size / slope);
        if (slope == 0 && curvature == 0)
            h = FractionWhenNothingMoves * interval;

        // Overflow of the powers above ends here.
        return h > 0 && double.IsFinite(h) ? Math.Min(h, interval) : FractionWhenNothingMoves * interval;
    }
}
