using FlowSim.Bottling;
using MathNet.Numerics.Distributions;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>Rules of one's own, questions and plans: what is refused by which name, and the arithmetic of plans and chances by hand.</summary>
public class NetWeightCheckTests
{
    private static readonly SamplingPlan Plan = new(100, 500, 30, 1, 3, 30, 4, 30);

    private static NetWeightRule Own(ToleranceBand[]? bands = null, ShortfallLimit[]? limits = null, SamplingPlan[]? plans = null) =>
        NetWeightRules.ByName("eu") with { Bands = bands ?? [], Limits = limits ?? [], Plans = plans ?? [] };

    private static ToleranceBand Band(double from, double to, double? percent, double? grams) => new(
        Mass.FromGrams(from), Mass.FromGrams(to), percent is { } share ? Ratio.FromPercent(share) : null, grams is { } mass ? Mass.FromGrams(mass) : null);

    private static string? Blamed(NetWeightRule rule) => Assert.ThrowsAny<ArgumentException>(rule.Require).ParamName;

    private static NetWeightRule With(string part, double value) => part switch
    {
        nameof(ToleranceBand.From) => Own([Band(value, 1e6, null, 1)]),
        nameof(ToleranceBand.To) => Own([Band(100, value, null, 1)]),
        nameof(ToleranceBand.Share) => Own([Band(0, 1, value, null)]),
        nameof(ToleranceBand.Amount) => Own([Band(0, 1, null, value)]),
        nameof(ShortfallLimit.Multiple) => Own(limits: [new(value, Ratio.Zero)]),
        nameof(ShortfallLimit.ShareAllowed) => Own(limits: [new(1, Ratio.FromPercent(value))]),
        nameof(SamplingPlan.LotFrom) => Own(plans: [Plan with { LotFrom = (int)value }]),
        nameof(SamplingPlan.LotTo) => Own(plans: [Plan with { LotTo = (int)value }]),
        nameof(SamplingPlan.First) => Own(plans: [Plan with { First = (int)value, FirstAccept = 0, FirstReject = 1, BothAccept = 1 }]),
        nameof(SamplingPlan.FirstAccept) => Own(plans: [Plan with { FirstAccept = (int)value, FirstReject = (int)value + 1, BothAccept = 30 }]),
        nameof(SamplingPlan.FirstReject) => Own(plans: [Plan with { FirstReject = (int)value, BothAccept = 30 }]),
        nameof(SamplingPlan.Second) => Own(plans: [Plan with { Second = (int)value }]),
        nameof(SamplingPlan.BothAccept) => Own(plans: [Plan with { BothAccept = (int)value }]),
        nameof(SamplingPlan.ForAverage) => Own(plans: [Plan with { ForAverage = (int)value }]),
        _ => throw new NotSupportedException(part),
    };

    /// <summary>
    /// A row's upper end is at least its lower one (100 g here); a sample of 30 accepts up to 30, and rejects from one more than it accepts (2) to one more than it holds (31);
    /// both samples accept at least what the first did not reject (2) and at most what they hold (60).
    /// </summary>
    [Theory]
    [InlineData(nameof(ToleranceBand.From), 0, 1e6, 0.1)]
    [InlineData(nameof(ToleranceBand.To), 100, 1e6, 0.1)]
    [InlineData(nameof(ToleranceBand.Share), 0.001, 100, 0.0001)]
    [InlineData(nameof(ToleranceBand.Amount), 0.001, 1e6, 0.0001)]
    [InlineData(nameof(ShortfallLimit.Multiple), 0.01, 100, 0.001)]
    [InlineData(nameof(ShortfallLimit.ShareAllowed), 0, 50, 0.001)]
    [InlineData(nameof(SamplingPlan.LotFrom), 1, 500, 1, "LotTo")]
    [InlineData(nameof(SamplingPlan.LotTo), 100, int.MaxValue, 1, "")]
    [InlineData(nameof(SamplingPlan.First), 1, 1000, 1)]
    [InlineData(nameof(SamplingPlan.FirstAccept), 0, 30, 1)]
    [InlineData(nameof(SamplingPlan.FirstReject), 2, 31, 1)]
    [InlineData(nameof(SamplingPlan.Second), 0, 1000, 1)]
    [InlineData(nameof(SamplingPlan.BothAccept), 2, 60, 1)]
    [InlineData(nameof(SamplingPlan.ForAverage), 2, 1000, 1)]
    public void Rules_of_ones_own(string part, double low, double high, double beyond, string? above = null)
    {
        With(part, low).Require();
        With(part, high).Require();
        Assert.Equal(part, Blamed(With(part, low - beyond)));
        if (above != "")
            Assert.Equal(above ?? part, Blamed(With(part, high + beyond)));
    }

