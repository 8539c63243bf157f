using FlowSim.Numerics.Fitting;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>What a fit says of itself, on problems whose answers are known in closed form.</summary>
public class FitAnswerTests
{
    private static readonly double[] Times = [0, 1, 2, 3, 5, 8];

    private static readonly double[] Values = [1.2, 2.9, 5.3, 6.8, 11.1, 16.6];

    /// <summary>Bates and Watts' offset (1981, from memory) beside the minimum of a straight line: √(removable/rank)/√(rest/degrees); the condition from columns of length 1.</summary>
    [Theory]
    [InlineData(true, 0, 0)]
    [InlineData(true, 1e-3, 2e-3)]
    [InlineData(false, 1e-3, -1e-3)]
    [InlineData(true, 3, -1)]
    public void A_verdict_on_a_straight_line(bool closedForm, double a, double b)
    {
        (double intercept, double slope, double least, double[,] inverse) = Line();
        FitFunction function = new(LineProblem(closedForm), new LeastSquaresOptions(), CancellationToken.None);
        FitPoint point = function.Evaluate([intercept + a, slope + b])!;
        var verdict = Verdict.Of(function, new FitJacobian(function, point.X), point, 1e-6);
        double squares = point.Residuals.Sum(r => r * r), offset = Math.Sqrt((squares - least) / 2) / Math.Sqrt(least / 4);
        Assert.Equal(offset, verdict.RelativeOffset, 1e-7 + (1e-6 * offset));
        Assert.Equal(squares, verdict.WeightedSquares, 1e-10);
        Assert.Equal(4, verdict.DegreesOfFreedom);

        Matrix<double> columns = Matrix<double>.Build.Dense(6, 2, (i, j) => j == 0 ? 1 / Math.Sqrt(6) : Times[i] / Math.Sqrt(Times.Sum(t => t * t)));
        Vector<double> values = columns.Svd().S;
        Assert.Equal(values[1] / values[0], verdict.ReciprocalCondition, 1e-8);
        Assert.Equal(a == 0 ? LeastSquaresStatus.Converged : LeastSquaresStatus.NotConverged, verdict.Status);
        Assert.Equal([false, false], verdict.AtBound);
        if (a == 0)
        {
            for (int i = 0; i < 4; i++)
                Assert.Equal(inverse[i / 2, i % 2], verdict.Inverse![i / 2, i % 2], 1e-9);
        }
        else
        {
            Assert.Null(verdict.Inverse);
            Assert.StartsWith("The best point found is no minimum", verdict.Message, StringComparison.Ordinal);
        }
    }

    /// <summary>Textbook regression: variance, covariance and standard errors; the fit stops as soon as it is verified.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_regression(bool closedForm)
    {
        (double intercept, double slope, double least, double[,] inverse) = Line();
        FunctionProblem problem = LineProblem(closedForm);
        LeastSquaresFit fit = LeastSquares.Minimise(problem, [10, -3]);
        Assert.Equal((LeastSquaresStatus.Converged, "A minimum, verified."), (fit.Status, fit.Message));
        Assert.Equal(intercept, fit.X[0], 1e-9);
        Assert.Equal(slope, fit.X[1], 1e-9);
        Assert.Equal(least, fit.ResidualSumOfSquares, 1e-10);
        Assert.Equal(4, fit.DegreesOfFreedom);
        Assert.Equal(least / 4, fit.ResidualVariance!.Value, 1e-10);
        double[,] covariance = fit.Covariance()!;
        for (int i = 0; i < 2; i++)
        {
            Assert.Equal(Math.Sqrt(inverse[i, i] * least / 4), fit.StandardErrors()![i], 1e-9);
            Assert.Equal(Math.Sqrt(inverse[i, i]), fit.UnscaledStandardErrors()![i], 1e-9);
            for (int j = 0; j < 2; j++)
            {
                Assert.Equal(inverse[i, j], fit.UnscaledCovariance![i, j], 1e-9);
                Assert.Equal(inverse[i, j] * least / 4, covariance[i, j], 1e-9);
            }
        }

        Assert.Equal(problem.Evaluations, fit.Evaluations);
        Assert.InRange(problem.Evaluations, 2, closedForm ? 30 : 90);
    }

    /// <summary>Without degrees of freedom, or with a rest of exactly zero, there is nothing to compare with, and no error to be estimated without the former.</summary>
    [Fact]
    public void Nothing_is_left_to_compare_with()
    {
        LeastSquaresFit square = LeastSquares.Minimise(new FunctionProblem(2, 2, x => [x[0] - 3, x[1] - (2 * x[0])]), [1, 1]);
        Assert.Equal((LeastSquaresStatus.Converged, 0, double.PositiveInfinity), (square.Status, square.DegreesOfFreedom, square.RelativeOffset));
        Assert.Null(square.ResidualVariance);
        Assert.Null(square.Covariance());
        Assert.Null(square.StandardErrors());
        Assert.NotNull(square.UnscaledStandardErrors());

        LeastSquaresFit exact = LeastSquares.Minimise(new FunctionProblem(1, 3, x => [x[0] - 3, 2 * (x[0] - 3), 3 - x[0]], _ => [1, 2, -1]), [4]);
        Assert.Equal((LeastSquaresStatus.Converged, double.PositiveInfinity, 3.0), (exact.Status, exact.RelativeOffset, exact.X[0]));
    }

