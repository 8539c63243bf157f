using FlowSim.Bottling;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>The average system of prepackages by weight.</summary>
[Publication("Council Directive 76/211/EEC", "Annex I, 2.4 and Annex II, 2.2 and 2.3", Standing.Opened, Remark = "in the copy kept by legislation.gov.uk, whose table of errors broke off before its last row; that row, and the rounding upwards to a tenth, from the Italian journal of laws (D.P.R. 690/1978)")]
public class Eec76211Tests
{
    private static readonly NetWeightRule Rule = NetWeightRules.ByName("eu");

    /// <summary>Row by row, at both ends of each; 454 g gives 3 % = 13.62 g, upwards 13.7 g.</summary>
    [Theory]
    [InlineData(5, 0.5)] // 9 % = 0.45
    [InlineData(50, 4.5)]
    [InlineData(50.001, 4.5)]
    [InlineData(75, 4.5)]
    [InlineData(100, 4.5)]
    [InlineData(150, 6.8)] // 4.5 % = 6.75
    [InlineData(200, 9)]
    [InlineData(250, 9)]
    [InlineData(300, 9)]
    [InlineData(350, 10.5)]
    [InlineData(454, 13.7)]
    [InlineData(500, 15)]
    [InlineData(750, 15)]
    [InlineData(1000, 15)]
    [InlineData(2500, 37.5)]
    [InlineData(10_000, 150)]
    public void Tolerable_negative_error(double nominalG, double errorG) =>
        Published.Agrees(errorG, Rule.TolerableShortfall(Mass.FromGrams(nominalG))!.Value.Grams, Within.Rounding(1e-9), $"tolerable negative error of {nominalG} g", "g");

    [Theory]
    [InlineData(4.99)]
    [InlineData(10_001)]
    public void No_row_no_error(double nominalG) => Assert.Null(Rule.TolerableShortfall(Mass.FromGrams(nominalG)));

    /// <summary>Annex II, 2.2.1: the double sampling plan. Aggregate numbers are printed; 2.3.3 gives the sample for the average.</summary>
    [Theory]
    [InlineData(100, 30, 1, 3, 60, 4, 5, 30)]
    [InlineData(500, 30, 1, 3, 60, 4, 5, 30)]
    [InlineData(501, 50, 2, 5, 100, 6, 7, 50)]
    [InlineData(3200, 50, 2, 5, 100, 6, 7, 50)]
    [InlineData(3201, 80, 3, 7, 160, 8, 9, 50)]
    public void Double_sampling_plan(int batch, int first, int accept, int reject, int aggregate, int acceptBoth, int rejectBoth, int forAverage)
    {
        SamplingPlan plan = Rule.PlanFor(batch)!;
        void Same(int published, int ours, string what) => Published.Agrees(published, ours, Within.Rounding(0), $"{what}, batch of {batch}");
        Same(first, plan.First, "first sample");
        Same(accept, plan.FirstAccept, "accepted with so many short");
        Same(reject, plan.FirstReject, "rejected with so many short");
        Same(aggregate, plan.First + plan.Second, "both samples");
        Same(acceptBoth, plan.BothAccept, "both accepted with so many short");
        Same(rejectBoth, plan.BothAccept + 1, "both rejected with so many short");
        Same(forAverage, plan.ForAverage, "sample for the average");
    }

    /// <summary>Batches under 100 are checked whole.</summary>
    [Fact]
    public void No_plan_for_small_batches() => Assert.Null(Rule.PlanFor(99));

    [Theory]
    [Publication("SI 2006/659", "the United Kingdom's regulations of 2006, Schedule 2, 4.5 and 4.6", Standing.Opened)]
    [InlineData(30, 0.503)]
    [InlineData(50, 0.379)]
    [InlineData(20, 0.640)]
    public void Factors_of_the_average(int sample, double factor) =>
        Published.Agrees(factor, SamplingPlan.AverageFactor(sample), Within.HalfDigit(5e-4), $"factor of the standard deviation of {sample} jars");

    /// <summary>At an average equal to the label Student's t of 0.995 accepts 99.5 lots in 100, by its definition.</summary>
    [Theory]
    [InlineData(100)]
    [InlineData(1000)]
    public void The_average_at_the_label(int batch) => Published.Agrees(
        0.995, Rule.PlanFor(batch)!.ChanceThatAverageIsAccepted(0), Within.Absolute(1e-5, "integrated by quadrature"), $"chance that an average at the label is accepted, batch of {batch}");

    /// <summary>The count by hand for the smallest plan at 2.5 % short: P(≤ 1 of 30) + P(2 of 30) · P(≤ 2 of 30), binomial.</summary>
    [Fact]
    public void The_count_by_hand()
    {
        const double p = 0.025;
        double none = Math.Pow(1 - p, 30), one = 30 * p * Math.Pow(1 - p, 29), two = 435 * p * p * Math.Pow(1 - p, 28);
        double accepted = none + one + two * (none + one + two);
        Assert.Equal(accepted, Rule.PlanFor(300)!.ChanceThatCountIsAccepted(p), 1e-12);
        Assert.InRange(accepted, 0.95, 0.97); // A plan for an acceptable quality of 2.5 % accepts about 95 in 100.
        Assert.InRange(Rule.PlanFor(300)!.ChanceThatCountIsAccepted(0.02), 0.97, 0.99);
    }

    [Fact]
    public void What_one_jar_may_be_short() => Assert.Equal([(1, 2), (2, 0)], Rule.Limits.Select(limit => (limit.Multiple, limit.ShareAllowed.Percent)));
}
