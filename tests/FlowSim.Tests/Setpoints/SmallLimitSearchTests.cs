using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>What stands in the way of the small batch: limits that bind, limits that none keeps, and what is then nearest.</summary>
public class SmallLimitSearchTests
{
    private static SetpointAnswer Found(Func<SetpointLimits, SetpointLimits> limits, Func<SetpointQuestion, SetpointQuestion>? change = null)
    {
        SetpointQuestion question = With(limits);
        return SetpointSearch.Find(change is null ? question : change(question));
    }

    /// <summary>Straining within some minutes asks for warmer honey, found to a tenth of a degree: a tenth colder takes too long.</summary>
    private static SetpointAnswer StrainedWithin(double minutes, double strainC)
    {
        SetpointAnswer answer = Found(limits => limits with { LongestStraining = Duration.FromMinutes(minutes), WarmestAtStrainer = C(strainC + 1) }, q => q with { Lowest = C(40) });
        Assert.Equal(strainC, answer.Choice!.StrainAt.DegreesCelsius, 0.002);
        Assert.True(answer.Choice.StrainTime.Minutes <= minutes);
        Assert.True(Strained(strainC - 0.1) > 60 * minutes);
        return answer;
    }

    private static double Strained(double celsius) => ByHand(45, celsius).Straining.Strain.To95!.Value.Seconds;

    /// <summary>Of two limits the one without which the job would be done sooner: without the ceiling 45 °C, without the other straining at 30 °C already.</summary>
    [Theory]
    [InlineData(6, 36.6, PlanLimit.StrainingTime)]
    [InlineData(10.5, 30.6, PlanLimit.Ceiling)]
    public void The_limit_that_binds_is_the_one_that_costs_most(double minutes, double strainC, PlanLimit binding)
    {
        SetpointAnswer answer = StrainedWithin(minutes, strainC);
        double hotter = SmallBatch.Seconds(ByHand(45, strainC)), colder = SmallBatch.Seconds(ByHand(40, 30));
        Assert.Equal(binding, hotter < colder ? PlanLimit.Ceiling : PlanLimit.StrainingTime);
        Assert.Equal(binding, answer.BindingLimit);

        // Beyond the ceiling the curve has plans that break it alone, not the sooner ones that take too long at the strainer.
        Assert.All(answer.Curve.Skip(1), point => Assert.Equal([PlanLimit.Ceiling], point.Broken));
    }

    /// <summary>No wall hotter than 35 °C: that is so up to some tenth of a degree between 40 and 42 °C, and a tenth more is too much.</summary>
    [Fact]
    public void The_wall_may_bind_between_two_degrees()
    {
        SetpointAnswer answer = Found(limits => limits with { Ceiling = C(42), HottestWall = C(35) }, q => q with { Lowest = C(40) });
        double setpointC = answer.Choice!.Setpoint.DegreesCelsius;
        Assert.True(setpointC is > 40.05 and < 40.95 or > 41.05 and < 41.95);
        Assert.True(ByHand(setpointC, 30).Warming.HottestWall.Temperature <= C(35));
        Assert.True(ByHand(setpointC + 0.1, 30).Warming.HottestWall.Temperature > C(35));
        Assert.Equal(PlanLimit.Wall, answer.BindingLimit);
        Assert.Equal([PlanLimit.Wall], answer.Curve[2].Broken);
        Assert.Equal([PlanLimit.Ceiling, PlanLimit.Wall], answer.Curve[3].Broken);
    }

    /// <summary>By its power alone the body stays far below 58 °C: a hotter setpoint changes nothing, and nothing stands in the way.</summary>
    [Fact]
    public void Where_the_ceiling_is_out_of_reach_nothing_binds()
    {
        HeatingKit weak = SmallBatch.Plain().Warming.Heating with { HeaterPower = Power.FromWatts(60) };
        SetpointAnswer free = Found(limits => limits with { Ceiling = C(58) }, q => q with { Lowest = C(58), Warming = q.Warming with { Heating = weak } });
        Assert.Null(free.BindingLimit);
        Assert.Equal(0, free.TimeADegreeBuys!.Value.Seconds, 5.0);
    }

    /// <summary>Straining within 6 min takes 36.6 °C: at most 35 °C for wax or for hands, and none does.</summary>
    [Theory]
    [InlineData(false, PlanLimit.WaxAtStrainer)]
    [InlineData(true, PlanLimit.Burn)]
    public void Wax_and_hands_stand_in_the_way_of_warm_straining(bool hands, PlanLimit limit)
    {
        SetpointAnswer answer = Found(
            limits => limits with { LongestStraining = Duration.FromMinutes(6), WarmestAtStrainer = C(hands ? 37 : 35), WarmestForHands = hands ? C(35) : null }, q => q with { Lowest = C(40) });
        Assert.Equal(SetpointStatus.NoneMeetsTheLimits, answer.Status);
        Assert.All(answer.NearestMiss!.Misses, miss => Assert.True(miss.Limit == limit || miss.Limit == PlanLimit.StrainingTime));
        Assert.All(answer.Curve, point => Assert.False(point.Allowed));
    }

