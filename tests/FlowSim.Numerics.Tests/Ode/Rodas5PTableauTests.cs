using FlowSim.Numerics.Ode;
using MathNet.Numerics.LinearAlgebra;
using Complex = System.Numerics.Complex;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>
/// Identities that the coefficients of Rodas5P must satisfy, from the theory of Rosenbrock methods in Hairer and Wanner,
/// Solving Ordinary Differential Equations II, section IV.7 (from memory).
/// </summary>
public sealed class Rodas5PTableauTests
{
    private const int S = Rodas5PTableau.Stages;

    /// <summary>The coefficients have 16 digits and reach 10² in size; products of five of them leave about this much.</summary>
    private const double Rounding = 1e-11;

    // Back from the form without products to the classical one: Γ⁻¹ = I/γ − C, α = A·Γ, b = m·Γ.
    private static readonly Matrix<double> s_gamma =
        (Matrix<double>.Build.DenseIdentity(S) / Rodas5PTableau.Gamma - Square(Rodas5PTableau.C)).Inverse();

    private static readonly Matrix<double> s_alpha = Square(Rodas5PTableau.A) * s_gamma;

    private static readonly Matrix<double> s_beta = s_alpha + s_gamma;

    private static readonly Vector<double> s_ones = Vector<double>.Build.Dense(S, 1);

    private static readonly Vector<double> s_solution =
        Vector<double>.Build.Dense([.. Rodas5PTableau.A.AsSpan((S - 1) * S, S - 1), 1.0]);

    private static readonly Vector<double> s_embedded =
        Vector<double>.Build.Dense([.. Rodas5PTableau.A.AsSpan((S - 1) * S, S - 1), 0.0]);

    public static TheoryData<int> TreeNumbers => [.. Enumerable.Range(0, RootedTree.UpTo(Rodas5PTableau.Order).Count)];

    [Fact]
    public void There_are_17_trees_up_to_order_5() =>
        Assert.Equal(17, RootedTree.UpTo(5).Count); // 1 + 1 + 2 + 4 + 9, OEIS A000081 (from memory)

    [Theory]
    [MemberData(nameof(TreeNumbers))]
    public void Solution_satisfies_the_conditions_of_order_5(int number) =>
        AssertCondition(s_solution, RootedTree.UpTo(5)[number], 1);

