namespace FlowSim.Numerics.Ode;

/// <summary>A system of ordinary differential equations <c>y′ = f(t, y)</c>.</summary>
/// <remarks>
/// Implementations are called in the stepping loop: they allocate nothing and hold no state that a rejected
/// step would spoil.
/// </remarks>
public interface IOdeSystem
{
    /// <summary>Number of unknowns, at least 1 and constant.</summary>
    int Dimension { get; }

    /// <summary>Writes <c>f(t, y)</c> into <paramref name="derivative"/>.</summary>
    /// <param name="t">Independent variable.</param>
    /// <param name="y">State, length <see cref="Dimension"/>.</param>
    /// <param name="derivative">Receives the derivative, length <see cref="Dimension"/>.</param>
    void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative);

    /// <summary>Writes <c>∂f/∂y</c> (row-major: row i, column j at <c>i·n + j</c>) and <c>∂f/∂t</c>.</summary>
    /// <param name="t">Independent variable.</param>
    /// <param name="y">State, length n = <see cref="Dimension"/>.</param>
    /// <param name="derivative"><c>f(t, y)</c>, already computed.</param>
    /// <param name="jacobian">Receives <c>∂f/∂y</c>, length n².</param>
    /// <param name="timeDerivative">Receives <c>∂f/∂t</c>, length n.</param>
    /// <param name="scratch">Work space, length 2n.</param>
    void Jacobian(
        double t,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> derivative,
        Span<double> jacobian,
        Span<double> timeDerivative,
        Span<double> scratch);
}
