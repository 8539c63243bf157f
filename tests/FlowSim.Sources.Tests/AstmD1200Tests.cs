using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>
/// ASTM D1200, Ford cups. A public page of a maker of viscosity standards (opened) lists drain times of its oils in each cup beside the formulas;
/// the times are printed to whole seconds.
/// </summary>
public class AstmD1200Tests
{
    [Theory]
    [InlineData("ford-1", 70, 17)]
    [InlineData("ford-2", 42, 34)]
    [InlineData("ford-2", 64, 66)]
    [InlineData("ford-3", 35, 66)]
    [InlineData("ford-3", 58, 120)]
    [InlineData("ford-4", 36, 120)]
    [InlineData("ford-4", 64, 230)]
    [InlineData("ford-5", 40, 460)]
    [InlineData("ford-5", 70, 850)]
    public void Oils_of_known_viscosity(string name, double seconds, double centistokes)
    {
        FlowCup cup = FlowCups.ByName(name);
        Assert.Equal(centistokes, cup.ViscosityMm2PerS(seconds), 0.04 * centistokes);
        Assert.True(cup.TimeRange.Supports(seconds));
    }

    /// <summary>11.2 of the standard, opened: 20 to 100 s for cups 3, 4 and 5, 55 to 100 s for 1, 40 to 100 s for 2.</summary>
    [Theory]
    [InlineData("ford-1", 55)]
    [InlineData("ford-2", 40)]
    [InlineData("ford-3", 20)]
    [InlineData("ford-5", 20)]
    public void Times(string name, double shortest)
    {
        FlowCup cup = FlowCups.ByName(name);
        Assert.Equal((shortest, 100), (cup.TimeRange.Low, cup.TimeRange.High));
    }
}