    [Fact]
    public void Embedded_solution_satisfies_the_conditions_of_order_4_and_not_5()
    {
        foreach (RootedTree tree in RootedTree.UpTo(4))
            AssertCondition(s_embedded, tree, 1);
        Assert.Contains(RootedTree.UpTo(5), tree => Math.Abs(Defect(s_embedded, tree, 1)) > 1e-6);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    public void Extension_satisfies_the_conditions_of_order_4(double theta)
    {
        Vector<double> weights = ExtensionWeights(theta);
        foreach (RootedTree tree in RootedTree.UpTo(4))
            AssertCondition(weights, tree, theta);
    }

    [Fact]
    public void Stage_times_and_time_weights_are_row_sums()
    {
        Vector<double> times = s_alpha * s_ones;
        Vector<double> weights = s_gamma * s_ones;
        for (int i = 0; i < S; i++)
        {
            Assert.Equal(times[i], Rodas5PTableau.StageTime[i], Rounding);
            Assert.Equal(weights[i], Rodas5PTableau.TimeDerivativeWeight[i], Rounding);
        }
    }

    [Fact]
    public void Method_is_stiffly_accurate()
    {
        // The last row of β is b, and the last stage stands at the end of the step.
        Vector<double> b = s_solution * s_gamma;
        for (int j = 0; j < S; j++)
            Assert.Equal(b[j], s_beta[S - 1, j], Rounding);
        Assert.Equal(1, Rodas5PTableau.StageTime[S - 1]);
    }

    [Fact]
    public void Method_is_A_stable_along_the_imaginary_axis_and_vanishes_at_infinity()
    {
        // With |R| ≤ 1 on the imaginary axis and all poles (1/γ) to the right of it, A-stability follows from the maximum principle.
        for (double exponent = -3; exponent <= 6; exponent += 0.01)
        {
            double size = Complex.Abs(StabilityFunction(new Complex(0, Math.Pow(10, exponent))));
            Assert.True(size <= 1 + 1e-10, $"|R(10^{exponent:F2} i)| = {size}");
        }

        Assert.True(Complex.Abs(StabilityFunction(-1e9)) < 1e-6);
    }

    [Fact]
    public void Later_rows_repeat_row_6()
    {
        // The step arithmetic relies on it.
        Matrix<double> a = Square(Rodas5PTableau.A);
        for (int j = 0; j < 5; j++)
        {
            Assert.Equal(a[5, j], a[6, j]);
            Assert.Equal(a[5, j], a[7, j]);
        }

        Assert.Equal((1, 1, 1), (a[6, 5], a[7, 5], a[7, 6]));
    }

    private static void AssertCondition(Vector<double> weights, RootedTree tree, double theta) =>
        Assert.Equal(0, Defect(weights, tree, theta), Rounding);

    /// <summary>Σ bⱼΦⱼ − θ^order/density, zero if the condition of the tree holds.</summary>
    private static double Defect(Vector<double> weights, RootedTree tree, double theta) =>
        weights * s_gamma * Phi(tree) - Math.Pow(theta, tree.Order) / tree.Density;

    /// <summary>Vertices with one branch take β, those with several take α.</summary>
    private static Vector<double> Phi(RootedTree tree)
    {
        if (tree.Children.Count == 1)
            return s_beta * Phi(tree.Children[0]);
        Vector<double> product = s_ones;
        foreach (RootedTree child in tree.Children)
            product = product.PointwiseMultiply(s_alpha * Phi(child));
        return product;
    }

    private static Vector<double> ExtensionWeights(double theta)
    {
        Matrix<double> q = Matrix<double>.Build.Dense(3, S, (i, j) => Rodas5PTableau.Extension[i * S + j]);
        return theta * (s_solution + (1 - theta) * (q.Row(0) + theta * (q.Row(1) + theta * q.Row(2))));
    }

    /// <summary>R(z) = 1 + z·bᵀ·(I − zβ)⁻¹·1 by forward substitution.</summary>
    private static Complex StabilityFunction(Complex z)
    {
        Vector<double> b = s_solution * s_gamma;
        var x = new Complex[S];
        Complex r = 1;
        for (int i = 0; i < S; i++)
        {
            Complex sum = 1;
            for (int j = 0; j < i; j++)
                sum += z * s_beta[i, j] * x[j];
            x[i] = sum / (1 - z * s_beta[i, i]);
            r += z * b[i] * x[i];
        }

        return r;
    }

    private static Matrix<double> Square(ReadOnlySpan<double> rows)
    {
        double[] copy = rows.ToArray();
        return Matrix<double>.Build.Dense(S, S, (i, j) => copy[i * S + j]);
    }

    private sealed record RootedTree(IReadOnlyList<RootedTree> Children)
    {
        internal int Order => 1 + Children.Sum(child => child.Order);

        internal double Density => Order * Children.Aggregate(1.0, (product, child) => product * child.Density);

        private string Key => "(" + string.Concat(Children.Select(child => child.Key).Order(StringComparer.Ordinal)) + ")";

        /// <summary>All rooted trees with at most that many vertices.</summary>
        internal static List<RootedTree> UpTo(int order)
        {
            var all = new Dictionary<string, RootedTree>(StringComparer.Ordinal);
            var layer = new List<RootedTree> { new([]) };
            for (int n = 1; n <= order; n++)
            {
                foreach (RootedTree tree in layer)
                    all.TryAdd(tree.Key, tree);
                layer = [.. layer.SelectMany(Grown)];
            }

            return [.. all.Values];
        }

        /// <summary>The tree with one leaf more, at every place.</summary>
        private static IEnumerable<RootedTree> Grown(RootedTree tree)
        {
            yield return new RootedTree([.. tree.Children, new RootedTree([])]);
            for (int i = 0; i < tree.Children.Count; i++)
            {
                foreach (RootedTree child in Grown(tree.Children[i]))
                    yield return new RootedTree([.. tree.Children.Where((_, k) => k != i), child]);
            }
        }
    }
}
