using FlowSim.Numerics.Ode;
using FsCheck.Xunit;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>The small LU against MathNet.Numerics.</summary>
public sealed class LuFactorizationTests
{
    [Property(MaxTest = 100)]
    public void Solves_as_MathNet_does(int seed)
    {
        var random = new Random(seed);
        int n = random.Next(1, 13);
        Matrix<double> matrix = Matrix<double>.Build.Dense(n, n, (_, _) => random.NextDouble() * 2 - 1);
        Vector<double> x = Vector<double>.Build.Dense(n, i => i + 1.0);
        Vector<double> b = matrix * x;
        Vector<double> expected = matrix.LU().Solve(b);

        double[] factors = matrix.ToRowMajorArray();
        int[] pivots = new int[n];
        double[] actual = b.ToArray();
        Assert.True(LuFactorization.TryFactorize(factors, pivots));
        LuFactorization.Solve(factors, pivots, actual);

        // Both are backward stable: they differ by rounding times the condition number.
        double tolerance = 1e-14 * matrix.ConditionNumber() * n;
        for (int i = 0; i < n; i++)
            Assert.Equal(expected[i], actual[i], tolerance);
    }

    [Fact]
    public void Pivots_where_the_diagonal_is_zero()
    {
        // (0 1; 2 0)·x = (3, 4) has the solution (2, 3) by inspection.
        double[] factors = [0, 1, 2, 0];
        int[] pivots = new int[2];
        double[] x = [3, 4];
        Assert.True(LuFactorization.TryFactorize(factors, pivots));
        LuFactorization.Solve(factors, pivots, x);
        Assert.Equal([2, 3], x);
    }

    [Theory]
    [InlineData(new double[] { 1, 2, 2, 4 })]
    [InlineData(new double[] { 0, 0, 0, 0 })]
    [InlineData(new double[] { double.NaN, 0, 0, 1 })]
    [InlineData(new double[] { double.PositiveInfinity, 0, 0, 1 })]
    public void Refuses_what_cannot_be_solved(double[] matrix) =>
        Assert.False(LuFactorization.TryFactorize(matrix, new int[2]));
}
