using FlowSim.Numerics.Fitting;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>Residuals from a function; none where it answers null.</summary>
internal sealed class FunctionProblem(int parameters, int residuals, Func<double[], double[]?> function, Func<double[], double[]>? jacobian = null) : ILeastSquaresProblem
{
    public int Parameters => parameters;

    public int Residuals => residuals;

    public int Evaluations { get; private set; }

    public bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals)
    {
        Evaluations++;
        if (function(x.ToArray()) is not { } values) return false;
        values.CopyTo(residuals);
        return true;
    }

    public bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> matrix)
    {
        if (jacobian is null) return false;
        jacobian(x.ToArray()).CopyTo(matrix);
        return true;
    }
}
