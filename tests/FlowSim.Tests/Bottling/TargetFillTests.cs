using FlowSim.Bottling;
using FsCheck.Xunit;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

public class TargetFillTests
{
    private static NetWeightQuestion Question(double labelG, double scatterG, int lot) =>
        new() { Label = Mass.FromGrams(labelG), Scatter = Mass.FromGrams(scatterG), Lot = lot };

    /// <summary>When single jars never come near a tolerable error, the average decides: Q + z(0.95) σ/√N, z = 1.644854 (any table of the normal distribution).</summary>
    [Fact]
    public void The_average_alone_has_a_closed_form()
    {
        TargetFill fill = TargetFill.Of(Question(500, 2, 100));
        Assert.Equal(500 + 1.644854 * 2 / 10, fill.Target.Grams, 1e-5);
        Assert.Equal(FillLimit.Average, fill.Binds);
        Assert.Equal(15, fill.TolerableShortfall!.Value.Grams);
    }

    [Property(Arbitrary = [typeof(Generators)], MaxTest = 200)]
    public void Never_below_the_label_and_never_lower_for_more_scatter_or_confidence(Share label, Share scatter, Share lot)
    {
        double labelG = label.LogBetween(20, 5000), scatterG = labelG * scatter.LogBetween(1e-4, 0.05);
        NetWeightQuestion question = Question(labelG, scatterG, (int)lot.LogBetween(1, 5000));
        TargetFill fill = TargetFill.Of(question);
        TargetFill wider = TargetFill.Of(question with { Scatter = 1.3 * question.Scatter });
        TargetFill surer = TargetFill.Of(question with { Confidence = Ratio.FromPercent(99) });
        TargetFill estimated = TargetFill.Of(question with { ScatterFrom = 12 });
        Assert.True(fill.Target.Grams >= labelG);
        Assert.True(wider.Target >= fill.Target);
        Assert.True(surer.Target >= fill.Target);
        Assert.True(estimated.Target >= fill.Target);
        Assert.True(fill.TargetAtHalfScatter <= fill.Target);
        Assert.InRange(fill.ChanceLotBreaks.DecimalFractions, 0, 0.05 * (1 + 1e-9));
    }

    [Fact]
    public void Without_scatter_the_label_is_the_target()
    {
        TargetFill fill = TargetFill.Of(Question(500, 0, 100));
        Assert.Equal(500, fill.Target.Grams);
        Assert.Equal(FillLimit.Label, fill.Binds);
        Assert.Equal(0, fill.ChanceLotBreaks.DecimalFractions);
        Assert.Equal(1, fill.ChanceCountAccepted!.Value.DecimalFractions);
    }

    [Fact]
    public void A_wide_scatter_is_decided_by_single_jars() => Assert.Equal(FillLimit.SingleJars, TargetFill.Of(Question(500, 15, 400)).Binds);

    [Fact]
    public void Without_a_tolerance_only_the_average_is_kept()
    {
        TargetFill fill = TargetFill.Of(Question(454, 10, 100) with { Rule = NetWeightRules.ByName("us") });
        Assert.Null(fill.TolerableShortfall);
        Assert.Null(fill.Plan);
        Assert.Equal(454 + 1.644854 * 1, fill.Target.Grams, 1e-4);
    }

    /// <summary>Upper limit of a scatter: in 95 of 100 samples it is above the truth; 20 000 samples drawn.</summary>
    [Fact]
    public void The_upper_limit_of_a_scatter_holds()
    {
        var random = new Random(5);
        double[] sample = new double[10];
        int above = 0;
        for (int i = 0; i < 20_000; i++)
        {
            Normal.Samples(random, sample, 500, 3);
            above += SampleSize.UpperLimit(sample.StandardDeviation(), sample.Length) >= 3 ? 1 : 0;
        }

        Assert.Equal(0.95, above / 20_000.0, 0.005);
    }

    /// <summary>As many jars as said notice a mean half a scatter low nine times in ten, with a false alarm in 200: 20 000 samples drawn of known scatter.</summary>
    [Fact]
    public void As_many_jars_as_said_notice_a_short_mean()
    {
        int jars = SampleSize.ToNotice(0.5, 0.005, 0.9);
        Assert.Equal(60, jars); // ((2.5758 + 1.2816)/0.5)² = 59.5
        var random = new Random(6);
        double alarmBelow = -2.5758293 / Math.Sqrt(jars);
        double[] sample = new double[jars];
        double Alarms(double mean)
        {
            int alarms = 0;
            for (int i = 0; i < 20_000; i++)
            {
                Normal.Samples(random, sample, mean, 1);
                alarms += sample.Average() < alarmBelow ? 1 : 0;
            }

            return alarms / 20_000.0;
        }

        Assert.Equal(0.9, Alarms(-0.5), 0.01);
        Assert.Equal(0.005, Alarms(0), 0.002);
    }
}
