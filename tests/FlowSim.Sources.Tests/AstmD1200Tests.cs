using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>Ford cups.</summary>
[Publication("ASTM D1200", "Viscosity by Ford viscosity cup", Standing.SecondaryCopy, Remark = "drain times of oils in each cup from a public page of a maker of viscosity standards, which prints whole seconds; the times of use from 11.2 of the standard, opened")]
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
        Published.Agrees(centistokes, cup.ViscosityMm2PerS(seconds), Within.Relative(0.04, "times printed to whole seconds, viscosities to two digits"), $"{name}, {seconds} s", "mm²/s");
        Assert.True(cup.TimeRange.Supports(seconds));
    }

    [Theory]
    [InlineData("ford-1", 55)]
    [InlineData("ford-2", 40)]
    [InlineData("ford-3", 20)]
    [InlineData("ford-5", 20)]
    public void Times(string name, double shortest)
    {
        FlowCup cup = FlowCups.ByName(name);
        Published.Agrees((shortest, 100), (cup.TimeRange.Low, cup.TimeRange.High), name, "s");
    }
}
