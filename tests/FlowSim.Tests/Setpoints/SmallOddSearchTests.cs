using FlowSim.Setpoints;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>Searches in which something is odd: a limit that throws, one that cold honey does not keep, and straining at the very end of what is tried.</summary>
public class SmallOddSearchTests
{
    /// <summary>What a limit throws on one of several threads is told as if there were none.</summary>
    [Fact]
    public void What_a_limit_throws_comes_through()
    {
        NotSupportedException thrown = Assert.Throws<NotSupportedException>(() => SetpointSearch.Find(With(limits => limits with { Overflow = new Broken() }) with { Lowest = C(40) }));
        Assert.Equal("broken", thrown.Message);
    }

    /// <summary>
    /// Below 31.75 °C no opening keeps the strainer from running over: such plans have no straining, and seem the soonest. They are no choice, bind nothing, and
    /// stand on no curve where there is one that can be strained.
    /// </summary>
    [Fact]
    public void A_plan_that_cannot_be_strained_is_not_the_soonest()
    {
        SetpointAnswer answer = SetpointSearch.Find(With(limits => limits with { Overflow = new TightWhenCold(), WarmestAtStrainer = C(50) }) with { Lowest = C(40) });
        double at40 = SmallBatch.Seconds(ByHand(40, 31.8)), at41 = SmallBatch.Seconds(ByHand(41, 31.8));
        Assert.Equal(31.8, answer.Choice!.StrainAt.DegreesCelsius, 0.002);
        Assert.Equal(at40, answer.Choice.Total.Seconds, 0.1);
        Assert.Equal(PlanLimit.Ceiling, answer.BindingLimit);
        Assert.Equal([40, 41, 42, 43, 44, 45], answer.Curve.Select(point => Math.Round(point.Setpoint.DegreesCelsius, 9)));

        // A trace of the whole way to a mean near the setpoint reads a run to a hundredth.
        Assert.Equal(at40, answer.Curve[0].Plan!.Total.Seconds, 0.008 * at40);
        Assert.Equal(at41, answer.Curve[1].Plan!.Total.Seconds, 0.008 * at41);
        Assert.All(answer.Curve.Skip(1), point => Assert.Equal([PlanLimit.Ceiling], point.Broken));
    }

    /// <summary>Straining wanted at 37.5 °C and no colder, wax allowing no more than 5 K below: the one plan of each setpoint is a miss, and told as one.</summary>
    [Fact]
    public void The_warmest_straining_that_is_tried_is_5_K_above_what_wax_allows()
    {
        SetpointAnswer answer = SetpointSearch.Find(SmallBatch.Plain() with { Lowest = C(40), ColdestStraining = C(37.5) });
        (PlanLimit limit, string words) = Assert.Single(answer.NearestMiss!.Misses);
        Assert.Equal((PlanLimit.WaxAtStrainer, 37.5), (limit, Math.Round(answer.NearestMiss.Plan.StrainAt.DegreesCelsius, 3)));
        Assert.Contains("5.0 K above the limit of 32.5 °C", words, StringComparison.Ordinal);
        Assert.Equal(40, answer.NearestMiss.Plan.Setpoint.DegreesCelsius, 1e-9);
    }

    /// <summary>Wanted at 90 °C, beyond what is known of the honey: no plan, and no refusal either.</summary>
    [Fact]
    public void Straining_beyond_what_is_known_of_the_honey_is_no_plan()
    {
        SetpointAnswer answer = SetpointSearch.Find(With(limits => limits with { WarmestAtStrainer = C(95) }) with { ColdestStraining = C(90) });
        Assert.Equal((SetpointStatus.NoneMeetsTheLimits, 0), (answer.Status, answer.WarmingRuns));
        Assert.Null(answer.NearestMiss);
    }

    /// <summary>Honey of 25 °C that may be strained at 20 or at 25 °C: colder than it is it cannot be, and nothing colder is looked for.</summary>
    [Theory]
    [InlineData(20)]
    [InlineData(25)]
    public void Honey_is_not_strained_colder_than_it_is(double coldestC)
    {
        SetpointAnswer answer = SetpointSearch.Find(SmallBatch.Plain() with { Lowest = C(40), ColdestStraining = C(coldestC) });
        Assert.True(answer.Choice!.StrainAt >= C(25 - 1e-6));
        Assert.NotNull(answer.RunnerUp);
        Assert.Equal(6 + 2, answer.WarmingRuns);
    }

    private sealed record Broken : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => throw new NotSupportedException("broken");
    }

    private sealed record TightWhenCold : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => setup.HoneyTemperature < C(31.75) ? Ratio.Zero : Ratio.FromPercent(20);
    }
}
