using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>The coefficients satisfy the conditions for their order (Butcher's, as in Hairer, Nørsett and Wanner, section II.2), so that none was mistyped.</summary>
public class DormandPrinceTests
{
    private const int Stages = LaneDormandPrince.Stages;

    private static readonly double[] C = LaneDormandPrince.StageTime;

    private static double A(int i, int j) => j < Stages - 1 ? LaneDormandPrince.A[(i * (Stages - 1)) + j] : 0;

    private static double B(int j) => A(Stages - 1, j);

    private static double BHat(int j) => B(j) - LaneDormandPrince.ErrorWeights[j];

    [Fact]
    public void Rows_sum_to_the_stage_times()
    {
        for (int i = 0; i < Stages; i++)
            Assert.Equal(C[i], Enumerable.Range(0, Stages).Sum(j => A(i, j)), 14);
    }

    [Fact]
    public void The_solution_has_order_five() => AssertConditions(B, 5);

    [Fact]
    public void The_embedded_solution_has_order_four() => AssertConditions(BHat, 4);

    [Fact]
    public void The_embedded_solution_has_no_more() =>
        Assert.True(Math.Abs(Sum(j => BHat(j) * Math.Pow(C[j], 4)) - (1.0 / 5)) > 1e-4);

    /// <summary>The extension must meet the continuous order conditions up to order 4 at every θ.</summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    public void The_extension_has_order_four(double theta)
    {
        // Weights of the stages at θ, from the form y0 + θ(rise + (1−θ)(bspl + θ(second + (1−θ)·d))).
        double Weight(int j)
        {
            double rise = B(j);
            double first = (j == 0 ? 1 : 0) - rise;
            double second = rise - (j == Stages - 1 ? 1 : 0) - first;
            double third = LaneDormandPrince.ExtensionWeights[j];
            return theta * (rise + ((1 - theta) * (first + (theta * (second + ((1 - theta) * third))))));
        }

        for (int order = 1; order <= 4; order++)
            Assert.Equal(Math.Pow(theta, order) / order, Sum(j => Weight(j) * Math.Pow(C[j], order - 1)), 13);
        Assert.Equal(Math.Pow(theta, 3) / 6, Sum(i => Weight(i) * Sum(j => A(i, j) * C[j])), 13);
        Assert.Equal(Math.Pow(theta, 4) / 24, Sum(i => Weight(i) * Sum(j => A(i, j) * Sum(k => A(j, k) * C[k]))), 13);
    }

    private static void AssertConditions(Func<int, double> b, int order)
    {
        for (int p = 1; p <= order; p++)
            Assert.Equal(1.0 / p, Sum(j => b(j) * Math.Pow(C[j], p - 1)), 13);
        double Ac(int i, int power) => Sum(j => A(i, j) * Math.Pow(C[j], power));
        double Aac(int i, int power) => Sum(j => A(i, j) * Ac(j, power));
        Assert.Equal(1.0 / 6, Sum(i => b(i) * Ac(i, 1)), 13);
        Assert.Equal(1.0 / 8, Sum(i => b(i) * C[i] * Ac(i, 1)), 13);
        Assert.Equal(1.0 / 12, Sum(i => b(i) * Ac(i, 2)), 13);
        Assert.Equal(1.0 / 24, Sum(i => b(i) * Aac(i, 1)), 13);
        if (order < 5)
            return;
        Assert.Equal(1.0 / 10, Sum(i => b(i) * C[i] * C[i] * Ac(i, 1)), 13);
        Assert.Equal(1.0 / 15, Sum(i => b(i) * C[i] * Ac(i, 2)), 13);
        Assert.Equal(1.0 / 30, Sum(i => b(i) * C[i] * Aac(i, 1)), 13);
        Assert.Equal(1.0 / 20, Sum(i => b(i) * Ac(i, 1) * Ac(i, 1)), 13);
        Assert.Equal(1.0 / 20, Sum(i => b(i) * Ac(i, 3)), 13);
        Assert.Equal(1.0 / 60, Sum(i => b(i) * Aac(i, 2)), 13);
        Assert.Equal(1.0 / 40, Sum(i => b(i) * Sum(j => A(i, j) * C[j] * Ac(j, 1))), 13);
        Assert.Equal(1.0 / 120, Sum(i => b(i) * Sum(j => A(i, j) * Aac(j, 1))), 13);
    }

    private static double Sum(Func<int, double> term) => Enumerable.Range(0, Stages).Sum(term);
}
