using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using MathNet.Numerics.Distributions;

namespace FlowSim.Tests.Calibration;

public class ScoreScaleTests
{
    private const double HalfWidth = 1.959963984540054;

    private static readonly double[] Scores = [-6, -2.5, -1, 0, 0.3, 1, 2.5, 6];

    private static double Share(double score) => Normal.CDF(0, 1, score);

    [Fact]
    public void A_normal_prior_has_its_scores_in_standard_deviations()
    {
        var scale = ScoreScale.Of(new NormalDistribution(10, 2), -100, 100);
        foreach (double z in Scores)
        {
            Assert.Equal(10 + (2 * z), scale.ValueAt(z), 1e-12);
            Assert.Equal(z, scale.ScoreOf(10 + (2 * z)), 1e-12);
        }
    }

    [Fact]
    public void A_log_normal_prior_has_them_in_those_of_the_logarithm()
    {
        var scale = ScoreScale.Of(new LogNormalDistribution(2, 0.3), 0, 1000);
        foreach (double z in Scores)
        {
            Assert.Equal(2 * Math.Exp(0.3 * z), scale.ValueAt(z), 1e-12);
            Assert.Equal(z, scale.ScoreOf(2 * Math.Exp(0.3 * z)), 1e-12);
        }
    }

    [Fact]
    public void A_moved_prior_is_of_the_kind_that_it_was()
    {
        var factor = ScoreScale.Of(MovedDistribution.To(new LogNormalDistribution(1, 0.2), 3), 0, 1000);
        var shifted = ScoreScale.Of(MovedDistribution.To(new NormalDistribution(1, 0.2), 3), -1000, 1000);
        var even = ScoreScale.Of(MovedDistribution.To(new UniformDistribution(0, 2), 3), -1000, 1000);
        foreach (double z in Scores)
        {
            Assert.Equal(3 * Math.Exp(0.2 * z), factor.ValueAt(z), 1e-9);
            Assert.Equal(3 + (0.2 * z), shifted.ValueAt(z), 1e-9);
            Assert.Equal(2 + (2 * Share(z)), even.ValueAt(z), 1e-12);
        }
    }

    [Fact]
    public void Any_other_prior_has_run_through_the_same_share()
    {
        var scale = ScoreScale.Of(new UniformDistribution(-1, 4), -10, 10);
        foreach (double z in Scores)
        {
            Assert.Equal(-1 + (5 * Share(z)), scale.ValueAt(z), 1e-12);
            Assert.Equal(z, scale.ScoreOf(-1 + (5 * Share(z))), 1e-6);
        }

        Assert.Equal(Normal.InvCDF(0, 1, 1e-12), scale.ScoreOf(-1), 1e-9);
        Assert.Equal(-Normal.InvCDF(0, 1, 1e-12), scale.ScoreOf(4), 1e-3);
    }

    [Fact]
    public void Scores_beyond_six_change_nothing()
    {
        var scale = ScoreScale.Of(new NormalDistribution(10, 2), -100, 100);
        Assert.Equal(22, scale.ValueAt(6.5), 1e-12);
        Assert.Equal(-2, scale.ValueAt(-9), 1e-12);
        Assert.Equal(21.8, scale.ValueAt(5.9), 1e-12);
    }

    [Fact]
    public void Limits_hold_where_hardly_anything_lies_beyond_them()
    {
        // Beyond 3.9 standard deviations on either side lie 0.000 048: less than one in 10 000 together.
        var scale = ScoreScale.Of(new NormalDistribution(0, 1), -3.9, 3.9);
        Assert.IsType<NormalDistribution>(scale.Prior);
        Assert.Equal(3.8, scale.ValueAt(3.8), 1e-12);
        Assert.Equal(3.9, scale.ValueAt(5));
        Assert.Equal(-3.9, scale.ValueAt(-5));
    }

