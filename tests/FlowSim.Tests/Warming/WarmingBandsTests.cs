using FlowSim.Properties;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>Bounds and spread of a small jar, taken apart into their runs.</summary>
public class WarmingBandsTests
{
    [Fact]
    public void Bounds_are_runs_of_the_three_ways_and_the_times_are_their_ends()
    {
        WarmingSetup jar = SmallJar.InCabinet();
        WarmingOptions options = SmallJar.Coarse with { SeriesPoints = 3, MapTimes = [Duration.Zero] };
        WarmingBounds bounds = WarmingBounds.Of(jar, options);
        foreach ((InsideHeat inside, WarmingResult run) in new[] { (InsideHeat.BestEstimate, bounds.Best), (InsideHeat.WellMixed, bounds.WellMixed), (InsideHeat.ConductionOnly, bounds.ConductionOnly) })
        {
            Assert.Equal(inside, run.Inside);
            Assert.Equal(WarmingRun.Simulate(jar, options with { Inside = inside }).TimeToTarget, run.TimeToTarget);
            bool best = inside == InsideHeat.BestEstimate;
            Assert.Equal((best ? 3 : 0, best ? 1 : 0), (run.Series.TimeS.Count, run.Maps.Count));
        }

        Assert.True(bounds.WellMixed.TimeToTarget < bounds.Best.TimeToTarget && bounds.Best.TimeToTarget < bounds.ConductionOnly.TimeToTarget);
        Assert.Equal(bounds.WellMixed.TimeToTarget, bounds.TimeToTargetLow);
        Assert.Equal(bounds.ConductionOnly.TimeToTarget, bounds.TimeToTargetHigh);

        // They are looked for among all three, whichever is which.
        WarmingBounds turned = bounds with { Best = bounds.ConductionOnly, ConductionOnly = bounds.WellMixed, WellMixed = bounds.Best };
        Assert.Equal((bounds.TimeToTargetLow, bounds.TimeToTargetHigh), (turned.TimeToTargetLow, turned.TimeToTargetHigh));
        WarmingBounds one = bounds with { ConductionOnly = bounds.ConductionOnly with { TimeToTarget = null } };
        Assert.Equal(bounds.WellMixed.TimeToTarget, one.TimeToTargetLow);
        Assert.Null(one.TimeToTargetHigh);
        WarmingResult never = bounds.Best with { TimeToTarget = null };
        Assert.Null(new WarmingBounds { Best = never, WellMixed = never, ConductionOnly = never }.TimeToTargetLow);
        Assert.Throws<OperationCanceledException>(() => WarmingBounds.Of(jar, options, new CancellationToken(true)));
    }

    /// <summary>
    /// Newton's law: the gap to the bath is e^(−n), n in proportion to film over heat capacity, so that one run tells where the corners end, but for the few
    /// percent by which the heat capacity changes on the way.
    /// </summary>
    [Fact]
    public void The_spread_of_a_stirred_jar_in_a_bath_is_that_of_its_exponential()
    {
        WarmingSetup bath = SmallJar.InBath() with { Targets = [], Longest = Duration.FromHours(2) };
        WarmingOptions stirred = SmallJar.Coarse with { Inside = InsideHeat.WellMixed, Tolerance = TemperatureDelta.FromKelvins(1e-3) };
        WarmingResult run = WarmingRun.Simulate(bath, stirred);
        double n = Math.Log(25 / (45 - run.End.Mean.DegreesCelsius)), share = HoneyHeatCapacity.Spread.Amount / 100;
        WarmingSpread spread = WarmingSpread.Of(bath, stirred with { SeriesPoints = 50 });
        double low = 45 - (25 * Math.Exp(-n / 1.2 / (1 + share))), high = 45 - (25 * Math.Exp(-n * 1.2 / (1 - share)));
        Assert.Equal(9, spread.Runs);
        Assert.Equal(low, spread.EndMean.Low.DegreesCelsius, 0.08);
        Assert.Equal(high, spread.EndMean.High.DegreesCelsius, 0.08);

        // Stirred honey has its wall's temperature.
        Assert.Equal(spread.EndMean.Low.Kelvins, spread.HottestWall.Low.Kelvins, 1e-9);
        Assert.Equal(spread.EndMean.High.Kelvins, spread.HottestWall.High.Kelvins, 1e-9);
        Assert.True(spread.HmfGain.Low < run.Damage.HmfGain && run.Damage.HmfGain < spread.HmfGain.High);
        Assert.Equal((null, null), spread.TimeToTarget);
        foreach ((double film, double heat, MassFraction expected) in new[] { (1 / 1.2, 1 + share, spread.HmfGain.Low), (1.2, 1 - share, spread.HmfGain.High) })
        {
            WarmingResult corner = WarmingRun.Simulate(bath, stirred, new HeatFactors(film, heat), CancellationToken.None);
            Assert.Equal(expected.MilligramsPerKilogram, corner.Damage.HmfGain.MilligramsPerKilogram, 1e-9);
        }

        Assert.Throws<OperationCanceledException>(() => WarmingSpread.Of(bath, stirred, new CancellationToken(true)));
    }

    [Fact]
    public void Honey_that_conducts_alone_is_spread_by_both_conductivities()
    {
        WarmingSetup jar = SmallJar.InCabinet();
        WarmingOptions conducting = SmallJar.Coarse with { Inside = InsideHeat.ConductionOnly };
        double share = HoneyHeatCapacity.Spread.Amount / 100;
        double[] hours = [.. from conductivity in ConductivityCorrelations.All
                             from film in new[] { 1 / 1.2, 1.2 }
                             from heat in new[] { 1 - share, 1 + share }
                             select WarmingRun.Simulate(jar with { Honey = jar.Honey with { Conductivity = conductivity } }, conducting, new HeatFactors(film, heat), CancellationToken.None).TimeToTarget!.Value.Hours];
        WarmingSpread spread = WarmingSpread.Of(jar, conducting);
        Assert.Equal(hours.Min(), spread.TimeToTarget.Low!.Value.Hours, 1e-9);
        Assert.Equal(hours.Max(), spread.TimeToTarget.High!.Value.Hours, 1e-9);

        // One that does not get there in the time has no longest time.
        WarmingSpread late = WarmingSpread.Of(jar with { Longest = Duration.FromHours((hours.Min() + hours.Max()) / 2) }, conducting);
        Assert.Equal(hours.Min(), late.TimeToTarget.Low!.Value.Hours, 1e-6);
        Assert.Null(late.TimeToTarget.High);
        Assert.Equal(Celsius(35).Kelvins, late.EndMean.High.Kelvins, 1e-5);
        Assert.True(late.EndMean.Low < Celsius(35));
    }
}
