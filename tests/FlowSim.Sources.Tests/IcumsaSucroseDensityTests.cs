using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Density of sucrose solutions; water by the rational function that both copies use (Kell's form).</summary>
[Publication("ICUMSA, density of sucrose", "Specification SPS-4 (that number from memory)", Standing.SecondaryCopy, Remark = "in two public programs that agree but for the last digit of one coefficient (−3.9643, −3.9646); one cites Llano 2005, Modeling and Simulation of Vertical Continuous Cooling Crystallizers for the Sugar Industry")]
public class IcumsaSucroseDensityTests
{
    private static readonly double[][] s_coefficients =
    [
        [385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890],
        [-46.2720, -7.1720, 1.1597, 5.1126, 17.5254],
        [59.7712, 7.2491, 12.3630, -35.4791],
        [-47.2207, -21.6977, 27.6301],
        [18.3184, 12.3081],
    ];

    [Theory]
    [InlineData(14)]
    [InlineData(17)]
    [InlineData(21)]
    public void Honey_changes_with_temperature_as_sucrose_of_the_same_solids(double moisturePercent)
    {
        for (double t = 0; t <= 80; t += 5)
        {
            double sucrose = SucroseKgPerM3(100 - moisturePercent, t) - SucroseKgPerM3(100 - moisturePercent, 20);
            double honey = HoneyDensity.DensityKgPerM3(moisturePercent, t + 273.15) - HoneyDensity.DensityKgPerM3(moisturePercent, 293.15);
            Published.Agrees(sucrose, honey, Within.Absolute(0.35, "the stated error of the parabola"), $"density at {t} °C less that at 20 °C, {moisturePercent} %", "kg/m³");
        }
    }

    [Theory]
    [InlineData(14)]
    [InlineData(17)]
    [InlineData(21)]
    public void At_20_C_honey_is_about_one_percent_lighter_than_sucrose_of_the_same_solids(double moisturePercent)
    {
        // Guards against the two tables being on different scales.
        Published.Agrees(
            SucroseKgPerM3(100 - moisturePercent, 20),
            HoneyDensity.DensityKgPerM3(moisturePercent, 293.15),
            Within.Ratio(0.985, 0.995, "invert sugar is lighter than sucrose at the same solids by about 1 % at this strength (sugar tables, from memory)"),
            $"density at 20 °C, {moisturePercent} %",
            "kg/m³");
    }

    [Fact]
    public void The_copy_of_the_equation_gives_water_when_there_is_no_sugar() =>
        Assert.Equal(998.2, SucroseKgPerM3(0, 20), 0.05); // water at 20 °C, CRC Handbook, from memory

    private static double SucroseKgPerM3(double solidsPercent, double temperatureC)
    {
        double t = temperatureC;
        double density = (999.83952 + t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 - t * 281.03006e-12)))))
            / (1 + 16.887236e-3 * t);
        for (int k = 0; k < s_coefficients.Length; k++)
        {
            for (int i = 0; i < s_coefficients[k].Length; i++)
                density += s_coefficients[k][i] * Math.Pow(solidsPercent / 100, i + 1) * Math.Pow((t - 20) / 100, k);
        }

        return density;
    }
}
