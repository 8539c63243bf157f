using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// "Rheology of selected Polish honeys", J. Food Eng. 2006, 75(1):43-49. Standing: abstract only. Seven honeys, 14.7 to
/// 18.0 % moisture, 10 to 40 °C, all Newtonian, 1.76 to 252.6 Pa·s, activation energies 92.34 to 105.25 kJ/mol.
/// </summary>
public class PolishHoneys2006Tests
{
    [Fact]
    public void Vogel_spans_the_published_extremes()
    {
        // The thickest should be the driest at 10 °C and the thinnest the wettest at 40 °C. 0.6 = two ln-sd of the lot factor,
        // for each extreme is one honey.
        Assert.InRange(Math.Log(252.6 / VogelViscosity.VogelFit(14.7, 283.15)), -0.6, 0.6);
        Assert.InRange(Math.Log(1.76 / VogelViscosity.VogelFit(18.0, 313.15)), -0.6, 0.6);
    }

    [Theory]
    [InlineData(14.7)]
    [InlineData(16.35)]
    [InlineData(18.0)]
    public void The_mean_temperature_slope_from_10_to_40_C_is_that_of_the_honeys(double moisturePercent)
    {
        // Arrhenius slope between the ends. ±12 % about the published interval: it is a regression over several temperatures
        // there and a chord here, and a wetter honey curves less.
        const double gasConstant = 8.314462618;
        double kJPerMol = gasConstant / 1000
            * Math.Log(VogelViscosity.VogelFit(moisturePercent, 283.15) / VogelViscosity.VogelFit(moisturePercent, 313.15))
            / (1 / 283.15 - 1 / 313.15);
        Assert.InRange(kJPerMol, 92.34 * 0.88, 105.25 * 1.12);
    }
}
