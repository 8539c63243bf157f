using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The common spreads.</summary>
public class DefaultSpreadsTests
{
    private static Distribution Of(StrainingInput input, StrainingSetup setup) => DefaultSpreads.For(setup).Single(spread => spread.Input == input).Spread;

    [Fact]
    public void They_lie_about_the_values_of_the_setup_and_say_where_they_come_from()
    {
        StrainingSetup setup = RiskSetups.Pail();
        IReadOnlyList<UncertainInput> spreads = DefaultSpreads.For(setup);
        Assert.Equal(spreads.Count, spreads.Select(spread => spread.Input.Name).Distinct().Count());
        Assert.All(spreads, spread =>
        {
            Assert.True(spread.Input.AppliesTo(setup), spread.Input.Name);
            Assert.True(spread.Source.Standing is Standing.EngineeringChoice or Standing.Derived, "none of them is data");
            Assert.InRange(spread.Input.ValueIn(setup), spread.Spread.Quantile(0.05), spread.Spread.Quantile(1));
        });
    }

    /// <summary>The figures that the documentation of <see cref="DefaultSpreads.For"/> gives (engineering choices).</summary>
    [Fact]
    public void They_are_as_wide_as_the_documentation_says()
    {
        StrainingSetup setup = RiskSetups.Pail();
        Assert.Equal(0.002, Of(StrainingInputs.Moisture, setup).StandardDeviation, 1e-12);
        Assert.Equal(1, Of(StrainingInputs.HoneyTemperature, setup).StandardDeviation, 1e-12);
        Assert.Equal(0.02, Of(StrainingInputs.Opening, setup).StandardDeviation, 1e-12);
        Assert.Equal(0.005, Of(StrainingInputs.TankLevel, setup).StandardDeviation, 1e-12);
        Assert.Equal(0.0003 / 3, Of(StrainingInputs.DebrisLoad, setup).Quantile(0.1), 1e-9);
        Assert.Equal(0.0003 * 3, Of(StrainingInputs.DebrisLoad, setup).Quantile(0.9), 1e-9);
        Assert.Equal(1.1, Of(StrainingInputs.GateFactor, setup).Quantile(0.841344746068543), 1e-9);
        Assert.Equal((0.62, 1), (Of(StrainingInputs.ScreenFactor, setup).Lowest, Of(StrainingInputs.ScreenFactor, setup).Highest));
        Assert.Equal((0.3, 0.7), (Of(StrainingInputs.DebrisCapture, setup).Lowest, Of(StrainingInputs.DebrisCapture, setup).Highest));

        // Between minus and plus one standard deviation of a normal logarithm: Φ(±1).
        Distribution lot = Of(StrainingInputs.LotFactor, setup);
        Assert.Equal(Math.Exp(0.30), lot.Quantile(0.841344746068543), 1e-9);
        StrainingSetup measured = setup with { Honey = setup.Honey with { Viscosity = new FlowSim.Properties.MeasuredViscosity([(Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(4))]) } };
        Assert.Equal(Math.Exp(0.10), Of(StrainingInputs.LotFactor, measured).Quantile(0.841344746068543), 1e-9);
    }

    [Fact]
    public void What_does_nothing_has_none()
    {
        StrainingSetup setup = RiskSetups.Pail();
        string[] names = [.. DefaultSpreads.For(setup with
        {
            Tank = setup.Tank with { HeatLoss = HeatTransferCoefficient.Zero },
            Receiver = setup.Receiver with { HeatLoss = HeatTransferCoefficient.Zero },
            Debris = setup.Debris with { Load = Ratio.Zero },
        }).Select(spread => spread.Input.Name)];
        Assert.DoesNotContain(names, name => name.StartsWith("debris", StringComparison.Ordinal) || name.EndsWith("heat_loss", StringComparison.Ordinal) || name.StartsWith("room", StringComparison.Ordinal));
        Assert.DoesNotContain("scraping.recovery", names);
        Assert.Contains("scraping.recovery", DefaultSpreads.For(setup with { Scraping = new Scraping { Times = [Duration.FromMinutes(5)] } }).Select(spread => spread.Input.Name));
    }
}
