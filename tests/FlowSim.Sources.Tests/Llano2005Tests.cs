using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Heat capacity and thermal conductivity of sugar solutions: an independent look at two formulas that were recalled from memory.</summary>
[Publication("Llano 2005", "Modeling and Simulation of Vertical Continuous Cooling Crystallizers for the Sugar Industry", Standing.SecondaryCopy, Remark = "in a public program that cites it")]
public class Llano2005Tests
{
    [Theory]
    [InlineData(14, 20)]
    [InlineData(17, 20)]
    [InlineData(17, 60)]
    [InlineData(21, 40)]
    public void Bubnik_has_the_same_coefficients(double moisturePercent, double temperatureC)
    {
        // 4184 − 2971 B + 460 B P + 7.5 B t, B as a share, P = 1.
        double b = 1 - moisturePercent / 100;
        double llano = 4184 - 2971 * b + 460 * b + 7.5 * b * temperatureC;
        Published.Agrees(
            llano,
            HoneyHeatCapacity.Bubnik1995(moisturePercent, temperatureC + 273.15),
            Within.Absolute(5.0, "4184 in the one, 4186.8 in the other"),
            $"heat capacity at {moisturePercent} %, {temperatureC} °C",
            "J/(kg·K)");
    }

    [Fact]
    public void Riedel_agrees_within_two_percent_over_the_range_of_honey()
    {
        // B (5.466e-6 t² − 1.176e-3 t − 0.3024) − 7.847e-6 t² + 1.976e-3 t + 0.563.
        for (double w = 13; w <= 21; w += 2)
        {
            for (double t = 10; t <= 70; t += 10)
            {
                double b = 1 - w / 100;
                double llano = b * (5.466e-6 * t * t - 1.176e-3 * t - 0.3024) - 7.847e-6 * t * t + 1.976e-3 * t + 0.563;
                double riedel = RiedelConductivity.Riedel1949(w, t + 273.15);
                Published.Agrees(llano, riedel, Within.Relative(0.02, "the stated error"), $"conductivity at {w} %, {t} °C", "W/(m·K)");
            }
        }
    }
}