    [Fact]
    public void Parts_that_are_missing_are_named()
    {
        NetWeightRule own = Own();
        own.Require();
        Assert.Equal("rule", Blamed(null!));
        Assert.Equal("rule.Name", Blamed(own with { Name = null! }));
        Assert.Equal("rule.Description", Blamed(own with { Description = null! }));
        Assert.Equal("rule.Source", Blamed(own with { Source = null! }));
        Assert.Equal("rule.Bands", Blamed(own with { Bands = null! }));
        Assert.Equal("rule.Limits", Blamed(own with { Limits = null! }));
        Assert.Equal("rule.Plans", Blamed(own with { Plans = null! }));
        Assert.Equal("Bands", Blamed(Own(bands: [null!])));
        Assert.Equal("Limits", Blamed(Own(limits: [null!])));
        Assert.Equal("Plans", Blamed(Own(plans: [null!])));
        Assert.Equal("Share", Blamed(Own([Band(0, 1, 3, 3)])));
        Assert.Equal("Share", Blamed(Own([Band(0, 1, null, null)])));
    }

    [Theory]
    [InlineData(1000, null)]
    [InlineData(1001, "refused")]
    public void At_most_a_thousand_rows(int rows, string? refused)
    {
        (string Name, NetWeightRule Rule)[] rules =
        [
            (nameof(NetWeightRule.Bands), Own([.. Enumerable.Repeat(Band(0, 1, 3, null), rows)])),
            (nameof(NetWeightRule.Limits), Own(limits: [.. Enumerable.Repeat(new ShortfallLimit(1, Ratio.Zero), rows)])),
            (nameof(NetWeightRule.Plans), Own(plans: [.. Enumerable.Repeat(Plan, rows)])),
        ];
        foreach ((string name, NetWeightRule rule) in rules)
            Assert.Equal(refused is null ? null : name, (Record.Exception(rule.Require) as ArgumentException)?.ParamName);
    }

    private static NetWeightQuestion Asking(string part, double value)
    {
        NetWeightQuestion question = new() { Label = Mass.FromGrams(500), Scatter = Mass.FromGrams(2), Lot = 100 };
        return part switch
        {
            nameof(NetWeightQuestion.Label) => question with { Label = Mass.FromGrams(value), Scatter = Mass.Zero },
            nameof(NetWeightQuestion.Scatter) => question with { Scatter = Mass.FromGrams(value) },
            nameof(NetWeightQuestion.ScatterFrom) => question with { ScatterFrom = (int)value },
            nameof(NetWeightQuestion.Lot) => question with { Lot = (int)value },
            nameof(NetWeightQuestion.TolerableShortfall) => question with { TolerableShortfall = Mass.FromGrams(value) },
            nameof(NetWeightQuestion.Confidence) => question with { Confidence = Ratio.FromPercent(value) },
            _ => throw new NotSupportedException(part),
        };
    }

    [Theory]
    [InlineData(nameof(NetWeightQuestion.Label), 5, 45_000, 0.001)]
    [InlineData(nameof(NetWeightQuestion.Scatter), 0, 100, 0.001)]
    [InlineData(nameof(NetWeightQuestion.ScatterFrom), 3, 10_000, 1)]
    [InlineData(nameof(NetWeightQuestion.Lot), 1, 200_000, 1)]
    [InlineData(nameof(NetWeightQuestion.TolerableShortfall), 0.01, 500, 0.001)]
    [InlineData(nameof(NetWeightQuestion.Confidence), 50, 99.99, 0.001)]
    public void Questions(string part, double low, double high, double beyond)
    {
        Asking(part, low).Require();
        Asking(part, high).Require();
        Assert.Equal(part, Assert.Throws<ArgumentOutOfRangeException>(Asking(part, low - beyond).Require).ParamName);
        Assert.Equal(part, Assert.Throws<ArgumentOutOfRangeException>(Asking(part, high + beyond).Require).ParamName);
        Assert.Equal("rule", Assert.Throws<ArgumentNullException>((Asking(part, low) with { Rule = null! }).Require).ParamName);
    }

