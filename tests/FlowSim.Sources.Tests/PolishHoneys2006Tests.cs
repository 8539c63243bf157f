using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Seven honeys, 14.7 to 18.0 % moisture, 10 to 40 °C, all Newtonian, 1.76 to 252.6 Pa·s, activation energies 92.34 to 105.25 kJ/mol.</summary>
[Publication("Rheology of selected Polish honeys, 2006", "J. Food Eng. 75(1):43-49", Standing.AbstractOnly)]
public class PolishHoneys2006Tests
{
    [Fact]
    public void Vogel_spans_the_published_extremes()
    {
        // The thickest should be the driest at 10 °C and the thinnest the wettest at 40 °C.
        Within lots = Within.Logarithm(0.6, "two standard deviations of the lot factor, for each extreme is one honey");
        Published.Agrees(252.6, VogelViscosity.VogelFit(14.7, 283.15), lots, "thickest: 14.7 %, 10 °C", "Pa·s");
        Published.Agrees(1.76, VogelViscosity.VogelFit(18.0, 313.15), lots, "thinnest: 18.0 %, 40 °C", "Pa·s");
    }

    [Theory]
    [InlineData(14.7)]
    [InlineData(16.35)]
    [InlineData(18.0)]
    public void The_mean_temperature_slope_from_10_to_40_C_is_that_of_the_honeys(double moisturePercent)
    {
        // Arrhenius slope between the ends.
        const double gasConstant = 8.314462618;
        double kJPerMol = gasConstant / 1000
            * Math.Log(VogelViscosity.VogelFit(moisturePercent, 283.15) / VogelViscosity.VogelFit(moisturePercent, 313.15))
            / (1 / 283.15 - 1 / 313.15);
        Published.Holds(
            92.34,
            105.25,
            kJPerMol,
            "a regression over several temperatures there and a chord here, and a wetter honey curves less",
            $"activation energy at {moisturePercent} %, 10 to 40 °C",
            "kJ/mol",
            lowFactor: 0.88,
            highFactor: 1.12);
    }
}
