using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>Plans written down by hand, held against limits: just at them, just beyond, and by how much.</summary>
public class PlanJudgeTests
{
    private static readonly SetpointLimits Limits = new()
    {
        Ceiling = C(40),
        WarmestAtStrainer = C(36),
        Heat = HeatLimit.House(MgPerKg(11), 14.55),
        Longest = Duration.FromHours(10),
    };

    private static PlanJudge Judge(SetpointLimits limits, HoneyBeforeHeat? before) =>
        new(SmallBatch.Plain() with { Limits = limits, Warming = SmallBatch.Plain().Warming with { Before = before } });

    private static readonly HoneyBeforeHeat Known = new() { Hmf = MgPerKg(8), DiastaseNumber = 15 };

    private static PlanLimit[] Broken(SetpointPlan plan, SetpointLimits? limits = null) => [.. Judge(limits ?? Limits, Known).Judge(plan).Broken];

    /// <summary>The one limit that a plan breaks, with the size of the miss and its words.</summary>
    private static void Misses(PlanLimit limit, double size, string words, SetpointPlan plan, SetpointLimits? limits = null)
    {
        Assert.Equal([limit], Broken(plan, limits));
        (PlanLimit Limit, double Size, string Words) miss = Assert.Single(Judge(limits ?? Limits, Known).MissesOf(plan));
        Assert.Equal(limit, miss.Limit);
        Assert.Equal(size, miss.Size, 1e-9);
        Assert.Contains(words, miss.Words, StringComparison.Ordinal);
    }

    private static void Keeps(SetpointPlan plan, SetpointLimits? limits = null)
    {
        Assert.Empty(Broken(plan, limits));
        Assert.Empty(Judge(limits ?? Limits, Known).MissesOf(plan));
    }

    /// <summary>HMF 8 + 3 = 11 at most 11, diastase 15 · 0.97 = 14.55 at least 14.55: kept over the whole band.</summary>
    [Fact]
    public void A_plan_within_all_limits_breaks_none()
    {
        SetpointPlan judged = Judge(Limits, Known).Judge(Plan());
        Assert.Empty(judged.Broken);
        Assert.Equal(10, judged.After!.Hmf.MilligramsPerKilogram, 1e-9);
        Assert.Equal(LimitConfidence.OverTheWholeBand, judged.HeatCheck!.Overall);
        Keeps(Plan());
    }

    /// <summary>The hotter of setpoint and honey counts, a millionth of a kelvin is rounding, and ten kelvins are a miss of one.</summary>
    [Fact]
    public void The_ceiling_is_for_the_setpoint_and_for_the_honey()
    {
        Keeps(Plan() with { Setpoint = C(40), HottestHoney = C(40) });
        Keeps(Plan() with { Setpoint = C(40 + 0.5e-6) });
        Misses(PlanLimit.Ceiling, 0.2, "2.0 K above the limit of 40 °C", Plan() with { Setpoint = C(42), HottestHoney = C(41) });
        Misses(PlanLimit.Ceiling, 0.15, "1.5 K above the limit of 40 °C", Plan() with { Setpoint = C(41), HottestHoney = C(41.5) });
        Misses(PlanLimit.Ceiling, 2e-7, "above the limit", Plan() with { HottestHoney = C(40 + 2e-6) });
    }

    [Fact]
    public void The_wall_has_a_limit_of_its_own()
    {
        Keeps(Plan() with { HottestWall = C(45) });
        Misses(PlanLimit.Wall, 0.1, "wall 1.0 K above the limit of 45 °C", Plan() with { HottestWall = C(46) });
        Misses(PlanLimit.Wall, 0.3, "wall 3.0 K above the limit of 43 °C", Plan() with { HottestWall = C(46) }, Limits with { HottestWall = C(43) });
        Assert.Equal(45, Limits.WallLimit.DegreesCelsius, 1e-9);
        Assert.Equal(43, (Limits with { HottestWall = C(43) }).WallLimit.DegreesCelsius, 1e-9);
    }

    [Fact]
    public void Honey_on_the_strainer_has_a_limit_for_wax_and_one_for_hands()
    {
        Keeps(Plan() with { StrainAt = C(36) });
        Misses(PlanLimit.WaxAtStrainer, 0.2, "strainer 2.0 K above the limit of 36 °C", Plan() with { StrainAt = C(38) });
        Misses(PlanLimit.Burn, 0.1, "people strain 1.0 K above the limit of 34 °C", Plan(), Limits with { WarmestForHands = C(34) });
        Keeps(Plan(), Limits with { WarmestForHands = C(35) });
    }

    /// <summary>Over the limit by a share of it: 8 + 3 is 1 over 10, a tenth. By the best estimate 8 + 2 counts, by the kind end 8 + 1.</summary>
    [Fact]
    public void Hmf_counts_at_the_end_of_the_band_that_is_asked_for()
    {
        SetpointLimits Of(double most, LimitConfidence confidence) => Limits with { Heat = HeatLimit.House(MgPerKg(most)), Confidence = confidence };

        Misses(PlanLimit.Hmf, 0.1, "HMF 11.0 mg/kg, 1.0 over the limit", Plan(), Of(10, LimitConfidence.OverTheWholeBand));
        Misses(PlanLimit.Hmf, 1.5 / 8.5, "HMF 10.0 mg/kg, 1.5 over the limit", Plan(), Of(8.5, LimitConfidence.AtTheBestEstimate));
        Misses(PlanLimit.Hmf, 0.125, "HMF 9.0 mg/kg, 1.0 over the limit", Plan(), Of(8, LimitConfidence.OnlyAtTheKindEnd));
        Keeps(Plan(), Of(10, LimitConfidence.AtTheBestEstimate));
        Keeps(Plan(), Of(9, LimitConfidence.OnlyAtTheKindEnd));

        // Of a limit below 1 mg/kg the share is not of next to nothing: 11 over none is 11.
        Misses(PlanLimit.Hmf, 11, "11.0 over the limit", Plan(), Of(0, LimitConfidence.OverTheWholeBand));
        Misses(PlanLimit.Hmf, 10.5, "10.5 over the limit", Plan(), Of(0.5, LimitConfidence.OverTheWholeBand));
    }

