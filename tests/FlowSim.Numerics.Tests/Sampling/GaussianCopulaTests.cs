using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>
/// Closed forms of the bivariate normal distribution (from memory): P(both below the median) = ¼ + arcsin ρ/(2π) (Sheppard 1899); Spearman's rank
/// correlation 6/π arcsin(ρ/2) (Pearson 1907).
/// </summary>
public sealed class GaussianCopulaTests
{
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.5)]
    [InlineData(-0.7)]
    public void Orthants_ranks_and_margins(double rho)
    {
        const int count = 1 << 16;
        double[] points = new double[2 * count];
        new ScrambledSobol(2, 3).Fill(0, points);
        new GaussianCopula(new[,] { { 1, rho }, { rho, 1 } }).Apply(points);
        double both = 0, product = 0, mean = 0, square = 0;
        for (int i = 0; i < count; i++)
        {
            (double u, double v) = (points[2 * i], points[2 * i + 1]);
            if (u < 0.5 && v < 0.5) both++;
            product += (u - 0.5) * (v - 0.5);
            mean += v;
            square += (v - 0.5) * (v - 0.5);
        }
        // Tolerances: some ten times what points spread this evenly leave.
        Assert.Equal(0.25 + Math.Asin(rho) / (2 * Math.PI), both / count, 1e-3);
        Assert.Equal(6 / Math.PI * Math.Asin(rho / 2), 12 * product / count, 1e-3);
        Assert.Equal(0.5, mean / count, 1e-4);
        Assert.Equal(1.0 / 12, square / count, 1e-4);
    }

    [Fact]
    public void An_uncorrelated_coordinate_stays_as_it_was_and_points_do_not_touch()
    {
        GaussianCopula copula = new(new[,] { { 1, 0, 0.8 }, { 0, 1, 0 }, { 0.8, 0, 1 } });
        double[] points = new double[300];
        new RandomPoints(3, 1).Fill(0, points);
        double[] before = [.. points];
        copula.Apply(points);
        for (int i = 0; i < 100; i++)
        {
            Assert.Equal(before[(3 * i)..(3 * i + 2)], points[(3 * i)..(3 * i + 2)]);
            Assert.NotEqual(before[3 * i + 2], points[3 * i + 2]);
            double[] alone = before[(3 * i)..(3 * i + 3)];
            copula.Apply(alone);
            Assert.Equal(points[(3 * i)..(3 * i + 3)], alone);
        }
    }

    [Fact]
    public void Extreme_points_stay_inside()
    {
        double[] points = [1e-300, 1 - 1e-16, 1 - 1e-16, 1e-300];
        new GaussianCopula(new[,] { { 1, 0.99 }, { 0.99, 1 } }).Apply(points);
        Assert.All(points, u => Assert.InRange(u, 1e-300, 1 - 1e-16));
    }

    [Fact]
    public void Contradicting_correlations_are_refused_with_the_strength_that_would_do()
    {
        // Three coordinates, each pair at −0.8: n equal correlations must exceed −1/(n − 1) = −½, so 0.625 of it is the limit.
        double[,] matrix = { { 1, -0.8, -0.8, 0 }, { -0.8, 1, -0.8, 0 }, { -0.8, -0.8, 1, 0 }, { 0, 0, 0, 1 } };
        Assert.Equal(0.625, GaussianCopula.HighestStrength(matrix), 1e-12);
        string message = Assert.Throws<ArgumentException>(() => new GaussianCopula(matrix, ["load", "height", "moisture", "gate"])).Message;
        Assert.Contains("load, height, moisture cannot all hold", message, StringComparison.Ordinal);
        Assert.Contains("0.625", message, StringComparison.Ordinal);
        double weaker = -0.8 * 0.62;
        _ = new GaussianCopula(new[,] { { 1, weaker, weaker }, { weaker, 1, weaker }, { weaker, weaker, 1 } });
    }

    [Theory]
    [InlineData(0.5, 0.4, 1, "correlation of 0 with 1 is 0.5 but that of 1 with 0 is 0.4")]
    [InlineData(0.5, 0.5, 1.1, "correlation of 1 with 1 is 1.1 but must be 1")]
    [InlineData(1, 1, 1, "correlation of 0 with 1 is 1 but must be between")]
    [InlineData(double.NaN, double.NaN, 1, "NaN")]
    public void A_matrix_that_is_none_is_refused(double upper, double lower, double diagonal, string part) =>
        Assert.Contains(part, Assert.Throws<ArgumentException>(() => new GaussianCopula(new[,] { { 1, upper }, { lower, diagonal } })).Message, StringComparison.Ordinal);

    [Fact]
    public void Other_hostile_arguments()
    {
        Assert.Throws<ArgumentException>(() => new GaussianCopula(new double[0, 0]));
        Assert.Throws<ArgumentException>(() => new GaussianCopula(new double[1, 2]));
        Assert.Throws<ArgumentException>(() => new GaussianCopula(new double[,] { { 1 } }, ["a", "b"]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new GaussianCopula(new double[,] { { 1, 0 }, { 0, 1 } }).Apply(new double[3]));
        Assert.Equal(double.PositiveInfinity, GaussianCopula.HighestStrength(new double[,] { { 1, 0 }, { 0, 1 } }));
    }
}
