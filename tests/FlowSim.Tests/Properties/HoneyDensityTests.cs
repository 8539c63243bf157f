using FlowSim.Properties;

namespace FlowSim.Tests.Properties;

public class HoneyDensityTests
{
    /// <summary>
    /// ±1 kg/m³ of the table and a fifth of the change from 20 °C: to 60 °C that is −0.538 × 40 − 0.00094 × 40² = −23.024 kg/m³, to 0 °C
    /// 0.538 × 20 − 0.00094 × 20² = 10.384.
    /// </summary>
    [Theory]
    [InlineData(20, 1)]
    [InlineData(60, 1 + 0.2 * 23.024)]
    [InlineData(0, 1 + 0.2 * 10.384)]
    public void The_spread_is_that_of_the_table_and_of_the_slope(double celsius, double expected)
    {
        PropertyLine line = HoneyProperties.Of(Given.Honey(17)).LineAt(HoneyProperty.Density, Given.Celsius(celsius));
        Assert.Equal(SpreadKind.Absolute, line.Spread.Kind);
        Assert.Equal(expected, line.Spread.Amount, 1e-9);
    }

    /// <summary>The three numbers are those of a parabola in T − 293.15 K, and that parabola is the density; at 17 % and 20 °C 998.2 × 1.42347.</summary>
    [Theory]
    [InlineData(14)]
    [InlineData(17)]
    [InlineData(20.5)]
    public void The_coefficients_make_the_density(double moisture)
    {
        (double at20C, double perK, double perK2) = HoneyDensity.CoefficientsAt(moisture);
        foreach (double x in new[] { -15.0, 0, 35 })
            Assert.Equal(HoneyDensity.DensityKgPerM3(moisture, 293.15 + x), at20C + perK * x + perK2 * x * x, 1e-9);
        Assert.Equal(1420.908, HoneyDensity.CoefficientsAt(17).At20C, 1e-3);
    }
}
