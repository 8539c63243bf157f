using FlowSim.Properties;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

public class WarmingSpreadTests
{
    private static readonly WarmingOptions Coarse = new() { RadialCells = 5, AxialCells = 6, SeriesPoints = 0 };

    private static readonly WarmingSetup Pail = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.5) },
        StartTemperature = Temperature.FromDegreesCelsius(16),
        Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(330)), Level = Length.FromMillimeters(290) },
        Heating = new WarmAir { Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(42)) },
        Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(34))],
    };

    [Fact]
    public void The_band_holds_the_run_itself_and_reaches_both_ways()
    {
        WarmingSpread spread = WarmingSpread.Of(Pail, Coarse);
        double best = WarmingRun.Simulate(Pail, Coarse).TimeToTarget!.Value.Hours;
        Assert.Equal(9, spread.Runs);
        Assert.True(spread.TimeToTarget.Low!.Value.Hours < 0.95 * best);
        Assert.True(spread.TimeToTarget.High!.Value.Hours > 1.05 * best);
        Assert.InRange(spread.HmfGain.Low, MassFraction.Zero, spread.HmfGain.High);
    }

    /// <summary>A body that only its film holds back warms in proportion to heat capacity over coefficient: Newton's law of cooling.</summary>
    [Fact]
    public void Well_mixed_behind_a_thick_film_the_corners_are_those_of_capacity_over_coefficient()
    {
        WarmingSetup bath = Pail with
        {
            Vessel = Pail.Vessel with { Lid = VesselLid.Insulated },
            Heating = new HeatedBath
            {
                Thermostat = Thermostat.At(Temperature.FromDegreesCelsius(42)),
                WaterLevel = Length.FromMillimeters(290),
                WaterCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(20),
            },
        };
        WarmingOptions mixed = Coarse with { Inside = InsideHeat.WellMixed };
        double best = WarmingRun.Simulate(bath, mixed).TimeToTarget!.Value.Seconds;
        WarmingSpread spread = WarmingSpread.Of(bath, mixed);
        double share = HoneyHeatCapacity.Spread.Amount / 100;
        Assert.Equal((1 - share) / WarmingSpread.FilmFactor, spread.TimeToTarget.Low!.Value.Seconds / best, 1e-3);
        Assert.Equal((1 + share) * WarmingSpread.FilmFactor, spread.TimeToTarget.High!.Value.Seconds / best, 1e-3);
    }

    [Fact]
    public void A_target_that_some_runs_miss_has_no_longest_time()
    {
        WarmingSetup tight = Pail with
        {
            Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(34))],
            Longest = Duration.FromHours(WarmingRun.Simulate(Pail, Coarse).TimeToTarget!.Value.Hours),
        };
        WarmingSpread spread = WarmingSpread.Of(tight, Coarse);
        Assert.NotNull(spread.TimeToTarget.Low);
        Assert.Null(spread.TimeToTarget.High);
    }
}
