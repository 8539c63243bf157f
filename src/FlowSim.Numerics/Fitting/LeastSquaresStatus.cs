namespace FlowSim.Numerics.Fitting;

/// <summary>What a fit may claim.</summary>
public enum LeastSquaresStatus
{
    /// <summary>A minimum that was verified apart from the iteration's own stopping rule, every parameter determined.</summary>
    Converged,

    /// <summary>
    /// A lowest point was reached, but some combination of parameters can be changed without a trace in the residuals, so there is no one answer.
    /// </summary>
    Singular,

    /// <summary>The best point found did not pass the verification: a plateau, a minimum at infinity, or residuals too rough.</summary>
    NotConverged,

    /// <summary>The evaluations allowed were used up before.</summary>
    OutOfEvaluations,

    /// <summary>The residuals cannot be evaluated at the start, or not around it.</summary>
    CannotEvaluate,
}