    /// <summary>
    /// An hour for all: 38 °C takes longer than that to warm, 39 °C is a kelvin over the ceiling and some minutes late, 41 °C three kelvins over. Nearest is the
    /// least sum of shares: 1/10 + 0.1 at 39 °C against 2/10 + 0.01 at 40 °C and 3/10 at 41 °C.
    /// </summary>
    [Fact]
    public void The_nearest_miss_has_the_least_sum_of_what_it_misses()
    {
        SetpointAnswer answer = Found(limits => limits with { Ceiling = C(38), Longest = Duration.FromHours(1) }, q => q with { Lowest = C(36) });
        Assert.Null(answer.Choice);
        Assert.Null(answer.RunnerUp);
        Assert.Null(answer.Bounds);
        Assert.Null(answer.TimeADegreeBuys);
        Assert.Null(answer.BindingLimit);
        Assert.Empty(answer.Cautions);
        NearestMiss miss = answer.NearestMiss!;
        Assert.Equal(39, miss.Plan.Setpoint.DegreesCelsius, 1e-9);
        Assert.Equal([PlanLimit.Ceiling, PlanLimit.Time], miss.Misses.Select(m => m.Limit));
        Assert.Contains("1.0 K above the limit of 38 °C", miss.Misses[0].ByHowMuch, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"{miss.Plan.Total.Hours - 1:0.0} h longer"), miss.Misses[1].ByHowMuch, StringComparison.Ordinal);
        Assert.NotNull(miss.Plan.Warming); // Run as a whole.
        Assert.InRange(miss.Plan.Total.Hours - 1, 0.05, 0.11);

        // Nothing is warm enough within the hour up to 38 °C: no plan, and no limit that it would break.
        foreach (CurvePoint point in answer.Curve.Take(3))
            Assert.Equal((false, null, 0), (point.Allowed, point.Plan, point.Broken.Count));
        Assert.All(answer.Curve.Skip(3), point => Assert.NotNull(point.Plan));
        Assert.Equal([PlanLimit.Ceiling], answer.Curve[^1].Broken);
    }

    /// <summary>Coarse crystals are gone at some 65 °C: beyond the curve it is tried every 5 K, and the coldest that gets there is nearest.</summary>
    [Fact]
    public void Where_nothing_gets_there_it_is_looked_for_far_above_the_ceiling()
    {
        SetpointAnswer answer = Found(limits => limits with { WarmestAtStrainer = C(70) }, q => q with { Warming = q.Warming with { Crystals = Crystals.Coarse() } });
        Assert.Equal(8 + 11 + 1, answer.WarmingRuns); // The curve, 50 to 100 °C, and the nearest as a whole.
        Assert.Equal(65, answer.NearestMiss!.Plan.Setpoint.DegreesCelsius, 1e-9);
        Assert.Contains(answer.NearestMiss.Misses, miss => miss.Limit == PlanLimit.Ceiling && miss.ByHowMuch.Contains("25.0 K above", StringComparison.Ordinal));
        Assert.All(answer.Curve, point => Assert.Null(point.Plan));
        Assert.Contains(WarmingTarget.NoCrystals, answer.NearestMiss.Plan.Warming!.Setup.Targets);
        Assert.True(answer.NearestMiss.Plan.Warming.CrystalsLeft.DecimalFractions <= 0.01 * 0.15 * 1.01);
    }

    /// <summary>Straining from 60 °C on is 15 K beyond the curve; where wax forbids it altogether there is not even a miss.</summary>
    [Fact]
    public void Straining_that_is_wanted_warmer_than_the_curve_is_looked_for_above_it()
    {
        SetpointAnswer answer = Found(limits => limits with { WarmestAtStrainer = C(70) }, q => q with { ColdestStraining = C(60) });
        Assert.Equal(65, answer.NearestMiss!.Plan.Setpoint.DegreesCelsius, 1e-9);
        Assert.Equal(60, answer.NearestMiss.Plan.StrainAt.DegreesCelsius, 0.01);

        answer = Found(limits => limits, q => q with { ColdestStraining = C(60) });
        Assert.Null(answer.NearestMiss);
        Assert.Equal((SetpointStatus.NoneMeetsTheLimits, 0), (answer.Status, answer.WarmingRuns));
    }

    /// <summary>Without an opening, and with one through which nothing runs in time, the plan cannot be strained; it is told as it was read.</summary>
    [Theory]
    [InlineData(0, 48 * 3600)]
    [InlineData(20, 10)]
    public void What_cannot_be_strained_is_a_miss_of_the_overflow(double percent, double longestS)
    {
        SetpointAnswer answer = Found(
            limits => limits with { Overflow = new SmallBatch.Opened(Ratio.FromPercent(percent)) }, q => q with { Straining = q.Straining with { Longest = Duration.FromSeconds(longestS) } });
        (PlanLimit limit, _) = Assert.Single(answer.NearestMiss!.Misses);
        Assert.Equal(PlanLimit.Overflow, limit);
        SetpointPlan plan = answer.NearestMiss.Plan;
        Assert.Equal((40.0, Ratio.Zero, Duration.Zero, true), (Math.Round(plan.Setpoint.DegreesCelsius, 9), plan.Opening, plan.StrainTime, plan.Warming is null));
        Assert.All(answer.Curve, point => Assert.Contains(PlanLimit.Overflow, point.Broken));
        Assert.Equal(8, answer.WarmingRuns);
    }

    /// <summary>HMF of 8 mg/kg before and at most 8 after: the least gain is the nearest.</summary>
    [Fact]
    public void A_heat_limit_that_none_keeps_is_missed_by_least_where_it_is_gentlest()
    {
        SetpointAnswer answer = Found(limits => limits with { Heat = HeatLimit.House(MgPerKg(8)) });
        Assert.Equal([PlanLimit.Hmf], answer.NearestMiss!.Misses.Select(miss => miss.Limit));
        double least = answer.NearestMiss.Plan.Damage.HmfGainHigh.MilligramsPerKilogram;
        Assert.True(least <= answer.Curve.Where(point => point.Setpoint <= C(40)).Min(point => point.Plan!.Damage.HmfGainHigh.MilligramsPerKilogram) + 1e-6);
    }
}