    /// <summary>A parameter that leaves no trace: the condition is 0, there is no covariance of any kind, and the other parameter is right.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_parameter_without_a_trace(bool closedForm)
    {
        double mean = Values.Average();
        LeastSquaresFit fit = LeastSquares.Minimise(
            new FunctionProblem(2, 6, x => [.. Values.Select(v => x[0] - v)], closedForm ? _ => [.. Enumerable.Range(0, 12).Select(i => 1.0 - (i % 2))] : null), [1, 1]);
        Assert.Equal((LeastSquaresStatus.Singular, 0.0), (fit.Status, fit.ReciprocalCondition));
        Assert.Equal(mean, fit.X[0], 1e-9);
        Assert.Null(fit.UnscaledCovariance);
        Assert.Null(fit.Covariance());
        Assert.StartsWith("The cost is lowest there", fit.Message, StringComparison.Ordinal);

        LeastSquaresFit none = LeastSquares.Minimise(new FunctionProblem(2, 6, _ => Values, closedForm ? _ => new double[12] : null), [1, 1]);
        Assert.Equal(LeastSquaresStatus.Singular, none.Status);
        Assert.Contains("plateau", none.Message, StringComparison.Ordinal);
    }

    /// <summary>All parameters held: nothing to be sought, nothing uncertain.</summary>
    [Fact]
    public void Everything_held()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(LineProblem(false), [10, -3], new LeastSquaresOptions { Lower = [1, 2], Upper = [1, 2] });
        Assert.Equal((LeastSquaresStatus.Converged, 6, 0.0, 1.0), (fit.Status, fit.DegreesOfFreedom, fit.RelativeOffset, fit.ReciprocalCondition));
        Assert.Equal([1, 2], fit.X);
        Assert.Equal([0, 0], fit.StandardErrors()!);
        Assert.Equal([true, true], fit.AtBound);
        Assert.Equal("Every parameter is held by a bound.", fit.Message);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(9)]
    public void Evaluations_that_are_used_up(int most)
    {
        FunctionProblem problem = new(2, 2, x => [10 * (x[1] - (x[0] * x[0])), 1 - x[0]]);
        LeastSquaresFit fit = LeastSquares.Minimise(problem, [-1.2, 1], new LeastSquaresOptions { MaximumEvaluations = most });
        Assert.Equal((LeastSquaresStatus.OutOfEvaluations, most, most), (fit.Status, fit.Evaluations, problem.Evaluations));
        Assert.StartsWith($"All {most} evaluations were used up. The best point found", fit.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_start_that_cannot_be_evaluated()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(2, 6, _ => null), [1, 7]);
        Assert.Equal((LeastSquaresStatus.CannotEvaluate, 4, 1), (fit.Status, fit.DegreesOfFreedom, fit.Evaluations));
        Assert.Equal([1, 7], fit.X);
        Assert.Equal(double.PositiveInfinity, fit.Cost);
        Assert.Null(fit.ResidualVariance);
    }

    /// <summary>A model that exists at the start alone: that is said, after all the tries that were asked for, and no evaluation is blamed.</summary>
    [Fact]
    public void A_start_that_stands_alone()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(1, 2, x => x[0] == 1 ? [3, 4] : null), [1]);
        Assert.Equal((LeastSquaresStatus.CannotEvaluate, 12.5, "The residuals cannot be evaluated around the point reached."), (fit.Status, fit.Cost, fit.Message));
    }

    [Fact]
    public void The_ends_of_the_options()
    {
        Assert.Equal(1e-12, new LeastSquaresOptions { RelativeOffset = 1e-12 }.RelativeOffset);
        Assert.Equal(1e-2, new LeastSquaresOptions { RelativeOffset = 1e-2 }.RelativeOffset);
        Assert.Equal(double.BitIncrement(1) - 1, new LeastSquaresOptions { Roughness = double.BitIncrement(1) - 1 }.Roughness);
        Assert.Equal(1e-3, new LeastSquaresOptions { Roughness = 1e-3 }.Roughness);
        Assert.Equal(LeastSquaresStatus.Converged, LeastSquares.Minimise(LineProblem(true), [1, 1], new LeastSquaresOptions { RobustResiduals = 6, Loss = RobustLoss.Huber(1) }).Status);
        Assert.ThrowsAny<ArgumentException>(() => LeastSquares.Minimise(LineProblem(true), [1, 1], new LeastSquaresOptions { RobustResiduals = 7 }));
        foreach (double bad in (double[])[1e-13, 0.02, double.NaN, 1e-300])
            Assert.ThrowsAny<ArgumentException>(() => new LeastSquaresOptions { RelativeOffset = bad });
        foreach (double bad in (double[])[2.2e-16, 2e-3, double.NaN])
            Assert.ThrowsAny<ArgumentException>(() => new LeastSquaresOptions { Roughness = bad });
        Assert.Throws<ArgumentNullException>(() => LeastSquares.Minimise(null!, [1]));
    }

    private static FunctionProblem LineProblem(bool closedForm) => new(
        2,
        6,
        x => [.. Times.Zip(Values, (t, v) => x[0] + (x[1] * t) - v)],
        closedForm ? _ => [.. Times.SelectMany(t => (double[])[1, t])] : null);

    private static (double Intercept, double Slope, double Least, double[,] Inverse) Line()
    {
        double n = 6, s = Times.Sum(), ss = Times.Sum(t => t * t), v = Values.Sum(), tv = Times.Zip(Values, (t, x) => t * x).Sum(), d = (n * ss) - (s * s);
        double slope = ((n * tv) - (s * v)) / d, intercept = (v - (slope * s)) / n;
        return (intercept, slope, Times.Zip(Values, (t, x) => Math.Pow(intercept + (slope * t) - x, 2)).Sum(), new[,] { { ss / d, -s / d }, { -s / d, n / d } });
    }
}
