using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The common spreads of the small pail, one by one, by what their documentation says.</summary>
public class DefaultSpreadsByHandTests
{
    /// <summary>Φ(1): the share below one standard deviation above the median.</summary>
    private const double OneUp = 0.841344746068543;

    private static readonly HeatTransferCoefficient NoLoss = HeatTransferCoefficient.Zero;

    private static Distribution? Of(StrainingInput input, StrainingSetup setup) => DefaultSpreads.For(setup).SingleOrDefault(spread => spread.Input == input)?.Spread;

    private static string[] Names(StrainingSetup setup) => [.. DefaultSpreads.For(setup).Select(spread => spread.Input.Name)];

    /// <summary>± alone is one standard deviation: moisture 0.2 % of mass, 1 K of the honey, 2 % of the bore, 5 mm of level, 2 K of the room.</summary>
    [Fact]
    public void What_is_read_is_normal_about_what_is_said()
    {
        StrainingSetup setup = Pail(30);
        foreach ((StrainingInput input, double middle, double sd) in new[]
        {
            (StrainingInputs.Moisture, 0.18, 0.002), (StrainingInputs.HoneyTemperature, 309.15, 1), (StrainingInputs.Opening, 0.3, 0.02),
            (StrainingInputs.TankLevel, 0.11, 0.005), (StrainingInputs.RoomTemperature, 295.15, 2),
        })
        {
            NormalDistribution spread = Assert.IsType<NormalDistribution>(Of(input, setup));
            Assert.Equal(middle, spread.Mean, 1e-12);
            Assert.Equal(sd, spread.StandardDeviation, 1e-12);
        }
    }

    /// <summary>×/÷ is one standard deviation of the logarithm: e^0.30 of the lot, 1.1 of the gate, 1.3 of the bits' size, 1.5 of a heat loss.</summary>
    [Fact]
    public void What_is_a_factor_is_log_normal_about_what_is_said()
    {
        StrainingSetup setup = Pail(30);
        setup = setup with { Honey = setup.Honey with { LotFactor = 1.4 }, Gate = setup.Gate with { Factor = 0.9 } };
        foreach ((StrainingInput input, double middle, double factor) in new[]
        {
            (StrainingInputs.LotFactor, 1.4, Math.Exp(0.30)), (StrainingInputs.GateFactor, 0.9, 1.1), (StrainingInputs.DebrisSize, 0.0005, 1.3),
            (StrainingInputs.TankHeatLoss, 6, 1.5), (StrainingInputs.ReceiverHeatLoss, 6, 1.5),
        })
        {
            LogNormalDistribution spread = Assert.IsType<LogNormalDistribution>(Of(input, setup));
            Assert.Equal(middle, spread.Median, 1e-12);
            Assert.Equal(factor * middle, spread.Quantile(OneUp), 1e-9);
        }

        // Between a third and three times in four of five: a tenth lies below, a tenth above.
        Assert.Equal(0.0001, Of(StrainingInputs.DebrisLoad, setup)!.Quantile(0.1), 1e-12);
        Assert.Equal(0.0009, Of(StrainingInputs.DebrisLoad, setup)!.Quantile(0.9), 1e-12);
    }

    [Fact]
    public void The_cloth_lies_between_a_simulation_and_what_is_published()
    {
        StrainingSetup setup = Pail(30);
        Distribution cloth = Of(StrainingInputs.ScreenFactor, setup with { Strainer = setup.Strainer with { ScreenFactor = 2 } })!;
        Assert.IsType<UniformDistribution>(cloth);
        Assert.Equal((1.24, 2.0), (cloth.Lowest, cloth.Highest));
        Assert.All(DefaultSpreads.For(setup), spread => Assert.Equal(spread.Input == StrainingInputs.ScreenFactor ? Standing.Derived : Standing.EngineeringChoice, spread.Source.Standing));
    }

