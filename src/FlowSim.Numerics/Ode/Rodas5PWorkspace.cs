namespace FlowSim.Numerics.Ode;

/// <summary>The arrays of one integration, allocated once.</summary>
internal sealed class Rodas5PWorkspace(int dimension)
{
    internal int Dimension { get; } = dimension;

    /// <summary>State at the start of the step.</summary>
    internal double[] Y0 { get; private set; } = new double[dimension];

    /// <summary>State at the end of the step.</summary>
    internal double[] Y1 { get; private set; } = new double[dimension];

    /// <summary>Derivative at the start of the step.</summary>
    internal double[] F0 { get; private set; } = new double[dimension];

    /// <summary>Derivative at the end of the step.</summary>
    internal double[] F1 { get; private set; } = new double[dimension];

    internal double[] Jacobian { get; } = new double[dimension * dimension];

    internal double[] TimeDerivative { get; } = new double[dimension];

    /// <summary>LU factors of <c>I/(γh) − ∂f/∂y</c>.</summary>
    internal double[] Factors { get; } = new double[dimension * dimension];

    internal int[] Pivots { get; } = new int[dimension];

    /// <summary>Stage vectors uᵢ, one row each.</summary>
    internal double[] Stages { get; } = new double[Rodas5PTableau.Stages * dimension];

    /// <summary>Coefficient vectors of the continuous extension, one row each.</summary>
    internal double[] Extension { get; } = new double[Rodas5PTableau.ExtensionTerms * dimension];

    internal double[] StageState { get; } = new double[dimension];

    internal double[] StageDerivative { get; } = new double[dimension];

    internal double[] JacobianScratch { get; } = new double[2 * dimension];

    /// <summary>The error estimate of the step: the last stage, the difference of both solutions.</summary>
    internal ReadOnlySpan<double> Error => Stages.AsSpan((Rodas5PTableau.Stages - 1) * Dimension, Dimension);

    /// <summary>The end of the step becomes the start of the next.</summary>
    internal void Advance()
    {
        (Y0, Y1) = (Y1, Y0);
        (F0, F1) = (F1, F0);
    }
}