    [Theory]
    [InlineData(-3.85, 3.85)]
    [InlineData(-3.7, 50)]
    [InlineData(-50, 3.7)]
    [InlineData(0.5, 2)]
    public void A_prior_that_loses_more_is_cut(double low, double high)
    {
        var scale = ScoreScale.Of(new NormalDistribution(0, 1), low, high);
        Assert.Equal(low < -40 ? double.NegativeInfinity : low, scale.Prior.Lowest < -40 ? double.NegativeInfinity : scale.Prior.Lowest);
        foreach (double z in Scores)
        {
            double value = scale.ValueAt(z);
            Assert.InRange(value, low, high);
            Assert.Equal(Share(z), (Share(value) - Share(low)) / (Share(high) - Share(low)), 1e-9);
        }
    }

    [Theory]
    [InlineData(-3.7, 50)]
    [InlineData(-50, 3.8)]
    public void One_side_alone_decides_too(double low, double high) =>
        Assert.Equal(high < 50, ScoreScale.Of(new NormalDistribution(0, 1), low, high).Prior is NormalDistribution);

    [Fact]
    public void A_number_about_zero_has_its_deviation_or_none()
    {
        var clock = ScoreScale.AboutZero(5);
        Assert.Equal(5, clock.ValueAt(1), 1e-12);
        Assert.Equal(-30, clock.ValueAt(-6), 1e-12);
        Assert.Equal(-0.4, clock.ScoreOf(-2), 1e-12);
        var none = ScoreScale.AboutZero(0);
        Assert.Equal(0, none.ValueAt(6), 1e-200);
        Assert.InRange(none.Posterior(1, 0.5).StandardDeviation, double.Epsilon, 1e-200);
    }

    [Fact]
    public void What_is_known_of_a_normal_number_is_normal()
    {
        var scale = ScoreScale.Of(new NormalDistribution(-10, 2), -100, 100);
        NormalDistribution known = Assert.IsType<NormalDistribution>(scale.Posterior(0.5, 0.4));
        Assert.Equal(-9, known.Mean, 1e-12);
        Assert.Equal(0.8, known.StandardDeviation, 1e-12);
        Assert.Equal(1e-11, Assert.IsType<NormalDistribution>(scale.Posterior(0, 0)).StandardDeviation, 1e-14); // 1e-12 of its size.
    }

    [Fact]
    public void What_is_known_of_a_log_normal_number_is_log_normal()
    {
        var scale = ScoreScale.Of(new LogNormalDistribution(2, 0.3), 0, 1000);
        LogNormalDistribution known = Assert.IsType<LogNormalDistribution>(scale.Posterior(-2, 0.5));
        Assert.Equal(2 * Math.Exp(-0.6), known.Median, 1e-12);
        Assert.Equal(0.15, known.LogStandardDeviation, 1e-12);
        Assert.Equal(1e-9, Assert.IsType<LogNormalDistribution>(scale.Posterior(0, 0)).LogStandardDeviation, 1e-15);
    }

    [Fact]
    public void What_is_known_of_any_other_number_has_its_outer_quantiles()
    {
        var positive = ScoreScale.Of(new UniformDistribution(0, 4), -10, 10);
        double low = 4 * Share(0.5 - (HalfWidth * 0.3)), high = 4 * Share(0.5 + (HalfWidth * 0.3));
        LogNormalDistribution known = Assert.IsType<LogNormalDistribution>(positive.Posterior(0.5, 0.3));
        Assert.Equal(low, known.Quantile(0.025), 1e-9);
        Assert.Equal(high, known.Quantile(0.975), 1e-9);

        var either = ScoreScale.Of(new UniformDistribution(-1, 3), -10, 10);
        NormalDistribution about = Assert.IsType<NormalDistribution>(either.Posterior(0.5, 0.3));
        Assert.Equal(low - 1, about.Quantile(0.025), 1e-9);
        Assert.Equal(high - 1, about.Quantile(0.975), 1e-9);
    }

    [Fact]
    public void Where_nothing_was_learnt_the_prior_stays_as_it_was()
    {
        var scale = ScoreScale.Of(new UniformDistribution(1, 4), -10, 10);
        Assert.Same(scale.Prior, scale.Posterior(0, 0.951));
        Assert.IsType<LogNormalDistribution>(scale.Posterior(0, 0.95));
        Assert.Same(scale.Prior, scale.Posterior(9, 0.1)); // Both ends beyond the furthest score: one value.
    }
}
