using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>
/// ASTM D4212, dip cups of the Zahn kind. A public page of a maker of viscosity standards (opened) lists drain times of its oils and the ranges of the
/// cups beside the formulas; precision from the page of the standard that was opened.
/// </summary>
public class AstmD4212Tests
{
    /// <summary>Dip cups are made to no common dimensions: the page's own times differ from its formulas by up to 13 %.</summary>
    [Theory]
    [InlineData("zahn-1", 45, 17)]
    [InlineData("zahn-1", 60, 34)]
    [InlineData("zahn-2", 33, 66)]
    [InlineData("zahn-2", 48, 120)]
    [InlineData("zahn-3", 27, 230)]
    [InlineData("zahn-3", 47, 460)]
    [InlineData("zahn-4", 36, 460)]
    [InlineData("zahn-4", 62, 850)]
    [InlineData("zahn-5", 37, 850)]
    [InlineData("zahn-5", 70, 1600)]
    public void Oils_of_known_viscosity(string name, double seconds, double centistokes) =>
        Assert.Equal(centistokes, FlowCups.ByName(name).ViscosityMm2PerS(seconds), 0.13 * centistokes);

    /// <summary>The ranges as printed, which are rounded.</summary>
    [Theory]
    [InlineData("zahn-1", 35, 60)]
    [InlineData("zahn-2", 20, 250)]
    [InlineData("zahn-3", 20, 800)]
    [InlineData("zahn-4", 20, 1200)]
    [InlineData("zahn-5", 20, 1800)]
    public void Ranges(string name, double shortest, double thickest)
    {
        FlowCup cup = FlowCups.ByName(name);
        Assert.Equal((shortest, 80), (cup.TimeRange.Low, cup.TimeRange.High));
        Assert.Equal(thickest, cup.Thickest.Centistokes, 0.1 * thickest);
    }

    /// <summary>13.1.1: coefficient of variation between laboratories 11.5 %.</summary>
    [Fact]
    public void Spread_is_that_between_laboratories() => Assert.Equal(0.115, FlowCups.ByName("zahn-3").LogSpread);
}
