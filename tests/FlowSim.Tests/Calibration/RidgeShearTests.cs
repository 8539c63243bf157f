using FlowSim.Calibration;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Random;

namespace FlowSim.Tests.Calibration;

public class RidgeShearTests
{
    /// <summary>Five coordinates, of which three follow the last two on a parabola without noise.</summary>
    private static double[] OnRidge(double a, double b) => [(2 * a) - b, (a * a) + (0.5 * a * b), 3 + (b * b) - a, a, b];

    private static double[][] Draws(int count)
    {
        var random = new MersenneTwister(5);
        return [.. Enumerable.Range(0, count).Select(_ => OnRidge(Normal.InvCDF(0, 1, random.NextDouble()), Normal.InvCDF(0, 1, random.NextDouble())))];
    }

    private static double[] Even(int count) => [.. Enumerable.Repeat(1.0 / count, count)];

    [Fact]
    public void Draws_on_a_parabola_come_to_lie_on_a_plane()
    {
        var shear = RidgeShear.Of(Draws(60), Even(60), 5);
        foreach ((double a, double b) in (ReadOnlySpan<(double, double)>)[(0, 0), (1, 0), (0, 1), (-2, 3), (0.7, -1.1)])
        {
            double[] straight = OnRidge(a, b);
            shear.Straighten(straight);
            Assert.Equal(0, straight[0], 1e-9);
            Assert.Equal(0, straight[1], 1e-9);
            Assert.Equal(3, straight[2], 1e-9); // What does not depend on the others stays.
            Assert.Equal((a, b), (straight[3], straight[4]));
        }
    }

    [Fact]
    public void Straightening_undoes_bending()
    {
        var shear = RidgeShear.Of(Draws(60), Even(60), 5);
        double[] there = [0.3, -1, 2, 0.7, -0.4];
        shear.Bend(there);
        Assert.Equal(0.3 + 1.4 + 0.4, there[0], 1e-9);
        shear.Straighten(there);
        double[] back = [0.3, -1, 2, 0.7, -0.4];
        for (int i = 0; i < 5; i++)
            Assert.Equal(back[i], there[i], 1e-12);
    }

    [Fact]
    public void No_volume_changes()
    {
        var shear = RidgeShear.Of(Draws(60), Even(60), 5);
        const double H = 1e-5;
        Matrix<double> slopes = Matrix<double>.Build.Dense(5, 5, (i, j) => (Moved(j, H)[i] - Moved(j, -H)[i]) / (2 * H));
        Assert.Equal(1, slopes.Determinant(), 1e-8);

        double[] Moved(int j, double by)
        {
            double[] at = [0.3, -1, 2, 0.7, -0.4];
            at[j] += by;
            shear.Bend(at);
            return at;
        }
    }

    /// <summary>Of draws off the parabola the weighted sum of squares counts: half the draws on one, half on another, weighed 3 to 1.</summary>
    [Fact]
    public void Weights_decide_between_draws()
    {
        double[][] draws = [.. Draws(40).SelectMany(d => (double[][])[d, [d[0] + (4 * d[3]), d[1], d[2], d[3], d[4]]])];
        double[] weights = [.. Enumerable.Range(0, 80).Select(i => (i % 2 == 0 ? 0.75 : 0.25) / 40)];
        double[] there = [0, 0, 0, 1, 0];
        RidgeShear.Of(draws, weights, 5).Bend(there);
        Assert.Equal(2 + (0.25 * 4), there[0], 1e-9);
    }

    [Fact]
    public void Without_draws_or_with_one_coordinate_nothing_is_bent()
    {
        double[] some = [1, 2, 3, 4];
        RidgeShear.Of(null, [], 4).Bend(some);
        Assert.Equal([1, 2, 3, 4], some);
        double[] one = [1];
        RidgeShear.Of([[1], [2], [3]], [0.3, 0.3, 0.4], 1).Bend(one);
        Assert.Equal([1], one);
    }

    /// <summary>Of thirteen coordinates the last five may be followed; the eighth of them from the end follows but is not followed.</summary>
    [Fact]
    public void At_most_five_are_followed()
    {
        var random = new MersenneTwister(6);
        double[][] draws = [.. Enumerable.Range(0, 100).Select(_ => (double[])[.. Enumerable.Range(0, 13).Select(_ => Normal.InvCDF(0, 1, random.NextDouble()))])];
        foreach (double[] draw in draws)
        {
            draw[0] = draw[8] + (draw[9] * draw[12]);
            draw[7] = 2 * draw[11];
        }

        var shear = RidgeShear.Of(draws, Even(100), 13);
        double[] at = [.. draws[3]];
        shear.Straighten(at);
        Assert.Equal(0, at[0], 1e-9);
        Assert.Equal(0, at[7], 1e-9);
        Assert.Equal(draws[3][8..], at[8..]);
    }
}
