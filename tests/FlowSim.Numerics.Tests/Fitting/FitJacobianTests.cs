using FlowSim.Numerics.Fitting;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>Difference quotients against the slopes of the polynomials through the same points; a large roughness makes the steps long enough to see which points these are.</summary>
public class FitJacobianTests
{
    private const double Infinite = double.PositiveInfinity;

    /// <summary>Points of the quotients: two or four neighbours inside, the point and as many to one side at a bound.</summary>
    [Theory]
    [InlineData(false, -Infinite, Infinite, new[] { -1, 1 })]
    [InlineData(true, -Infinite, Infinite, new[] { -2, -1, 1, 2 })]
    [InlineData(false, 2, Infinite, new[] { 0, 1, 2 })]
    [InlineData(true, 2, Infinite, new[] { 0, 1, 2, 3, 4 })]
    [InlineData(false, -Infinite, 2, new[] { 0, -1, -2 })]
    [InlineData(true, -Infinite, 2, new[] { 0, -1, -2, -3, -4 })]
    public void Quotients_are_slopes_of_polynomials(bool fine, double lower, double upper, int[] places)
    {
        const double X = 2, Roughness = 1e-5;
        double h = X * (fine ? Math.Pow(Roughness, 0.2) : Math.Cbrt(Roughness));
        var problem = new FunctionProblem(2, 2, x => [Math.Exp(x[0]), Math.Sin(3 * x[0]) + x[1]]);
        var function = new FitFunction(problem, new LeastSquaresOptions { Roughness = Roughness, Lower = [lower, -9], Upper = [upper, 9] }, CancellationToken.None);
        FitPoint point = function.Evaluate([X, 1])!;
        var jacobians = new FitJacobian(function, point.X);
        double[] jacobian = jacobians.At(point, fine)!;
        Assert.Equal(Slope(Math.Exp, X, h, places), jacobian[0], 1e-9);
        Assert.Equal(Slope(x => Math.Sin(3 * x), X, h, places), jacobian[2], 1e-9);
        Assert.Equal([0, 1], [jacobian[1], Math.Round(jacobian[3], 9)]);
        Assert.False(jacobians.IsClosedForm);
        Assert.Equal(1 / (h / X), jacobians.Magnification, 1e-9);

        // The larger of the residuals and of what a parameter's own size changes in them.
        double Norm(double a, double b) => Math.Sqrt((a * a) + (b * b));
        double size = Math.Max(Norm(point.Residuals[0], point.Residuals[1]), Math.Max(X * Norm(jacobian[0], jacobian[2]), Norm(jacobian[1], jacobian[3])));
        Assert.Equal(Roughness * size, jacobians.Noise, 1e-12);
    }

    /// <summary>A parameter that begins at 0 is moved by a tenth of the width of its bounds, or as if it were 1.</summary>
    [Theory]
    [InlineData(-3, 5, 0.8)]
    [InlineData(-Infinite, 5, 1)]
    [InlineData(-3, Infinite, 1)]
    public void A_start_at_zero(double lower, double upper, double length)
    {
        List<double> moved = [];
        var problem = new FunctionProblem(1, 1, x =>
        {
            moved.Add(x[0]);
            return [1 + x[0]];
        });
        var function = new FitFunction(problem, new LeastSquaresOptions { Roughness = 1e-3, Lower = [lower], Upper = [upper] }, CancellationToken.None);
        FitPoint point = function.Evaluate([0])!;
        var jacobians = new FitJacobian(function, point.X);
        Assert.Equal(length, jacobians.Length(0), 1e-15);
        Assert.Equal(1, jacobians.At(point, fine: false)![0], 1e-12);
        Assert.Equal((3, 0.0), (moved.Count, moved[0]));
        Assert.Equal(-0.1 * length, moved[1], 1e-12);
        Assert.Equal(0.1 * length, moved[2], 1e-12);
    }