    /// <summary>15 · 0.97 = 14.55 at the low end, 14.7 by the best estimate, 14.85 at the kind end.</summary>
    [Fact]
    public void Diastase_counts_at_the_end_of_the_band_that_is_asked_for()
    {
        SetpointLimits Of(double least, LimitConfidence confidence) => Limits with { Heat = HeatLimit.House(diastaseAtLeast: least), Confidence = confidence };

        Misses(PlanLimit.Diastase, 0.2 / 14.75, "0.2 under the limit", Plan(), Of(14.75, LimitConfidence.OverTheWholeBand));
        Misses(PlanLimit.Diastase, 0.3 / 15, "diastase number 14.7, 0.3 under the limit", Plan(), Of(15, LimitConfidence.AtTheBestEstimate));
        Misses(PlanLimit.Diastase, 0.15 / 15, "under the limit", Plan(), Of(15, LimitConfidence.OnlyAtTheKindEnd));
        Keeps(Plan(), Of(14.7, LimitConfidence.AtTheBestEstimate));
        Keeps(Plan(), Of(14.85, LimitConfidence.OnlyAtTheKindEnd));
        Misses(PlanLimit.Diastase, 0.5, "0.5 under the limit", Plan() with { Damage = Damage(1, 2, 3, 0, 0, 0) }, Of(0.5, LimitConfidence.OverTheWholeBand));
    }

    [Fact]
    public void Without_an_opening_there_is_no_straining()
    {
        Misses(PlanLimit.Overflow, 1, "no opening of the gate", Plan() with { Opening = Ratio.Zero });
        Keeps(Plan() with { Opening = Ratio.FromPercent(0.5) });
    }

    /// <summary>Late by a share of the time: 10 min of 8, 5 h and 10 min of 4.</summary>
    [Fact]
    public void Straining_and_the_whole_job_have_their_longest_times()
    {
        Misses(PlanLimit.StrainingTime, 0.25, "straining takes 2.0 min longer", Plan(), Limits with { LongestStraining = Duration.FromMinutes(8) });
        Keeps(Plan(), Limits with { LongestStraining = Duration.FromMinutes(10) });
        Misses(PlanLimit.Time, (1 + (1 / 6.0)) / 4, "1.2 h longer", Plan(), Limits with { Longest = Duration.FromHours(4) });
        Keeps(Plan() with { WarmTime = Duration.FromHours(9.5), StrainTime = Duration.FromHours(0.5) });
        Misses(PlanLimit.Time, 0.05, "0.5 h longer", Plan() with { WarmTime = Duration.FromHours(10), StrainTime = Duration.FromHours(0.5) });
    }

    [Fact]
    public void All_that_is_broken_is_named_in_the_order_of_the_limits()
    {
        SetpointPlan worst = Plan() with
        {
            Setpoint = C(50), HottestWall = C(60), StrainAt = C(48), Opening = Ratio.Zero, StrainTime = Duration.FromHours(3), WarmTime = Duration.FromHours(9),
            Damage = Damage(90, 90, 90, 0.1, 0.1, 0.1),
        };
        SetpointLimits all = Limits with { WarmestForHands = C(30), LongestStraining = Duration.FromMinutes(30) };
        PlanLimit[] expected =
            [PlanLimit.Ceiling, PlanLimit.Wall, PlanLimit.WaxAtStrainer, PlanLimit.Burn, PlanLimit.Hmf, PlanLimit.Diastase, PlanLimit.Overflow, PlanLimit.StrainingTime, PlanLimit.Time];
        Assert.Equal(expected, Broken(worst, all));
        Assert.Equal(expected, Judge(all, Known).MissesOf(worst).Select(miss => miss.Limit));
    }

    /// <summary>Unknown before, honey has no HMF and no diastase to lose: what is added counts alone, and nothing is said of what is after.</summary>
    [Fact]
    public void Honey_that_is_not_known_is_held_to_what_warming_adds()
    {
        PlanJudge unknown = Judge(Limits with { Heat = HeatLimit.House(MgPerKg(2.5), 14) }, null);
        Assert.False(unknown.KnowsBefore);
        Assert.False(unknown.KnowsDiastase);
        SetpointPlan judged = unknown.Judge(Plan());
        Assert.Null(judged.After);
        Assert.Null(judged.HeatCheck);
        Assert.Equal([PlanLimit.Hmf], judged.Broken);

        PlanJudge half = Judge(Limits, Known with { DiastaseNumber = null });
        Assert.True(half.KnowsBefore);
        Assert.False(half.KnowsDiastase);
        Assert.Empty(half.Judge(Plan()).Broken);
        Assert.NotNull(half.Judge(Plan()).After);
        Assert.True(Judge(Limits, Known) is { KnowsBefore: true, KnowsDiastase: true });
    }
}
