using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

public class TargetWatchTests
{
    private static DynamicViscosity Pas(double pascalSeconds) => DynamicViscosity.FromPascalSeconds(pascalSeconds);

    private static TargetWatch Watch(params WarmingTarget[] targets) => new(targets, new PlainStuff { ViscosityPaSNow = 8, ThinsPerK = 0.1 });

    [Fact]
    public void Temperatures_are_as_far_off_as_they_are()
    {
        TargetWatch watch = Watch(WarmingTarget.Mean(Celsius(30)), WarmingTarget.Coldest(Celsius(30)), WarmingTarget.CooledTo(Celsius(30)));
        Assert.Equal(3, watch.Count);
        Assert.Equal(-2, watch.Gap(0, 301.15, 299.15, 1), 1e-9);
        Assert.Equal(-4, watch.Gap(1, 301.15, 299.15, 1), 1e-9);
        Assert.Equal(2, watch.Gap(2, 301.15, 299.15, 1), 1e-9);
        Assert.Equal(3, watch.Gap(0, 306.15, 299.15, 1), 1e-9);
    }

    /// <summary>8 Pa·s at 300 K, and e^−1 of that 10 K above.</summary>
    [Fact]
    public void Viscosities_are_as_far_off_as_their_logarithm_and_thin_honey_has_no_crystals()
    {
        TargetWatch watch = Watch(WarmingTarget.Thin(Pas(2)), WarmingTarget.Thick(Pas(2)), WarmingTarget.NoCrystals);
        Assert.Equal(-Math.Log(4), watch.Gap(0, 300, 0, 0), 1e-12);
        Assert.Equal(Math.Log(4), watch.Gap(1, 300, 0, 0), 1e-12);
        Assert.Equal(-Math.Log(4) + 1, watch.Gap(0, 310, 0, 0), 1e-12);
        Assert.Equal(Math.Log(4) - 1, watch.Gap(1, 310, 0, 1), 1e-12);
        Assert.Equal(0.01, watch.Gap(2, 300, 0, 0), 1e-12);
        Assert.Equal(-0.29, watch.Gap(2, 300, 0, 0.3), 1e-12);

        // Thin enough, but granular still; no more than 1 % of them.
        Assert.Equal(-0.29, watch.Gap(0, 330, 0, 0.3), 1e-12);
        Assert.Equal(0.005, watch.Gap(0, 330, 0, 0.005), 1e-12);
        Assert.Equal(0.01, TargetWatch.GoneBelow);
    }

    [Fact]
    public void All_are_reached_when_the_last_is()
    {
        TargetWatch watch = Watch(WarmingTarget.NoCrystals, WarmingTarget.NoCrystals, WarmingTarget.NoCrystals);
        Assert.Null(watch.AllReachedS);
        watch.ReachedS[1] = 70;
        Assert.Equal([false, true, false], Enumerable.Range(0, 3).Select(watch.IsReached));
        Assert.Null(watch.AllReachedS);
        watch.ReachedS[0] = 0;
        watch.ReachedS[2] = 30;
        Assert.Equal(70, watch.AllReachedS);
        Assert.Null(Watch().AllReachedS);
    }
}
