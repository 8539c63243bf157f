using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>What drives an overflow and the time, where it is known beforehand.</summary>
public class DriverByHandTests
{
    private static (DriverTable OfOverflow, DriverTable OfTime) Found(StrainingSetup setup, SpreadInputs inputs, int points) =>
        new DriverSearch(inputs, points, 1).Find(new StrainingBatch(setup, inputs, OneThread), default);

    /// <summary>
    /// The screen makes all of the overflow and the spacer, far from the honey's reach, nothing: indices of 1 and of 0 exactly. What was not seen in n draws may
    /// still happen in 3 of n (95 %): of the variance of a time 3/n, of that of an overflow 3/n · ½/V.
    /// </summary>
    [Fact]
    public void What_does_nothing_has_an_index_of_nothing_as_far_as_the_draws_can_tell()
    {
        const int points = 32, drawn = 2 * points;
        StrainingSetup setup = Pail(50) with { Longest = Seconds(200) };
        setup = setup with { Receiver = setup.Receiver with { Spacer = Length.FromMillimeters(300) } };
        SpreadInputs inputs = Alone(Given(StrainingInputs.Spacer, new UniformDistribution(0.3, 0.4)), ScreenOf(setup, 1.2).Given[0]);
        (DriverTable ofOverflow, DriverTable ofTime) = Found(setup, inputs, points);
        Assert.Equal((DriverOutput.Overflow, DriverOutput.StrainTime), (ofOverflow.Of, ofTime.Of));
        Assert.Null(ofOverflow.Refused);
        Assert.Null(ofTime.Refused);
        Assert.Equal(["screen.factor", "receiver.spacer"], ofOverflow.Drivers.Select(driver => driver.Name));
        Assert.Equal(["screen.factor", "receiver.spacer"], ofTime.Drivers.Select(driver => driver.Name));

        IReadOnlyList<SobolIndices> indices = SobolIndices.EstimateAll(
            new StrainingBatch(setup, inputs, OneThread), new SobolOptions { Replicates = 16, PointsPerReplicate = points / 16, Seed = 1 }, inputs.Groups);
        foreach ((DriverTable table, double least) in new[] { (ofOverflow, 3.0 / drawn * 0.5 / indices[0].Variance), (ofTime, 3.0 / drawn) })
        {
            Driver idle = table.Drivers[1], all = table.Drivers[0];
            Assert.Equal(0, idle.FirstOrder, 1e-12);
            Assert.Equal(0, idle.Total, 1e-12);
            Assert.Equal(-least, idle.FirstLow, 1e-12);
            Assert.Equal(least, idle.FirstHigh, 1e-12);
            Assert.Equal(-least, idle.TotalLow, 1e-12);
            Assert.Equal(least, idle.TotalHigh, 1e-12);
            Assert.InRange(1, all.TotalLow, all.TotalHigh);
            Assert.InRange(1, all.FirstLow, all.FirstHigh);
            Assert.True(all.FirstLow <= all.FirstOrder - least && all.FirstHigh >= all.FirstOrder + least);
            Assert.True(all.TotalLow <= all.Total - least && all.TotalHigh >= all.Total + least);
        }

        // Where the draws tell less than the replicates, these are the ends.
        ReplicateEstimate first = indices[1].FirstOrder[1], total = indices[1].Total[1];
        Driver time = ofTime.Drivers[0];
        Assert.Equal((first.Value, Math.Min(first.Low, first.Value - (3.0 / drawn)), Math.Max(first.High, first.Value + (3.0 / drawn))), (time.FirstOrder, time.FirstLow, time.FirstHigh));
        Assert.Equal((total.Value, Math.Min(total.Low, total.Value - (3.0 / drawn)), Math.Max(total.High, total.Value + (3.0 / drawn))), (time.Total, time.TotalLow, time.TotalHigh));
    }