    /// <summary>Rows and their ends by the directive's table: both rows agree where they meet; below 5 g and above 10 kg there is none.</summary>
    [Theory]
    [InlineData(4.99, null)]
    [InlineData(5, 0.5)] // 9 % are 0.45 g, up to a tenth
    [InlineData(40, 3.6)]
    [InlineData(50, 4.5)]
    [InlineData(75, 4.5)]
    [InlineData(150, 6.8)] // 4.5 % are 6.75 g
    [InlineData(250, 9.0)]
    [InlineData(400, 12.0)]
    [InlineData(700, 15.0)]
    [InlineData(2000, 30.0)]
    [InlineData(10_000, 150.0)]
    [InlineData(10_000.01, null)]
    public void Tolerable_errors_row_by_row(double label, double? grams) =>
        Assert.Equal(grams, NetWeightRules.ByName("eu").TolerableShortfall(Mass.FromGrams(label))?.Grams is { } found ? Math.Round(found, 9) : null);

    /// <summary>A row is found by both of its ends, where rows leave gaps between them.</summary>
    [Fact]
    public void Rows_with_gaps_between_them()
    {
        NetWeightRule rule = Own([Band(10, 20, null, 1), Band(30, 40, null, 2)]);
        Assert.Equal([null, 1.0, 1, null, 2, 2, null], new[] { 9.9, 10, 20, 25, 30, 40, 40.1 }.Select(grams => rule.TolerableShortfall(Mass.FromGrams(grams))?.Grams));
    }

    [Theory]
    [InlineData(99, 0)]
    [InlineData(100, 30)]
    [InlineData(500, 30)]
    [InlineData(501, 50)]
    [InlineData(3200, 50)]
    [InlineData(3201, 80)]
    [InlineData(10_000, 80)]
    [InlineData(10_001, 0)]
    public void The_plan_of_a_lot(int lot, int first) => Assert.Equal(first, NetWeightRules.ByName("eu").PlanFor(lot)?.First ?? 0);

    /// <summary>
    /// Three jars, none or one may be short; from two on the lot is refused: (1 − p)³ + 3p(1 − p)². With a second sample of two, one short in the first lets it be drawn, and at most two of
    /// both may be short: (1 − p)³ + 3p(1 − p)² · (1 − p²); where two of the first still draw it: + 3p²(1 − p) · (1 − p)².
    /// </summary>
    [Fact]
    public void Counts_by_hand()
    {
        const double p = 0.2, q = 0.8;
        Assert.Equal(q * q * q + 3 * p * q * q, new SamplingPlan(1, 9, 3, 1, 2, 0, 1, 9).ChanceThatCountIsAccepted(p), 1e-14);
        Assert.Equal(q * q * q + 3 * p * q * q * (1 - p * p), new SamplingPlan(1, 9, 3, 0, 2, 2, 2, 9).ChanceThatCountIsAccepted(p), 1e-14);
        Assert.Equal(q * q * q + 3 * p * q * q * (1 - p * p) + 3 * p * p * q * q * q, new SamplingPlan(1, 9, 3, 0, 3, 2, 2, 9).ChanceThatCountIsAccepted(p), 1e-14);

        // Without a second sample nothing comes of what lies between the two numbers.
        Assert.Equal(q * q * q, new SamplingPlan(1, 9, 3, 0, 3, 0, 2, 9).ChanceThatCountIsAccepted(p), 1e-14);
        Assert.Equal(1, Plan.ChanceThatCountIsAccepted(0));
        Assert.Equal(0, Plan.ChanceThatCountIsAccepted(1), 1e-14);
        Assert.Equal("shortShare", Assert.Throws<ArgumentOutOfRangeException>(() => Plan.ChanceThatCountIsAccepted(-0.001)).ParamName);
        Assert.Equal("shortShare", Assert.Throws<ArgumentOutOfRangeException>(() => Plan.ChanceThatCountIsAccepted(1.001)).ParamName);
    }

