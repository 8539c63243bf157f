using FlowSim.OverflowRisk;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>How many runs are spent on what, by the rules that the documentation gives.</summary>
public class RiskEffortTests
{
    private static RiskEffort Of(int? runs, double tolerance = 0.01) =>
        new(new RiskQuestion { Setup = RiskSetups.Pail(), Runs = runs, Tolerance = Ratio.FromDecimalFractions(tolerance) });

    [Fact]
    public void Nobody_asking_for_a_number_each_part_has_its_own()
    {
        RiskEffort effort = Of(null);
        Assert.Equal((1024, 131072), (effort.FirstCounted, effort.LastCounted));
        Assert.Equal(32768, effort.ForAbsence);
        Assert.Equal(2048, effort.ForFan);
        Assert.Equal(4096, effort.ForAdvice);
        Assert.Equal(500, effort.PerLevel);
        Assert.Equal(8192, effort.CountingGivesUpAfter);
    }

    /// <summary>What is asked for is rounded up to a multiple of 16; no part takes more than it needs.</summary>
    [Theory]
    [InlineData(64, 64, 64, 64, 64, 100)]
    [InlineData(65, 80, 80, 80, 80, 100)]
    [InlineData(304, 304, 304, 304, 304, 304)]
    [InlineData(4096, 4096, 4096, 2048, 2048, 500)]
    [InlineData(200_000, 200_000, 131_072, 2048, 2048, 500)]
    public void Asked_for_a_number_each_part_takes_it_or_what_it_needs(int asked, int counted, int absence, int fan, int drivers, int perLevel)
    {
        RiskEffort effort = Of(asked);
        Assert.Equal((counted, counted), (effort.FirstCounted, effort.LastCounted));
        Assert.Equal(absence, effort.ForAbsence);
        Assert.Equal(Math.Min(counted, 32768), effort.ForAdvice);
        Assert.Equal(fan, effort.ForFan);
        Assert.Equal(drivers, effort.ForDrivers(0.3));
        Assert.Equal(drivers, effort.ForDrivers(0.002));
        Assert.Equal(perLevel, effort.PerLevel);
    }

    /// <summary>The least of 4096, 8192 … 32 768 runs in which 40 events are expected at the tolerance.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.01)]
    [InlineData(0.009765625)] // 40 in 4096.
    [InlineData(0.0097)]
    [InlineData(0.005)]
    [InlineData(0.0048828125)] // 40 in 8192.
    [InlineData(0.002)]
    [InlineData(0.001)]
    [InlineData(1e-6)]
    public void Advice_takes_enough_for_forty_events_at_the_tolerance(double tolerance)
    {
        int[] possible = [4096, 8192, 16384, 32768];
        int expected = possible.FirstOrDefault(runs => runs * tolerance >= 40, 32768);
        Assert.Equal(expected, RiskEffort.AdviceRuns(tolerance, null));
        Assert.Equal(expected, Of(null, tolerance).ForAdvice);
        Assert.Equal(128, RiskEffort.AdviceRuns(tolerance, 128));
        Assert.Equal(32768, RiskEffort.AdviceRuns(tolerance, 50_000));
    }

    /// <summary>The least of 2048, 4096, 8192 points in which 40 runs run over, or do not; what is rarer than 1e-3 is not worth more than the fewest.</summary>
    [Theory]
    [InlineData(0.5, 2048)]
    [InlineData(0.02, 2048)] // 40.96 in 2048.
    [InlineData(0.01953125, 2048)] // 40 in 2048.
    [InlineData(0.0195, 4096)]
    [InlineData(0.0097, 8192)]
    [InlineData(0.001, 8192)]
    [InlineData(0.00099, 2048)]
    [InlineData(0, 2048)]
    public void Drivers_take_more_points_the_rarer_the_overflow(double chance, int points)
    {
        Assert.Equal(points, Of(null).ForDrivers(chance));
        if (chance is not 0.001) // 1 − (1 − 0.001) is not 0.001 to the last digit.
            Assert.Equal(points, Of(null).ForDrivers(1 - chance));
    }
}