    /// <summary>
    /// The length that the quotients show is ‖r′‖/‖r″‖, at most thirty times more or less than the one before; where no bend stands out of the roughness,
    /// up to the parameter's size; at a bound, for a parameter that is held and for one that does nothing, it stays.
    /// </summary>
    [Fact]
    public void Lengths_follow_the_bend()
    {
        var problem = new FunctionProblem(7, 7, x =>
        [
            Math.Exp(5 * x[0]), Math.Exp(200 * (x[1] - 1)), 3 * x[2], Math.Exp(5 * x[3]), x[4] * x[4], 1, 1e-6 * x[6],
        ]);
        var options = new LeastSquaresOptions
        {
            Roughness = 1e-8,
            Lower = [-9, -9, -9, 1, 4, -9, -9],
            Upper = [9, 9, 9, 9, 4, 9, 9e9],
        };
        var function = new FitFunction(problem, options, CancellationToken.None);
        FitPoint point = function.Evaluate([1, 1, 5, 1, 4, 3, 1e4])!;
        double[] start = [1, 1, 0.1, 1, 4, 0.5, 2];
        var jacobians = new FitJacobian(function, start);
        double[] jacobian = jacobians.At(point, fine: false)!;
        double h = Math.Cbrt(1e-8);
        double bend = (Math.Exp(5 * (1 + h)) - (2 * Math.Exp(5)) + Math.Exp(5 * (1 - h))) / (h * h);
        Assert.True(bend * h * h > 30 * jacobians.Noise);
        Assert.Equal(jacobian[0] / bend, jacobians.Length(0), 1e-8);
        Assert.Equal(1.0 / 30, jacobians.Length(1), 1e-12);
        Assert.Equal(3, jacobians.Length(2), 1e-12);
        Assert.Equal(1, jacobians.Length(3));
        Assert.Equal(4, jacobians.Length(4));
        Assert.Equal(0.5, jacobians.Length(5));
        Assert.Equal(60, jacobians.Length(6), 1e-9);
        Assert.Equal(0, jacobian[(4 * 7) + 4]);
    }

    /// <summary>Where the model fails on both sides the step is taken a tenth as long, five times at most, and the length is remembered.</summary>
    [Theory]
    [InlineData(0.3, true)]
    [InlineData(3e-4, true)]
    [InlineData(3e-5, true)]
    [InlineData(3e-6, false)]
    public void Steps_are_shortened_where_the_model_fails(double room, bool works)
    {
        int failures = 0;
        var problem = new FunctionProblem(1, 1, x =>
        {
            bool fails = Math.Abs(x[0] - 1) > room;
            failures += fails ? 1 : 0;
            return fails ? null : [x[0] * x[0]];
        });
        var function = new FitFunction(problem, new LeastSquaresOptions { Roughness = 1e-3 }, CancellationToken.None);
        FitPoint point = function.Evaluate([1])!;
        var jacobians = new FitJacobian(function, point.X);
        double[]? jacobian = jacobians.At(point, fine: false);
        int shorter = (int)Math.Ceiling(Math.Log10(0.1 / room) - 1e-9);
        Assert.Equal(works ? 3 * Math.Max(shorter, 0) : 15, failures);
        Assert.Equal(works, jacobian is not null);
        if (works)
            Assert.Equal(2, jacobian![0], 1e-9);
        if (shorter > 0 && works)
            Assert.InRange(jacobians.Length(0), 0, Math.Pow(10, -shorter) * 30.001);
    }

    /// <summary>When no more evaluations are allowed there is no Jacobian, and no trying on.</summary>
    [Fact]
    public void No_quotients_without_evaluations()
    {
        var problem = new FunctionProblem(2, 1, x => [x[0] + x[1]]);
        var function = new FitFunction(problem, new LeastSquaresOptions { MaximumEvaluations = 4 }, CancellationToken.None);
        FitPoint point = function.Evaluate([1, 1])!;
        Assert.Null(new FitJacobian(function, point.X).At(point, fine: false));
        Assert.Equal((4, true), (problem.Evaluations, function.Exhausted));
    }

    [Fact]
    public void A_closed_form_is_taken_as_it_is_unless_it_is_no_number()
    {
        double slope = 7;
        var problem = new FunctionProblem(1, 1, x => [3 * x[0]], _ => [slope]);
        var function = new FitFunction(problem, new LeastSquaresOptions(), CancellationToken.None);
        FitPoint point = function.Evaluate([2])!;
        var jacobians = new FitJacobian(function, point.X);
        Assert.Equal([7], jacobians.At(point, fine: true)!);
        Assert.Equal((true, 1, 2), (jacobians.IsClosedForm, jacobians.Magnification, jacobians.Length(0)));
        slope = double.NaN;
        Assert.Equal(3, jacobians.At(point, fine: true)![0], 1e-9);
        Assert.False(jacobians.IsClosedForm);
    }

    /// <summary>Slope at x of the polynomial through the function's values at x + place·h.</summary>
    private static double Slope(Func<double, double> function, double x, double h, int[] places)
    {
        int n = places.Length;
        Matrix<double> powers = Matrix<double>.Build.Dense(n, n, (i, p) => Math.Pow(places[i], p));
        return powers.Solve(Vector<double>.Build.Dense(n, i => function(x + (places[i] * h))))[1] / h;
    }
}
