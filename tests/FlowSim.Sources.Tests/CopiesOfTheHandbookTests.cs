using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Rounded figures that pages copying USDA Agriculture Handbook 335 print (opened as stored pages of two public sites on honey). Clover honey.</summary>
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
        // ±0.25 in ln μ: the stated residual of 0.12, and temperatures and values rounded by up to 0.6 °C (8 %) and 7 %.
        double viscosityPaS = poise / 10;
        Assert.InRange(Math.Log(viscosityPaS / VogelViscosity.VogelFit(moisturePercent, temperatureC + 273.15)), -0.25, 0.25);
    }
}
