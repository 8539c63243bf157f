using FlowSim.Bottling;
using MathNet.Numerics.Distributions;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>The chance that a lot breaks a rule, and with it the target fill, against lots that are drawn jar by jar.</summary>
public class LotChanceTests
{
    private const int Lots = 20_000;

    /// <summary>
    /// At the target fill no more lots break the rule than was said, to three standard errors of the count; and not far fewer, for the
    /// sum of the parts is nearly the whole.
    /// </summary>
    [Theory]
    [InlineData("eu", 500, 3, 120, 95)] // the average decides
    [InlineData("eu", 500, 12, 120, 95)] // single jars decide
    [InlineData("eu", 250, 6, 40, 90)] // a lot too small for any jar to be beyond
    [InlineData("eu", 30, 1.5, 300, 90)]
    [InlineData("us", 454, 5, 200, 95)]
    public void Lots_that_are_drawn_break_the_rule_as_often_as_said(string rule, double labelG, double scatterG, int lot, double confidencePercent)
    {
        TargetFill fill = TargetFill.Of(new NetWeightQuestion
        {
            Label = Mass.FromGrams(labelG),
            Scatter = Mass.FromGrams(scatterG),
            Lot = lot,
            Rule = NetWeightRules.ByName(rule),
            TolerableShortfall = rule == "us" ? Mass.FromGrams(12) : null, // invented
            Confidence = Ratio.FromPercent(confidencePercent),
        });
        double allowed = 1 - confidencePercent / 100;
        Assert.Equal(allowed, fill.ChanceLotBreaks.DecimalFractions, 1e-6);

        double broken = Broken(fill.Target.Grams, scatterG, lot, labelG, fill.TolerableShortfall!.Value.Grams, fill.Question.Rule.Limits, seed: 3);
        double error = Math.Sqrt(allowed * (1 - allowed) / Lots);
        Assert.InRange(broken, 0.75 * allowed, allowed + 3 * error);
    }

    /// <summary>Share of the lots drawn whose average is short or that have too many short jars: counted, not computed.</summary>
    private static double Broken(double meanG, double scatterG, int lot, double labelG, double toleranceG, IReadOnlyList<ShortfallLimit> limits, int seed)
    {
        var random = new Random(seed);
        int broken = 0;
        double[] fills = new double[lot];
        for (int i = 0; i < Lots; i++)
        {
            Normal.Samples(random, fills, meanG, scatterG);
            bool breaks = fills.Average() < labelG
                || limits.Any(limit => fills.Count(fill => fill < labelG - limit.Multiple * toleranceG) > limit.ShareAllowed.DecimalFractions * lot);
            broken += breaks ? 1 : 0;
        }

        return (double)broken / Lots;
    }

    /// <summary>Parts with a closed form: the average at the label is short half the time; one jar of one is short as one jar is.</summary>
    [Fact]
    public void Parts()
    {
        Assert.Equal(0.5, LotChance.AverageShort(500, 3, 77, 500), 1e-15);
        Assert.Equal(0.158655253931457, LotChance.JarShort(500, 15, 500, 15), 1e-12); // Φ(−1)
        Assert.Equal(1 - Math.Pow(0.9, 20), LotChance.TooManyShort(0.1, 20, 0), 1e-14);
        Assert.Equal(1 - Math.Pow(0.9, 20) - 20 * 0.1 * Math.Pow(0.9, 19), LotChance.TooManyShort(0.1, 20, 1), 1e-13);
        Assert.Equal(0, LotChance.TooManyShort(0.1, 20, 20));
        Assert.Equal(1, LotChance.TooManyShort(1, 20, 0));
        Assert.InRange(LotChance.BreaksRule(510, 3, 100, 500, 15, NetWeightRules.ByName("eu").Limits), 0, 1e-12);
    }
}
