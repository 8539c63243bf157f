using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>A warming run read where the mean passes a temperature, from an invented series of five rows, ten seconds apart.</summary>
public class WarmingTraceTests
{
    private static readonly WarmingResult Run = WarmingRun.Simulate(SmallBatch.Plain().Warming with { Longest = Duration.FromMinutes(1) }, SmallBatch.Plain().Options);

    private static WarmingTrace Of(double[] crystalsLeft, Crystals? crystals = null) => new(39, Run with
    {
        Setup = Run.Setup with { Crystals = crystals },
        Series = new WarmingSeries
        {
            TimeS = [0, 10, 20, 30, 40],
            ColdestK = [0, 0, 0, 0, 0],
            MeanK = [300, 302, 306, 304, 310],
            HottestK = [301, 305, 303, 309, 308],
            WallK = [310, 309, 312, 311, 311],
            ProbeK = [0, 0, 0, 0, 0],
            BodyK = [0, 0, 0, 0, 0],
            SetpointK = [0, 0, 0, 0, 0],
            HeaterW = [100, 200, 50, 0, 10],
            CrystalsLeft = crystalsLeft,
            ViscosityPaS = [0, 0, 0, 0, 0],
            HmfGainLow = [0, 0.1, 0.2, 0.3, 0.4],
            HmfGain = [0, 0.2, 0.4, 0.6, 0.8],
            HmfGainHigh = [0, 0.4, 0.8, 1.2, 1.6],
            DiastaseLeftLow = [1, 0.9, 0.8, 0.7, 0.6],
            DiastaseLeft = [1, 0.95, 0.9, 0.85, 0.8],
            DiastaseLeftHigh = [1, 0.98, 0.96, 0.94, 0.92],
        },
    });

    private static WarmingTrace Clear => Of([0, 0, 0, 0, 0]);

    private static WarmingTrace.Stop At(WarmingTrace trace, double kelvins) => trace.WhenMeanIs(kelvins)!;

    /// <summary>303 K lies a quarter of the way from 302 at 10 s to 306 at 20 s.</summary>
    [Fact]
    public void Between_two_rows_all_is_read_on_the_straight_between_them()
    {
        WarmingTrace.Stop stop = At(Clear, 303);
        Assert.Equal((12.5, 303.0), (stop.TimeS, stop.MeanK));
        Assert.Equal(0.125, stop.Damage.HmfGainLow.MilligramsPerKilogram, 1e-12);
        Assert.Equal(0.25, stop.Damage.HmfGain.MilligramsPerKilogram, 1e-12);
        Assert.Equal(0.5, stop.Damage.HmfGainHigh.MilligramsPerKilogram, 1e-12);
        Assert.Equal(0.875, stop.Damage.DiastaseLeftLow.DecimalFractions, 1e-12);
        Assert.Equal(0.9375, stop.Damage.DiastaseLeft.DecimalFractions, 1e-12);
        Assert.Equal(0.975, stop.Damage.DiastaseLeftHigh.DecimalFractions, 1e-12);
        Assert.Equal(-Math.Log(0.9375) / DiastaseLoss.RatePerS(293.15), stop.Damage.DiastaseEquivalentAt20C.Seconds, 1e-3);
        Assert.Empty(stop.Damage.Notices);
        Assert.Equal(39, Clear.SetpointC);
    }

    /// <summary>Hottest so far, by the row at which it is stopped: 301, 305, 305, 309, 309 and of the wall 310, 310, 312, 312, 312.</summary>
    [Fact]
    public void The_hottest_counts_from_the_start_on()
    {
        Assert.Equal((301.0, 310.0), (At(Clear, 300).HottestK, At(Clear, 300).WallK));
        Assert.Equal((305.0, 310.0), (At(Clear, 301).HottestK, At(Clear, 301).WallK));
        Assert.Equal((305.0, 312.0), (At(Clear, 306).HottestK, At(Clear, 306).WallK));
        Assert.Equal((309.0, 312.0), (At(Clear, 308).HottestK, At(Clear, 308).WallK));
    }

    /// <summary>Each row's power over the ten seconds before it: 0, 2000, 2500, 2500, 2600 J.</summary>
    [Fact]
    public void The_heat_given_is_summed_row_by_row()
    {
        Assert.Equal(0, At(Clear, 300).HeaterJ);
        Assert.Equal(1000, At(Clear, 301).HeaterJ, 1e-9);
        Assert.Equal(2000, At(Clear, 302).HeaterJ, 1e-9);
        Assert.Equal(2125, At(Clear, 303).HeaterJ, 1e-9);
        Assert.Equal(2600, At(Clear, 310).HeaterJ, 1e-9);
    }

    [Fact]
    public void The_first_time_counts_and_the_ends_are_rows_too()
    {
        Assert.Equal(0, At(Clear, 290).TimeS);
        Assert.Equal(300, At(Clear, 290).MeanK);
        Assert.Equal(0, At(Clear, 300).TimeS);
        Assert.Equal(10, At(Clear, 302).TimeS, 1e-12);
        Assert.Equal(17.5, At(Clear, 305).TimeS, 1e-12);
        Assert.Equal(20, At(Clear, 306).TimeS, 1e-12);
        Assert.Equal(35, At(Clear, 307).TimeS, 1e-12); // Beyond 306 it is passed at the end only, half-way from 304 to 310.
        Assert.Equal(40, At(Clear, 310).TimeS, 1e-12);
        Assert.Null(Clear.WhenMeanIs(310.001));
    }

    /// <summary>Of a share of 10 % a hundredth may be left, 0.1 % of the honey: that is so from the fourth row on.</summary>
    [Fact]
    public void Until_the_crystals_are_gone_nothing_is_ready()
    {
        WarmingTrace melting = Of([0.1, 0.05, 0.0011, 0.001, 0], Crystals.Fine(Ratio.FromPercent(10)));
        Assert.Equal((30.0, 304.0), (At(melting, 290).TimeS, At(melting, 290).MeanK));
        Assert.Equal((30.0, 304.0), (At(melting, 301).TimeS, At(melting, 301).MeanK));
        Assert.Equal((30.0, 304.0), (At(melting, 304).TimeS, At(melting, 304).MeanK));

        // Has been there, is a little colder now: ready all the same.
        Assert.Equal((30.0, 304.0), (At(melting, 305).TimeS, At(melting, 305).MeanK));
        Assert.Equal(35, At(melting, 307).TimeS, 1e-12);
        Assert.Equal((309.0, 312.0, 2500.0), (At(melting, 301).HottestK, At(melting, 301).WallK, At(melting, 301).HeaterJ));

        // Gone in the very row in which the mean passes: the whole of it is waited for.
        WarmingTrace together = Of([0.1, 0.05, 0.001, 0, 0], Crystals.Fine(Ratio.FromPercent(10)));
        Assert.Equal((20.0, 306.0), (At(together, 303).TimeS, At(together, 303).MeanK));
    }

    [Fact]
    public void Crystals_that_stay_are_never_ready()
    {
        Assert.Null(Of([0.1, 0.1, 0.05, 0.002, 0.0011], Crystals.Fine(Ratio.FromPercent(10))).WhenMeanIs(301));
        Assert.NotNull(Of([0.1, 0.1, 0.05, 0.002, 0.0011], Crystals.Fine(Ratio.FromPercent(11))).WhenMeanIs(301));

        // Without crystals a hundredth of all may be left.
        Assert.Equal(20, At(Of([1, 0.5, 0.01, 0, 0]), 290).TimeS);
    }
}
