using FlowSim.Numerics.Fitting;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>The verdict on points that no descent need have found.</summary>
public sealed class VerdictTests
{
    private const double Tolerance = 1e-6;

    private static Verdict At(FunctionProblem problem, params double[] x)
    {
        FitFunction function = new(problem, new LeastSquaresOptions(), CancellationToken.None);
        return Verdict.Of(function, new FitJacobian(function, x), function.Evaluate(x)!, Tolerance);
    }

    /// <summary>Residuals (x − 1, 1, 1): at 1 + d the offset is d over the rest per degree of freedom, which is 1.</summary>
    [Theory]
    [InlineData(0, true)]
    [InlineData(5e-7, true)]
    [InlineData(2e-6, false)]
    [InlineData(1e-3, false)]
    public void The_relative_offset_decides(double off, bool minimum)
    {
        Verdict verdict = At(new FunctionProblem(1, 3, b => [b[0] - 1, 1, 1]), 1 + off);
        Assert.Equal(off, verdict.RelativeOffset, 1e-9);
        Assert.Equal(minimum ? LeastSquaresStatus.Converged : LeastSquaresStatus.NotConverged, verdict.Status);
        Assert.Equal(2, verdict.DegreesOfFreedom);
    }

    /// <summary>Residuals and parameter end at 0, where nothing is left to set a length by, and squares of what is next to it underflow.</summary>
    [Theory]
    [InlineData(3, 1)]
    [InlineData(3, -1e6)]
    [InlineData(1e-9, 2)]
    [InlineData(1e12, 1e-20)]
    public void A_line_through_nothing_is_lowest_at_nothing(double slope, double start)
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(1, 2, b => [slope * b[0], -2 * slope * b[0]]), [start]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.Equal(0, fit.X[0], 1e-12 * Math.Abs(start));
    }

    [Fact]
    public void A_plane_through_nothing_is_lowest_at_nothing()
    {
        Verdict verdict = At(new FunctionProblem(2, 3, b => [b[0] + b[1], b[0] - b[1], 4 * b[1]]), 0, 0);
        Assert.Equal(LeastSquaresStatus.Converged, verdict.Status);
        Assert.Equal(1 / 2.0, verdict.Inverse![0, 0], 1e-9);
        Assert.Equal(1 / 18.0, verdict.Inverse[1, 1], 1e-9);
    }

    [Fact]
    public void A_top_is_stationary_but_no_minimum()
    {
        Verdict verdict = At(new FunctionProblem(1, 2, b => [b[0] * b[0] - 1, 0.1 * b[0]]), 0);
        Assert.Equal(LeastSquaresStatus.NotConverged, verdict.Status);
        Assert.NotNull(verdict.Lower);
        Assert.True(verdict.Lower.Cost < verdict.Point.Cost);
    }

    /// <summary>Falls towards 1 as b grows: the offset 1/b² passes any tolerance, the look to both sides does not.</summary>
    [Theory]
    [InlineData(2e3)]
    [InlineData(1e5)]
    public void Far_out_on_a_slope_without_end_is_no_minimum(double far)
    {
        Verdict verdict = At(new FunctionProblem(1, 2, b => [1 / (1 + b[0] * b[0]), 1]), far);
        Assert.NotEqual(LeastSquaresStatus.Converged, verdict.Status);
    }

    [Fact]
    public void A_parameter_at_its_bound_is_no_degree_of_freedom()
    {
        FitFunction function = new(new FunctionProblem(2, 4, b => [b[0], b[1] - 1, 1, 1]), new LeastSquaresOptions { Lower = [0.5, -9] }, CancellationToken.None);
        double[] x = [0.5, 1];
        Verdict verdict = Verdict.Of(function, new FitJacobian(function, x), function.Evaluate(x)!, Tolerance);
        Assert.Equal(LeastSquaresStatus.Converged, verdict.Status);
        Assert.Equal([true, false], verdict.AtBound);
        Assert.Equal(3, verdict.DegreesOfFreedom);
        Assert.Equal(1, verdict.Inverse![1, 1], 1e-10);
        Assert.Equal(0, verdict.Inverse[0, 0]);
    }
}
