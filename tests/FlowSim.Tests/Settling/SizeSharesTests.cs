using FlowSim.Settling;
using FsCheck.Xunit;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace FlowSim.Tests.Settling;

public class SizeSharesTests
{
    /// <summary>Mean of a function of the size in units of the median, by quadrature in ln d in pieces that end at the sizes where it has a corner.</summary>
    private static double Mean(Func<double, double> of, double spread, double corner)
    {
        LogNormal sizes = new(0, spread);
        double sum = 0;
        double[] edges = [-13 * spread, .. Enumerable.Range(-12, 25).Select(i => i * spread), 13 * spread, Math.Clamp(Math.Log(corner), -13 * spread, 13 * spread)];
        Array.Sort(edges);
        for (int i = 1; i < edges.Length; i++)
        {
            if (edges[i] > edges[i - 1])
                sum += Integrate.GaussLegendre(x => Math.Exp(x) * sizes.Density(Math.Exp(x)) * of(Math.Exp(x)), edges[i - 1], edges[i], 64);
        }

        return sum;
    }

    /// <summary>A size d has travelled y d² of the depth (d in medians): that share of it has left, all of it beyond 1.</summary>
    [Theory]
    [InlineData(0.01, 0.6)]
    [InlineData(0.5, 0.6)]
    [InlineData(1, 0.05)]
    [InlineData(4, 0.6)]
    [InlineData(3, 2)]
    [InlineData(400, 1)]
    public void Left_and_gone_and_their_moments_against_quadrature(double progress, double spread)
    {
        double corner = 1 / Math.Sqrt(progress);
        Assert.Equal(Mean(d => Math.Max(0, 1 - (progress * d * d)), spread, corner), SizeShares.Left(progress, spread), 1e-12);
        Assert.Equal(Mean(d => Math.Min(1, progress * d * d), spread, corner), SizeShares.Gone(progress, spread), 1e-12);
        foreach (int order in new[] { -1, 0, 1 })
        {
            double expected = Mean(d => Math.Pow(d, order) * Math.Max(0, 1 - (progress * d * d)), spread, corner);
            Assert.Equal(expected, SizeShares.MomentLeft(order, progress, spread), 1e-11 * Math.Max(1, expected));
        }
    }

    /// <summary>What is left over the depth adds up to what is left: ∫ share(η) dη, in ln η, down to where nothing is.</summary>
    [Theory]
    [InlineData(0.3, 0.6)]
    [InlineData(1, 0.6)]
    [InlineData(5, 0.6)]
    [InlineData(0.7, 0.2)]
    [InlineData(2, 1.5)]
    public void The_profile_integrates_to_the_share_left(double progress, double spread)
    {
        double sum = 0;
        for (int i = 0; i < 200; i++)
            sum += Integrate.GaussLegendre(ln => Math.Exp(ln) * SizeShares.At(progress, spread, Math.Exp(ln)), -40 + (i * 0.2), -40 + ((i + 1) * 0.2), 32);
        Assert.Equal(sum, SizeShares.Left(progress, spread), 1e-11);
    }

    [Property(Arbitrary = [typeof(Generators)], MaxTest = 2000)]
    public void Left_and_gone_make_the_whole_and_more_progress_never_leaves_more(Share progress, Share more, Share spread)
    {
        double y = progress.LogBetween(1e-12, 1e12), further = y * more.LogBetween(1, 1e6), s = spread.Between(0.05, 2);
        double left = SizeShares.Left(y, s);
        Assert.InRange(left, 0, 1 + 1e-15);
        Assert.Equal(1, left + SizeShares.Gone(y, s), 1e-12);
        Assert.True(SizeShares.Left(further, s) <= left + 1e-15);
        Assert.True(SizeShares.At(further, s, 0.5) <= SizeShares.At(y, s, 0.5));
    }

    [Property(Arbitrary = [typeof(Generators)], MaxTest = 1000)]
    public void The_progress_for_a_share_gives_that_share(Share share, Share spread)
    {
        double wanted = share.LogBetween(1e-6, 0.99), s = spread.Between(0.05, 2);
        Assert.Equal(wanted, SizeShares.Left(SizeShares.ProgressFor(wanted, s), s), 1e-10 * wanted);
    }

    [Property(Arbitrary = [typeof(Generators)], MaxTest = 500)]
    public void Where_it_is_clear_to_a_share_just_that_share_is_left(Share share, Share spread, Share progress)
    {
        double wanted = share.LogBetween(1e-6, 0.9), s = spread.Between(0.05, 2), y = progress.LogBetween(1e-3, 10);
        double depth = SizeShares.ClearTo(y, s, wanted);
        if (depth < 1)
            Assert.Equal(wanted, SizeShares.At(y, s, depth), 1e-9 * wanted);
        else
            Assert.True(SizeShares.At(y, s, 1) <= wanted * (1 + 1e-9));
    }

    /// <summary>Slope against a central difference.</summary>
    [Theory]
    [InlineData(0.2, 0.6)]
    [InlineData(3, 0.6)]
    [InlineData(1, 1.5)]
    public void Slope(double progress, double spread)
    {
        double h = 1e-5 * progress;
        double expected = (SizeShares.Left(progress + h, spread) - SizeShares.Left(progress - h, spread)) / (2 * h);
        Assert.Equal(expected, SizeShares.LeftSlope(progress, spread), 1e-7 * Math.Abs(expected));
    }

    /// <summary>Before anything has moved, all of it is everywhere, right at the end that it leaves from too.</summary>
    [Fact]
    public void At_the_start_all_is_everywhere()
    {
        foreach (double distance in new[] { 0, 0.3, 1 })
            Assert.Equal(1, SizeShares.At(0, 0.6, distance));
        Assert.Equal(1, SizeShares.Left(0, 0.6), 1e-15);
        Assert.Equal(0, SizeShares.Gone(0, 0.6));
        Assert.Equal(0, SizeShares.ClearTo(0, 0.6, 0.05));
    }
}
