using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>True specific gravity of honey, 20/20 °C.</summary>
[Publication("Wedmore 1955, specific gravity", "Bee World 36:197, as given in White, Honey, USDA Agriculture Handbook 335", Standing.FromMemory, Remark = "the entries at 17 % (1.423, at 20 °C) and 18 % (1.417) were seen in copies")]
public class Wedmore1955Tests
{
    [Theory]
    [InlineData(13, 1.4457)]
    [InlineData(14, 1.4404)]
    [InlineData(15, 1.4350)]
    [InlineData(16, 1.4295)]
    [InlineData(17, 1.4237)]
    [InlineData(18, 1.4171)]
    [InlineData(19, 1.4101)]
    [InlineData(20, 1.4027)]
    [InlineData(21, 1.3950)]
    public void The_parabola_is_within_0_0003_of_every_entry(double moisturePercent, double specificGravity) => Published.Agrees(
        specificGravity,
        HoneyDensity.Wedmore1955SpecificGravity(moisturePercent),
        Within.Absolute(0.0003, "the stated error of the fit: the table itself has a kink near 17 % of that size"),
        $"specific gravity at {moisturePercent} %");

    [Theory]
    [InlineData(13, 1.4457)]
    [InlineData(17, 1.4237)]
    [InlineData(21, 1.3950)]
    public void Density_at_20_C_is_specific_gravity_times_that_of_water(double moisturePercent, double specificGravity) => Published.Agrees(
        998.207 * specificGravity, // water at 20 °C: CRC Handbook, from memory
        HoneyDensity.DensityKgPerM3(moisturePercent, 293.15),
        Within.Absolute(0.5, "0.0003 of the fit, and the rounding of 998.2"),
        $"density at {moisturePercent} %, 20 °C",
        "kg/m³");
}
