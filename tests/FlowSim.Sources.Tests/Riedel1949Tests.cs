using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Thermal conductivity of sugar solutions by Riedel 1949, Chem.-Ing.-Tech. 21:340. Standing: formula from memory. Checked on water.</summary>
public class Riedel1949Tests
{
    [Theory]
    [InlineData(20, 0.598)]
    [InlineData(40, 0.631)]
    [InlineData(60, 0.654)]
    public void With_no_sugar_it_gives_water(double temperatureC, double wPerMK)
    {
        // Conductivity of water at 1 atm (IAPWS, from memory). 1 %: the formula is a parabola to a curve that is not one.
        Assert.Equal(wPerMK, RiedelConductivity.Riedel1949(100, temperatureC + 273.15), wPerMK * 0.01);
    }

    [Fact]
    public void Honey_at_17_percent_and_20_C_is_0_33()
    {
        // By hand: 1.73e-3 · (326.58 + 20.824 − 1.348) · (0.46 + 0.0918) = 0.3304.
        Assert.Equal(0.3304, RiedelConductivity.Riedel1949(17, 293.15), 0.0001);
    }

    [Fact]
    public void It_stands_below_measurements_on_honey_by_the_factor_that_is_carried_as_spread()
    {
        // Helvey 1954 by copies: 0.536 at 17 %, 21 °C.
        Assert.InRange(0.536 / RiedelConductivity.Riedel1949(17, 294.15), 1.5, 1.7);
    }
}
