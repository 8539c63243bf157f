using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Thermal conductivity, a formula for sugar solutions: checked on water.</summary>
[Publication("Riedel 1949", "Chem.-Ing.-Tech. 21:340", Standing.FromMemory)]
public class Riedel1949Tests
{
    [Theory]
    [Publication("IAPWS", "conductivity of water at 1 atm", Standing.FromMemory)]
    [InlineData(20, 0.598)]
    [InlineData(40, 0.631)]
    [InlineData(60, 0.654)]
    public void With_no_sugar_it_gives_water(double temperatureC, double wPerMK) => Published.Agrees(
        wPerMK,
        RiedelConductivity.Riedel1949(100, temperatureC + 273.15),
        Within.Relative(0.01, "a parabola to a curve that is not one"),
        $"water at {temperatureC} °C",
        "W/(m·K)");

    /// <summary>1.73e-3 · (326.58 + 20.824 − 1.348) · (0.46 + 0.0918) = 0.3304.</summary>
    [Fact]
    [Publication("a working by hand", "the same formula", Standing.Derived)]
    public void Honey_at_17_percent_and_20_C_is_0_33() => Published.Agrees(
        0.3304, RiedelConductivity.Riedel1949(17, 293.15), Within.Absolute(0.0001, "a unit of the last digit"), "honey of 17 % at 20 °C", "W/(m·K)");

    [Fact]
    [Publication("Helvey 1954", "Food Research 19:282", Standing.SecondaryCopy, Remark = "figures from copies")]
    public void It_stands_below_measurements_on_honey_by_the_factor_that_is_carried_as_spread() => Published.Deviates(
        0.536,
        RiedelConductivity.Riedel1949(17, 294.15),
        Within.Ratio(1 / 1.7, 1 / 1.5, "sugar solutions are far below what is printed for honey itself; which is right is not known, so both are offered and the factor between them is carried as spread"),
        "conductivity of honey of 17 % at 21 °C",
        "W/(m·K)");
}
