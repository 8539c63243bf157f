using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class HoneySampleTests
{
    /// <summary>The density is known from 12 to 23 % and from 0 to 80 °C; the ends belong to it.</summary>
    [Theory]
    [InlineData(11.99, 35, "Moisture")]
    [InlineData(12, 35, null)]
    [InlineData(23, 35, null)]
    [InlineData(23.01, 35, "Moisture")]
    [InlineData(17, -0.01, "Temperature")]
    [InlineData(17, 0, null)]
    [InlineData(17, 80, null)]
    [InlineData(17, 80.01, "Temperature")]
    public void Its_density_must_be_known(double moisture, double celsius, string? blamed)
    {
        FallingBall ball = Samples.Ball(30) with { Sample = Samples.Honey(moisture, celsius) };
        if (blamed is null)
            Assert.True(ball.Measure().Density.KilogramsPerCubicMeter > 1300);
        else
            Assert.Equal(blamed, Assert.Throws<ArgumentOutOfRangeException>(() => ball.Measure()).ParamName);
    }

    /// <summary>Supported is the density from 13 to 21 % and from 10 to 60 °C; beyond, every measurement says so, moisture first.</summary>
    [Theory]
    [InlineData(21, 60, new string[0])]
    [InlineData(22, 60, new[] { "range.density.moisture" })]
    [InlineData(21, 70, new[] { "range.density.temperature" })]
    [InlineData(22, 70, new[] { "range.density.moisture", "range.density.temperature" })]
    public void A_density_that_is_stretched_is_remarked_on(double moisture, double celsius, string[] codes) =>
        Assert.Equal(codes, (Samples.Ball(30) with { Sample = Samples.Honey(moisture, celsius) }).Measure().Notices.Select(notice => notice.Code));

    /// <summary>
    /// By hand. At 60 °C the density has changed by −0.538 × 40 − 0.00094 × 40² = −23.024 kg/m³ from 20 °C, a fifth of which is not known, and
    /// the table 1 kg/m³ besides: 5.605. At 20 °C, where the slope is −0.538 kg/m³ per K, a thermometer good to 10 K adds 5.38 to the 1: √(1 + 5.38²).
    /// </summary>
    [Theory]
    [InlineData(60, 0, 5.6048)]
    [InlineData(20, 10, 5.4721)]
    [InlineData(20, 0, 1)]
    public void Its_density_is_as_uncertain_as_table_slope_and_thermometer(double celsius, double thermometerK, double expected)
    {
        HoneySample sample = Samples.Honey(celsius: celsius) with { MoistureSpread = Ratio.Zero, TemperatureSpread = TemperatureDelta.FromKelvins(thermometerK) };
        Assert.Equal(expected, sample.DensitySpreadKgPerM3, 1e-4);
    }
}
