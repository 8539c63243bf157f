using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

public class CalibrationPriorsTests
{
    private static readonly Source MadeUp = new("made up", Standing.EngineeringChoice);

    private static UncertainInput Given(StrainingInput input, Distribution spread) => new(input, spread, MadeUp);

    private static Distribution Straight(StrainingInput input, Distribution spread) => CalibrationPriors.Straight(Given(input, spread)).Spread;

    /// <summary>0.62 and 1 of the factor lie one standard deviation out.</summary>
    [Fact]
    public void The_cloth_may_lie_beyond_what_was_published()
    {
        StrainingSetup plain = SmallPail.Running(), setup = plain with { Strainer = plain.Strainer with { ScreenFactor = 0.9 } };
        LogNormalDistribution cloth = Assert.IsType<LogNormalDistribution>(CalibrationPriors.For(setup).Single(prior => prior.Input == StrainingInputs.ScreenFactor).Spread);
        double one = MathNet.Numerics.Distributions.Normal.CDF(0, 1, 1);
        Assert.Equal(0.9, cloth.Quantile(one), 1e-9);
        Assert.Equal(0.62 * 0.9, cloth.Quantile(1 - one), 1e-9);
    }

    [Fact]
    public void All_other_priors_are_the_common_spreads()
    {
        StrainingSetup setup = SmallPail.Running();
        IReadOnlyList<UncertainInput> priors = CalibrationPriors.For(setup), common = DefaultSpreads.For(setup);
        Assert.Equal(common.Select(input => input.Input), priors.Select(input => input.Input));
        foreach ((UncertainInput prior, UncertainInput other) in priors.Zip(common).Where(pair => pair.First.Input != StrainingInputs.ScreenFactor))
        {
            Assert.Equal(other.Spread.Quantile(0.3), prior.Spread.Quantile(0.3));
            Assert.Equal(other.Source, prior.Source);
        }
    }

    [Fact]
    public void Opening_and_bore_become_log_normal_of_the_same_middle_and_spread()
    {
        foreach (StrainingInput input in (StrainingInput[])[StrainingInputs.Opening, StrainingInputs.Bore])
        {
            LogNormalDistribution straight = Assert.IsType<LogNormalDistribution>(Straight(input, new NormalDistribution(0.5, 0.04)));
            Assert.Equal(0.5, straight.Median, 1e-12);
            Assert.Equal(0.08, straight.LogStandardDeviation, 1e-12);
        }
    }

    [Fact]
    public void What_is_wide_or_of_another_input_stays()
    {
        Distribution normal = new NormalDistribution(0.5, 0.04), below = new NormalDistribution(-0.5, 0.04), log = new LogNormalDistribution(0.5, 0.1);
        Distribution at = new NormalDistribution(1, 0.35), wide = new NormalDistribution(1, 0.36), near = new NormalDistribution(1, 0.34);
        Assert.Same(normal, Straight(StrainingInputs.TankLevel, normal));
        Assert.Same(below, Straight(StrainingInputs.Opening, below));
        Assert.Same(log, Straight(StrainingInputs.Opening, log));
        Assert.Same(at, Straight(StrainingInputs.Opening, at));
        Assert.Same(wide, Straight(StrainingInputs.Bore, wide));
        Assert.IsType<LogNormalDistribution>(Straight(StrainingInputs.Bore, near));
        Distribution moved = MovedDistribution.To(log, 0.7);
        Assert.Same(moved, Straight(StrainingInputs.Opening, moved));
        Assert.IsType<LogNormalDistribution>(Straight(StrainingInputs.Opening, MovedDistribution.To(normal, 0.7)));
    }

    [Fact]
    public void Honey_and_kit_are_shared_and_the_day_is_each_runs_own()
    {
        string[] own = [.. StrainingInputs.All.Where(input => !CalibrationPriors.IsShared(input)).Select(input => input.Name)];
        Assert.Equal(
            ["honey.temperature", "room.temperature", "tank.level", "gate.opening", "gate.ride_pond", "scraping.recovery", "scraping.at_pond_depth", "scraping.pause", "receiver.already_in", "receiver.temperature"],
            own);
    }

    [Theory]
    [InlineData(StrainingObservable.PondDepth, "m", 0.002, 0.0015)]
    [InlineData(StrainingObservable.TankLevel, "m", 0.002, 0.0015)]
    [InlineData(StrainingObservable.ReceiverLevel, "m", 0.002, 0.0015)]
    [InlineData(StrainingObservable.TankMass, "kg", 0.1, 0.03)]
    [InlineData(StrainingObservable.ReceiverMass, "kg", 0.1, 0.03)]
    [InlineData(StrainingObservable.TankVolume, "m³", 1e-4, 5e-5)]
    [InlineData(StrainingObservable.ReceiverVolume, "m³", 1e-4, 5e-5)]
    public void A_quantity_has_its_common_zero_and_scatter(StrainingObservable quantity, string unit, double zero, double scatter)
    {
        Assert.Equal(new QuantityFacts(unit, zero, scatter), QuantityFacts.Of(quantity));
        Assert.Equal(zero, TimedSeries.CommonZeroOffset(quantity));
    }

    [Fact]
    public void A_series_goes_by_its_name_or_else_by_its_quantity()
    {
        var series = new TimedSeries { Quantity = StrainingObservable.TankLevel, Readings = [] };
        Assert.Equal("TankLevel", series.Label);
        Assert.Equal("rule", (series with { Name = "rule" }).Label);
        Assert.Equal(5, series.ClockOffset.Seconds);
    }

    [Fact]
    public void What_was_learnt_is_put_into_a_setup_and_takes_the_place_of_the_common_spreads()
    {
        StrainingSetup setup = SmallPail.Running();
        var kept = new CalibratedInputs
        {
            Inputs = [Given(StrainingInputs.LotFactor, new LogNormalDistribution(1.3, 0.05)), Given(StrainingInputs.RideDepth, new NormalDistribution(0.03, 0.001)), Given(StrainingInputs.Moisture, new NormalDistribution(0.19, 0.001))],
            Correlations = [],
            Runs = [],
        };
        StrainingSetup applied = kept.ApplyTo(setup);
        Assert.Equal(1.3, applied.Honey.LotFactor, 1e-12);
        Assert.Equal(19, applied.Honey.Moisture.Percent, 1e-9);
        Assert.Equal(setup.Control, applied.Control); // Nobody rides the gate here.
        IReadOnlyList<UncertainInput> spreads = kept.SpreadsFor(applied);
        Assert.Equal([kept.Inputs[0], kept.Inputs[2]], spreads.Take(2));
        Assert.Equal(
            DefaultSpreads.For(applied).Select(common => common.Input).Where(input => input != StrainingInputs.LotFactor && input != StrainingInputs.Moisture),
            spreads.Skip(2).Select(spread => spread.Input));
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => kept.ApplyTo(null!)).ParamName);
    }
}
