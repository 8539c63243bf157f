using FlowSim.Numerics.Fitting;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>Damped steps from singular values against the normal equations, solved densely.</summary>
public class LinearModelTests
{
    private const int Parameters = 4;

    private static readonly int[] Free = [0, 2, 3];

    private static readonly double[] Scale = [2, 5, 0.3, 0];

    [Theory]
    [InlineData(6, 0)]
    [InlineData(6, 0.7)]
    [InlineData(6, 100)]
    [InlineData(3, 0)]
    [InlineData(2, 0.4)]
    public void A_step_solves_the_normal_equations(int residuals, double damping)
    {
        (double[] jacobian, double[] r) = Random(residuals);
        LinearModel model = LinearModel.Of(jacobian, r, Scale, Free)!;
        double[] step = [9, 9, 9, 9];
        step[1] = 0;
        model.Step(damping, -1, step);
        AssertClose(Solved(jacobian, r, damping), step);
        Assert.Equal(Free.Sum(j => Math.Pow(step[j] * Length(j), 2)), Math.Pow(model.ScaledNorm(step), 2), 1e-12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.7)]
    public void A_correction_solves_them_for_a_gradient(double damping)
    {
        (double[] jacobian, double[] r) = Random(6);
        double[] gradient = [0.3, 77, -2, 1.5], step = [9, 0, 9, 9];
        LinearModel.Of(jacobian, r, Scale, Free)!.Against(gradient, damping, step);
        Vector<double> g = Vector<double>.Build.DenseOfEnumerable(Free.Select(j => gradient[j]));
        AssertClose(Spread(-Normal(jacobian, 6, damping).Solve(g)), step);
    }

    /// <summary>Directions without a trace in the residuals are left alone, by a step and by a correction.</summary>
    [Fact]
    public void What_leaves_no_trace_does_not_move()
    {
        LinearModel model = LinearModel.Of([2, 0, 0, 0], [4, 1], [2, 1], [0, 1])!;
        double[] step = new double[2];
        model.Step(0, 0, step);
        AssertClose([-2, 0], step);
        model.Against([8, 0], 0, step);
        AssertClose([-2, 0], step);
        Assert.Equal([1, 0], model.Values.Select(value => Math.Round(value, 12)));
    }

    [Fact]
    public void Directions_whose_value_is_at_most_the_cut_are_left_out()
    {
        (double[] jacobian, double[] r) = Random(6);
        LinearModel model = LinearModel.Of(jacobian, r, Scale, Free)!;
        for (int cut = 0; cut < 3; cut++)
        {
            double[] step = new double[Parameters], expected = new double[Parameters];
            model.Step(0, model.Values[cut], step);
            for (int k = 0; k < cut; k++)
            {
                double[] direction = model.Direction(k, Parameters);
                for (int j = 0; j < Parameters; j++)
                    expected[j] -= model.Projected[k] / model.Values[k] * direction[j];
            }

            AssertClose(expected, step);
        }
    }

    /// <summary>A move of 1 along a direction changes the residuals by its value; directions are orthogonal in the residuals; what is projected and the rest make up the residuals.</summary>
    [Fact]
    public void Directions_values_and_what_is_left()
    {
        (double[] jacobian, double[] r) = Random(6);
        LinearModel model = LinearModel.Of(jacobian, r, Scale, Free)!;
        Assert.Equal(3, model.Count);
        double[][] changes = [.. Enumerable.Range(0, 3).Select(k => Times(jacobian, model.Direction(k, Parameters)))];
        for (int k = 0; k < 3; k++)
        {
            Assert.Equal(0, model.Direction(k, Parameters)[1]);
            Assert.Equal(model.Values[k], Math.Sqrt(changes[k].Sum(x => x * x)), 1e-12);
            Assert.Equal(Math.Abs(model.Projected[k]), Math.Abs(changes[k].Zip(r, (a, b) => a * b).Sum() / model.Values[k]), 1e-12);
            Assert.True(k == 0 || model.Values[k] <= model.Values[k - 1]);
        }

        Assert.Equal(0, changes[0].Zip(changes[2], (a, b) => a * b).Sum(), 1e-12);
        double[] best = new double[Parameters];
        model.Step(0, 0, best);
        Assert.Equal(r.Sum(x => x * x), model.Projected.ToArray().Sum(x => x * x) + r.Zip(Times(jacobian, best), (a, b) => (a + b) * (a + b)).Sum(), 1e-12);
    }

    [Fact]
    public void The_inverse_is_that_of_the_normal_matrix()
    {
        (double[] jacobian, double[] r) = Random(6);
        double[,] inverse = LinearModel.Of(jacobian, r, Scale, Free)!.Inverse(Parameters);
        Matrix<double> expected = Normal(jacobian, 6, 0).Inverse();
        for (int a = 0; a < Parameters; a++)
        {
            for (int b = 0; b < Parameters; b++)
                Assert.Equal(a == 1 || b == 1 ? 0 : expected[Array.IndexOf(Free, a), Array.IndexOf(Free, b)], inverse[a, b], 1e-11);
        }
    }

    private static double Length(int j) => Scale[j] > 0 ? Scale[j] : 1;

    private static (double[] Jacobian, double[] Residuals) Random(int residuals)
    {
        var random = new Random(11);
        return ([.. Enumerable.Range(0, residuals * Parameters).Select(_ => (2 * random.NextDouble()) - 1)], [.. Enumerable.Range(0, residuals).Select(_ => 3 * random.NextDouble())]);
    }

    private static Matrix<double> Columns(double[] jacobian, int residuals) =>
        Matrix<double>.Build.Dense(residuals, Free.Length, (i, c) => jacobian[(i * Parameters) + Free[c]]);

    private static Matrix<double> Normal(double[] jacobian, int residuals, double damping)
    {
        Matrix<double> j = Columns(jacobian, residuals);
        return j.TransposeThisAndMultiply(j) + (damping * Matrix<double>.Build.DenseOfDiagonalArray([.. Free.Select(k => Length(k) * Length(k))]));
    }

    private static double[] Solved(double[] jacobian, double[] r, double damping) =>
        Spread(-Normal(jacobian, r.Length, damping).Solve(Columns(jacobian, r.Length).TransposeThisAndMultiply(Vector<double>.Build.Dense(r))));

    private static double[] Spread(Vector<double> free)
    {
        double[] all = new double[Parameters];
        for (int c = 0; c < Free.Length; c++)
            all[Free[c]] = free[c];
        return all;
    }

    private static double[] Times(double[] jacobian, double[] direction) =>
        [.. Enumerable.Range(0, jacobian.Length / Parameters).Select(i => Enumerable.Range(0, Parameters).Sum(j => jacobian[(i * Parameters) + j] * direction[j]))];

    private static void AssertClose(double[] expected, double[] actual)
    {
        for (int i = 0; i < expected.Length; i++)
            Assert.Equal(expected[i], actual[i], 1e-10 * (1 + Math.Abs(expected[i])));
    }
}