    [Fact]
    public void Inputs_that_go_together_are_named_together()
    {
        StrainingSetup setup = Pail(50) with { Longest = Seconds(200) };
        UncertainInput screen = ScreenOf(setup, 1.2).Given[0], lot = Given(StrainingInputs.LotFactor, new LogNormalDistribution(1, 0.1)), bore = Normal(StrainingInputs.Bore, 0.025, 0.0002);
        var inputs = new SpreadInputs([screen, bore, lot], [new InputCorrelation("screen.factor", "honey.lot_factor", 0.5)]);
        (_, DriverTable ofTime) = Found(setup, inputs, 32);
        Assert.Equal(["gate.bore", "screen.factor + honey.lot_factor"], ofTime.Drivers.Select(driver => driver.Name).Order(StringComparer.Ordinal));
        Assert.Equal(ofTime.Drivers.Select(driver => driver.Total).OrderDescending(), ofTime.Drivers.Select(driver => driver.Total));
    }

    /// <summary>Sixteen replicates of n points, each for one input n (1 + 2) runs: 64 points make 192.</summary>
    [Theory]
    [InlineData(20, "in none of 192")]
    [InlineData(95, "in all of 192")]
    public void An_overflow_that_always_or_never_happens_has_no_drivers(double openingPercent, string said)
    {
        StrainingSetup setup = Pail(openingPercent) with { Longest = Seconds(20) };
        (DriverTable ofOverflow, DriverTable ofTime) = Found(setup, ScreenOf(setup, 1.05), 64);
        Assert.Empty(ofOverflow.Drivers);
        Assert.Contains(said, ofOverflow.Refused, StringComparison.Ordinal);

        // In 20 s nobody strains 95 %.
        Assert.Empty(ofTime.Drivers);
        Assert.Contains("the same in all of 192 runs", ofTime.Refused, StringComparison.Ordinal);
    }

    /// <summary>Two points a replicate at least, 96 runs for one input, however few are asked for.</summary>
    [Fact]
    public void There_are_two_points_in_each_replicate_at_least()
    {
        StrainingSetup setup = Pail(20) with { Longest = Seconds(20) };
        Assert.Contains("in none of 96", Found(setup, ScreenOf(setup, 1.05), 8).OfOverflow.Refused, StringComparison.Ordinal);
    }

    /// <summary>Of 256 draws of a uniform number about one in sixteen is above 15/16, 16 of them; about one in eight above 7/8, 32: at least 20 have to differ.</summary>
    [Theory]
    [InlineData(0.0625, false)]
    [InlineData(0.125, true)]
    [InlineData(0.875, true)]
    [InlineData(0.9375, false)]
    public void Too_few_that_differ_tell_nothing(double chance, bool told)
    {
        StrainingSetup setup = Pail(50) with { Longest = Seconds(20) };
        double critical = Critical(setup), width = 0.2;
        SpreadInputs inputs = Alone(Given(StrainingInputs.ScreenFactor, new UniformDistribution(critical - ((1 - chance) * width), critical + (chance * width))));
        DriverTable ofOverflow = Found(setup, inputs, 128).OfOverflow;
        Assert.Equal(told, ofOverflow.Refused is null);
        Assert.Equal(told ? 1 : 0, ofOverflow.Drivers.Count);
        if (!told)
            Assert.Contains("too few of 384 runs", ofOverflow.Refused, StringComparison.Ordinal);
    }

    /// <summary>The screen's factor from which the pail runs over, by halving.</summary>
    private static double Critical(StrainingSetup setup)
    {
        (double low, double high) = (0.5, 2);
        while (high - low > 1e-4)
        {
            double middle = (low + high) / 2;
            if (StrainingRun.Simulate(StrainingInputs.ScreenFactor.With(setup, middle), new StrainingOptions { SeriesPoints = 0, RelativeTolerance = 1e-6 }).Overflows.Count > 0)
                high = middle;
            else
                low = middle;
        }

        return high;
    }
}
