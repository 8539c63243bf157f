using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Rounded figures for clover honey. Poise in print, Pa·s here.</summary>
[Publication("USDA Agriculture Handbook 335, rounded copies", "Viscosity as two public sites on honey copy it", Standing.SecondaryCopy, Remark = "stored pages of both")]
public class CopiesOfTheHandbookTests
{
    // Moisture %, temperature °C, poise. 13.7 % prints 420; an encyclopedia adds 14 % 400 and 20 % 20, "around".
    [Theory]
    [InlineData(16, 14, 600)]
    [InlineData(16, 20, 190)]
    [InlineData(16, 30, 65)]
    [InlineData(16, 40, 20)]
    [InlineData(16, 50, 10)]
    [InlineData(13.7, 25, 420)]
    [InlineData(14, 25, 400)]
    [InlineData(20, 25, 20)]
    public void Vogel_meets_the_rounded_copies(double moisturePercent, double temperatureC, double poise)
    {
        Published.Agrees(
            poise / 10,
            VogelViscosity.VogelFit(moisturePercent, temperatureC + 273.15),
            Within.Logarithm(0.25, "the stated residual of 0.12 in ln μ, and temperatures and values rounded by up to 0.6 °C (8 %) and 7 %"),
            $"viscosity at {moisturePercent} %, {temperatureC} °C",
            "Pa·s");
    }
}
