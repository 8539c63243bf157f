namespace FlowSim.Numerics.Ode;

/// <summary>
/// A large system <c>y′ = f(t, y)</c> whose matrix is taken as a product of factors that are each quick to solve:
/// <c>(I − γh A₁)(I − γh A₂) …</c> with <c>A₁ + A₂ + … ≈ ∂f/∂y</c>.
/// </summary>
/// <remarks>
/// Called in the stepping loop: implementations allocate nothing. What the A's leave out costs neither order nor, if each has
/// zero column sums, the conservation of Σy; it must not be stiff.
/// </remarks>
public interface IFactoredOdeSystem
{
    /// <summary>Number of unknowns, at least 1 and constant.</summary>
    int Dimension { get; }

    /// <summary>Writes <c>f(t, y)</c> into <paramref name="derivative"/>.</summary>
    /// <param name="t">Independent variable.</param>
    /// <param name="y">State, length <see cref="Dimension"/>.</param>
    /// <param name="derivative">Receives the derivative, length <see cref="Dimension"/>.</param>
    void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative);

    /// <summary>Keeps the A's at the point of the last <see cref="Derivative"/>, for all steps from there.</summary>
    void KeepMatrix();

    /// <summary>Factors <c>I − γh A</c> for each A kept.</summary>
    /// <param name="gammaStep">γh.</param>
    void Factor(double gammaStep);

    /// <summary>Solves with each of the factors in turn, in place.</summary>
    /// <param name="rightHandSide">Right-hand side, length <see cref="Dimension"/>; receives the solution.</param>
    void Solve(Span<double> rightHandSide);
}