    /// <summary>0.2 either way, and no further than from 0 to 1.</summary>
    [Theory]
    [InlineData(0.5, 0.3, 0.7)]
    [InlineData(0.1, 0, 0.3)]
    [InlineData(0.95, 0.75, 1)]
    public void A_share_lies_either_way_as_far_as_a_share_can(double value, double low, double high)
    {
        StrainingSetup setup = Pail(30);
        Distribution capture = Of(StrainingInputs.DebrisCapture, setup with { Debris = setup.Debris with { CaptureEfficiency = value } })!;
        Distribution recovery = Of(StrainingInputs.ScrapeRecovery, setup with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(30), Recovery = value } })!;
        foreach (Distribution spread in new[] { capture, recovery })
        {
            Assert.Equal(low, spread.Lowest, 1e-12);
            Assert.Equal(high, spread.Highest, 1e-12);
        }
    }

    [Fact]
    public void A_viscosity_that_was_measured_is_known_to_a_tenth()
    {
        StrainingSetup setup = Pail(30);
        StrainingSetup measured = setup with { Honey = setup.Honey with { Viscosity = new MeasuredViscosity([(Temperature.FromDegreesCelsius(36), DynamicViscosity.FromPascalSeconds(5))]) } };
        StrainingSetup published = setup with { Honey = setup.Honey with { Viscosity = ViscosityCorrelations.Default } };
        Assert.Equal(0.10, DefaultSpreads.LogViscosity(measured));
        Assert.Equal((0.30, 0.30), (DefaultSpreads.LogViscosity(setup), DefaultSpreads.LogViscosity(published)));
        Assert.Equal(Math.Exp(0.10), Of(StrainingInputs.LotFactor, measured)!.Quantile(OneUp), 1e-9);
        Assert.Equal(Math.Exp(0.30), Of(StrainingInputs.LotFactor, published)!.Quantile(OneUp), 1e-9);
        Source Said(StrainingSetup of) => DefaultSpreads.For(of).Single(spread => spread.Input == StrainingInputs.LotFactor).Source;
        Assert.Same(LotFactorSpread.Source, Said(published));
        Assert.NotEqual(LotFactorSpread.Source, Said(measured));
    }

    [Fact]
    public void Bits_have_spreads_only_where_bits_are_caught()
    {
        StrainingSetup setup = Pail(30);
        Assert.Equal(3, Names(setup).Count(name => name.StartsWith("debris", StringComparison.Ordinal)));
        Assert.DoesNotContain(Names(setup with { Debris = setup.Debris with { Load = Ratio.Zero } }), name => name.StartsWith("debris", StringComparison.Ordinal));
        Assert.DoesNotContain(Names(setup with { Debris = setup.Debris with { CaptureEfficiency = 0 } }), name => name.StartsWith("debris", StringComparison.Ordinal));
    }

    /// <summary>The room matters while either loses heat; each loss is its own.</summary>
    [Fact]
    public void Heat_has_spreads_only_where_it_is_lost()
    {
        StrainingSetup setup = Pail(30);
        string[] Heat(bool tank, bool receiver) =>
        [
            .. Names(setup with
            {
                Tank = setup.Tank with { HeatLoss = tank ? setup.Tank.HeatLoss : NoLoss },
                Receiver = setup.Receiver with { HeatLoss = receiver ? setup.Receiver.HeatLoss : NoLoss },
            }).Where(name => name is "room.temperature" or "tank.heat_loss" or "receiver.heat_loss"),
        ];

        Assert.Equal(["room.temperature", "tank.heat_loss", "receiver.heat_loss"], Heat(true, true));
        Assert.Equal(["room.temperature", "tank.heat_loss"], Heat(true, false));
        Assert.Equal(["room.temperature", "receiver.heat_loss"], Heat(false, true));
        Assert.Empty(Heat(false, false));
    }

    [Fact]
    public void All_that_always_matter_are_there_once()
    {
        string[] always = ["honey.moisture", "honey.temperature", "honey.lot_factor", "gate.factor", "screen.factor", "gate.opening", "tank.level"];
        StrainingSetup setup = Pail(30);
        setup = setup with { Tank = setup.Tank with { HeatLoss = NoLoss }, Receiver = setup.Receiver with { HeatLoss = NoLoss }, Debris = setup.Debris with { Load = Ratio.Zero } };
        Assert.Equal(always, Names(setup));
        Assert.Equal([.. always, "scraping.recovery"], Names(setup with { Scraping = new Scraping { Times = [Seconds(30)] } }));
    }
}