    /// <summary>Student's t at 0.995 for 29 degrees of freedom is 2.756 (any table); over √30, 0.503, the figure of the directive.</summary>
    [Fact]
    public void The_factor_of_the_average_is_that_of_the_directive()
    {
        Assert.Equal(0.503, SamplingPlan.AverageFactor(30), 0.0005);
        Assert.Equal(0.379, SamplingPlan.AverageFactor(50), 0.0005);
        Assert.Equal(63.657 / Math.Sqrt(2), SamplingPlan.AverageFactor(2), 0.001); // one degree of freedom: t = 63.657
    }

    /// <summary>At the label the test refuses one lot in 200, as its level says; elsewhere it is held against samples that are drawn.</summary>
    [Fact]
    public void The_average_is_accepted_as_often_as_the_level_says()
    {
        Assert.Equal(0.995, Plan.ChanceThatAverageIsAccepted(0), 1e-5);
        Assert.Equal(0, Plan.ChanceThatAverageIsAccepted(-10), 1e-6);
        Assert.Equal(1, Plan.ChanceThatAverageIsAccepted(10), 1e-12);
        Assert.Equal(0, Plan.ChanceThatAverageIsAccepted(-1e6), 1e-12);
        Assert.Equal("aboveLabelInScatters", Assert.Throws<ArgumentOutOfRangeException>(() => Plan.ChanceThatAverageIsAccepted(-1.001e6)).ParamName);
        Assert.Equal("aboveLabelInScatters", Assert.Throws<ArgumentOutOfRangeException>(() => Plan.ChanceThatAverageIsAccepted(1.001e6)).ParamName);

        // Half a scatter below the label, 10 jars.
        SamplingPlan ten = Plan with { ForAverage = 10 };
        var random = new Random(8);
        double[] jars = new double[10];
        int accepted = 0;
        const int Draws = 40_000;
        for (int i = 0; i < Draws; i++)
        {
            Normal.Samples(random, jars, -0.5, 1);
            double mean = jars.Average(), scatter = Math.Sqrt(jars.Sum(jar => (jar - mean) * (jar - mean)) / 9);
            accepted += mean >= -3.2498 / Math.Sqrt(10) * scatter ? 1 : 0; // t(0.995; 9) = 3.2498 (any table)
        }

        Assert.Equal((double)accepted / Draws, ten.ChanceThatAverageIsAccepted(-0.5), 4 * Math.Sqrt(0.25 / Draws));
    }

    [Fact]
    public void Chances_of_too_many_short()
    {
        Assert.Equal(1 - Math.Pow(0.9, 20) - 20 * 0.1 * Math.Pow(0.9, 19), LotChance.TooManyShort(0.1, 20, 1), 1e-13);
        Assert.Equal(20e-18, LotChance.TooManyShort(1e-18, 20, 0), 1e-30); // what 1 − 1 would round away
        Assert.Equal(0, LotChance.TooManyShort(0.1, 20, 20));
        Assert.Equal(Math.Pow(0.1, 20), LotChance.TooManyShort(0.1, 20, 19), 1e-15);
    }

    /// <summary>2 % of 120 are 2.4: two; of 50 exactly one; of 49 none.</summary>
    [Theory]
    [InlineData(120, 2)]
    [InlineData(50, 1)]
    [InlineData(150, 3)]
    [InlineData(49, 0)]
    public void Jars_that_may_be_short(int lot, int allowed) => Assert.Equal(allowed, LotChance.Allowed(new ShortfallLimit(1, Ratio.FromPercent(2)), lot));

