namespace FlowSim.Numerics.Fitting;

/// <summary>
/// Residuals r(x) whose squares are to be made small together. A residual is best given in units of its own uncertainty (what was measured less what
/// the model says, over the standard deviation). What is known of a parameter beforehand is one more residual: (x − mean)/standard deviation.
/// </summary>
public interface ILeastSquaresProblem
{
    /// <summary>Number of parameters x, at least 1.</summary>
    int Parameters { get; }

    /// <summary>Number of residuals, at least 1.</summary>
    int Residuals { get; }

    /// <summary>Computes all residuals.</summary>
    /// <param name="x">Parameters, within the bounds.</param>
    /// <param name="residuals">Where the residuals go.</param>
    /// <returns>False when the model cannot be evaluated there: the step is then shortened. Residuals that are not finite count as false.</returns>
    bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals);

    /// <summary>Derivatives of the residuals, if they are known in closed form.</summary>
    /// <param name="x">Parameters, where the residuals have just been computed.</param>
    /// <param name="residuals">Residuals there.</param>
    /// <param name="jacobian">Where the derivatives go, row by row: <see cref="Residuals"/> × <see cref="Parameters"/>.</param>
    /// <returns>False when there are none: difference quotients are taken.</returns>
    bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> jacobian);
}
