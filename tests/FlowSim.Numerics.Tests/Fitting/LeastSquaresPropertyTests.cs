using FlowSim.Numerics.Fitting;
using FsCheck;
using FsCheck.Xunit;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>Rules that hold for any problem of a kind.</summary>
public sealed class LeastSquaresPropertyTests
{
    [Property]
    public void A_linear_problem_has_the_solution_of_its_decomposition(DoNotSize<int> seed, byte size)
    {
        (Matrix<double> a, Vector<double> b, double[] scale) = Linear(seed.Item, size);
        LeastSquaresFit fit = LeastSquares.Minimise(Of(a, b), new double[a.ColumnCount]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Vector<double> expected = a.QR().Solve(b);
        Matrix<double> inverse = a.TransposeThisAndMultiply(a).Inverse();
        double variance = (a * expected - b).DotProduct(a * expected - b) / (a.RowCount - a.ColumnCount);
        for (int j = 0; j < a.ColumnCount; j++)
        {
            double error = Math.Sqrt(variance * inverse[j, j]);
            Assert.Equal(expected[j], fit.X[j], 1e-6 * error + 1e-9 * Math.Abs(expected[j]));
            Assert.Equal(1, fit.StandardErrors()![j] / error, 1e-5);
        }
        Assert.NotEmpty(scale);
    }

    [Property]
    public void In_other_units_the_answer_is_the_same(DoNotSize<int> seed, sbyte exponent, sbyte other)
    {
        Random random = new(seed.Item);
        double[] x = [.. Enumerable.Range(0, 20).Select(i => 0.25 * i)];
        double[] y = [.. x.Select(x => (2 + random.NextDouble()) * Math.Exp(-0.7 * x) + 1 + 0.1 * random.NextDouble())];
        double[] units = [Math.Pow(10, exponent % 8), Math.Pow(10, other % 8), 1];
        LeastSquaresFit plain = LeastSquares.Minimise(
            new FunctionProblem(3, 20, b => [.. x.Zip(y, (x, y) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)]), [1, 1, 1]);
        LeastSquaresFit scaled = LeastSquares.Minimise(
            new FunctionProblem(3, 20, b => [.. x.Zip(y, (x, y) => b[0] * units[0] * Math.Exp(-b[1] * units[1] * x) + b[2] - y)]), [1 / units[0], 1 / units[1], 1]);
        Assert.Equal(LeastSquaresStatus.Converged, plain.Status);
        Assert.Equal(LeastSquaresStatus.Converged, scaled.Status);
        for (int j = 0; j < 3; j++)
        {
            double error = plain.StandardErrors()![j];
            Assert.Equal(plain.X[j], scaled.X[j] * units[j], 1e-5 * error);
            Assert.Equal(1, scaled.StandardErrors()![j] * units[j] / error, 1e-5);
        }
    }

    /// <summary>A linear problem within a box has one minimum: no point of the box is lower, and the gradient presses where it says.</summary>
    [Property]
    public void Within_bounds_nothing_is_lower(DoNotSize<int> seed, byte size)
    {
        (Matrix<double> a, Vector<double> b, double[] scale) = Linear(seed.Item, size);
        Random random = new(seed.Item);
        int n = a.ColumnCount;
        double[] lower = [.. scale.Select(s => (random.NextDouble() - 1) / s)];
        double[] upper = [.. scale.Select((s, j) => lower[j] + random.NextDouble() / s)];
        LeastSquaresFit fit = LeastSquares.Minimise(Of(a, b), new double[n], new() { Lower = lower, Upper = upper });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        for (int k = 0; k < 200; k++)
        {
            double share = Math.Pow(random.NextDouble(), 4);
            Vector<double> at = Vector<double>.Build.Dense(n, j => fit.X[j] + share * (lower[j] + random.NextDouble() * (upper[j] - lower[j]) - fit.X[j]));
            Assert.True(0.5 * (a * at - b).DotProduct(a * at - b) >= fit.Cost * (1 - 1e-12));
        }
        for (int j = 0; j < n; j++)
        {
            Assert.InRange(fit.X[j], lower[j], upper[j]);
            if (fit.AtBound[j]) Assert.True(fit.X[j] == lower[j] || fit.X[j] == upper[j]);
        }
    }

    /// <summary>Whatever the residuals and however few evaluations: no exception, nothing that is not a number, never more than allowed.</summary>
    [Property]
    public void Any_function_gets_an_honest_answer(DoNotSize<int> seed, byte kind, ushort allowed)
    {
        Random random = new(seed.Item);
        double[] c = [.. Enumerable.Range(0, 6).Select(_ => 4 * random.NextDouble() - 2)];
        Func<double[], double[]?> function = (kind % 6) switch
        {
            0 => b => [Math.Sin(c[0] * b[0]) + b[1], Math.Exp(c[1] * b[1]) - c[2], b[0] * b[1] - c[3]],
            1 => b => [Math.Log(b[0] + c[0]), Math.Sqrt(b[1] + c[1]), b[0] - b[1]],
            2 => b => [c[0], c[1], c[2]],
            3 => b => [Math.Floor(b[0] * 10), Math.Abs(b[1]), c[2]],
            4 => b => [1e200 * b[0], 1e-200 * b[1], c[1]],
            _ => b => [b[0] / (b[1] - c[0]), Math.Pow(Math.Abs(b[0]), c[1]), Math.Atan(b[1] / c[2]) * c[3]],
        };
        FunctionProblem problem = new(2, 3, function);
        LeastSquaresFit fit = LeastSquares.Minimise(problem, [c[4], c[5]], new() { MaximumEvaluations = 1 + allowed % 3000 });
        Assert.InRange(problem.Evaluations, 1, 1 + allowed % 3000);
        Assert.All(fit.X, x => Assert.True(double.IsFinite(x)));
        Assert.False(double.IsNaN(fit.Cost) || double.IsNaN(fit.RelativeOffset) || double.IsNaN(fit.ResidualSumOfSquares) || double.IsNaN(fit.ReciprocalCondition));
        Assert.NotEmpty(fit.Message);
        if (fit.Status != LeastSquaresStatus.Converged) return;
        Assert.NotNull(fit.UnscaledCovariance);
        foreach (double value in fit.UnscaledCovariance) Assert.True(double.IsFinite(value));
        // A claim: no neighbour within a hundredth of a standard error and half the digits is lower.
        double[] errors = fit.StandardErrors()!;
        for (int k = 0; k < 20; k++)
        {
            double[] near = [.. fit.X.Select((x, j) => x + (2 * random.NextDouble() - 1) * (0.01 * errors[j] + 1e-8 * Math.Abs(x)))];
            double[] r = function(near)!;
            if (r.All(double.IsFinite)) Assert.True(0.5 * r.Sum(r => r * r) >= fit.Cost * (1 - 1e-9));
        }
    }

    private static (Matrix<double> A, Vector<double> B, double[] Scale) Linear(int seed, byte size)
    {
        Random random = new(seed);
        int n = 1 + size % 6, m = n + 1 + size / 6;
        double[] scale = [.. Enumerable.Range(0, n).Select(_ => Math.Pow(10, 6 * random.NextDouble() - 3))];
        Matrix<double> a = Matrix<double>.Build.Dense(m, n, (_, j) => scale[j] * (2 * random.NextDouble() - 1));
        return (a, Vector<double>.Build.Dense(m, _ => 2 * random.NextDouble() - 1), scale);
    }

    private static FunctionProblem Of(Matrix<double> a, Vector<double> b) =>
        new(a.ColumnCount, a.RowCount, x => [.. a * Vector<double>.Build.Dense(x) - b]);
}