    /// <summary>The chance of a broken rule, summed by hand: the average, at Φ(−√N (μ − Q)/σ), and one jar in a lot of one beyond the tolerable error.</summary>
    [Fact]
    public void What_breaks_a_rule_by_hand()
    {
        ShortfallLimit[] none = [new(1, Ratio.Zero)];
        double average = Normal.CDF(0, 1, -2), jar = Normal.CDF(0, 1, -3);
        Assert.Equal(average + jar, LotChance.BreaksRule(506, 3, 1, 500, 3, none), 1e-12);
        Assert.Equal(average, LotChance.BreaksRule(506, 3, 1, 500, 0, none), 1e-15);
        Assert.Equal(Normal.CDF(0, 1, -4), LotChance.BreaksRule(506, 3, 4, 500, 0, none), 1e-15);
    }

    /// <summary>Where the average decides, the target is Q + z σ/√N (z = 1.644854 at 95 %, any table), what is above the label the rest of that; half the scatter gives away half.</summary>
    [Fact]
    public void Target_and_what_is_above_the_label()
    {
        TargetFill fill = TargetFill.Of(Asking(nameof(NetWeightQuestion.Lot), 100));
        Assert.Equal(1.644854 * 0.2, fill.AboveLabel.Grams, 1e-5);
        Assert.Equal(500 + 1.644854 * 0.1, fill.TargetAtHalfScatter.Grams, 1e-5);
        Assert.Equal(FillLimit.Average, fill.Binds);
        Assert.Equal(30, fill.Plan!.First);
        Assert.Equal(60, fill.JarsToWeigh);
        Assert.Equal(7, TargetFill.Of(Asking(nameof(NetWeightQuestion.Lot), 7)).JarsToWeigh);
    }

    /// <summary>
    /// What officials would find at the target: their count, with the chance of one short jar there, and their average, with what is above the label in scatters. Without scatter both
    /// accept; without a tolerable error nothing is counted, without a plan nothing is judged; a scatter of a billionth of the label is none.
    /// </summary>
    [Fact]
    public void What_officials_find()
    {
        NetWeightQuestion question = Asking(nameof(NetWeightQuestion.Scatter), 9);
        TargetFill fill = TargetFill.Of(question);
        double above = fill.Target.Grams - 500, shortJar = Normal.CDF(0, 1, (-15 - above) / 9);
        Assert.InRange(shortJar, 1e-6, 0.02);
        Assert.Equal(Plan.ChanceThatCountIsAccepted(shortJar), fill.ChanceCountAccepted!.Value.DecimalFractions, 1e-12);
        Assert.InRange(fill.ChanceCountAccepted.Value.DecimalFractions, 0.9, 1 - 1e-9);
        Assert.Equal(Plan.ChanceThatAverageIsAccepted(above / 9), fill.ChanceAverageAccepted!.Value.DecimalFractions, 1e-12);

        TargetFill even = TargetFill.Of(question with { Scatter = Mass.Zero });
        Assert.Equal((1.0, 1.0), (even.ChanceCountAccepted!.Value.DecimalFractions, even.ChanceAverageAccepted!.Value.DecimalFractions));
        Assert.Equal(0, TargetFill.Of(question with { Scatter = Mass.FromGrams(4e-7) }).ScatterUsed.Grams);
        Assert.Equal(6e-7, TargetFill.Of(question with { Scatter = Mass.FromGrams(6e-7) }).ScatterUsed.Grams, 1e-15);

        TargetFill uncounted = TargetFill.Of(question with { Rule = Own(plans: [Plan]) });
        Assert.Null(uncounted.ChanceCountAccepted);
        Assert.NotNull(uncounted.ChanceAverageAccepted);
        TargetFill unjudged = TargetFill.Of(question with { Lot = 50 });
        Assert.Null(unjudged.ChanceCountAccepted);
        Assert.Null(unjudged.ChanceAverageAccepted);
    }

    /// <summary>With 2 g of scatter in a lot of 100 the target is 1.644854/√100 scatters above the label, and there the test of the average accepts nearly always.</summary>
    [Fact]
    public void The_average_at_the_target()
    {
        TargetFill fill = TargetFill.Of(Asking(nameof(NetWeightQuestion.Scatter), 2));
        Assert.Equal(Plan.ChanceThatAverageIsAccepted(1.644854 / 10), fill.ChanceAverageAccepted!.Value.DecimalFractions, 1e-6);
        Assert.InRange(fill.ChanceAverageAccepted.Value.DecimalFractions, 0.995, 1 - 1e-6);
    }
}
