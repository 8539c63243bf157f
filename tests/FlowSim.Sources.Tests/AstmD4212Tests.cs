using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>Dip cups of the Zahn kind.</summary>
[Publication("ASTM D4212", "Viscosity by dip-type viscosity cups", Standing.SecondaryCopy, Remark = "drain times of oils and ranges of the cups from a public page of a maker of viscosity standards; precision from a page of the standard, opened")]
public class AstmD4212Tests
{
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
        Published.Agrees(
            centistokes,
            FlowCups.ByName(name).ViscosityMm2PerS(seconds),
            Within.Relative(0.13, "dip cups are made to no common dimensions: the page's own times differ from its formulas by up to 13 %"),
            $"{name}, {seconds} s",
            "mm²/s");

    [Theory]
    [InlineData("zahn-1", 35, 60)]
    [InlineData("zahn-2", 20, 250)]
    [InlineData("zahn-3", 20, 800)]
    [InlineData("zahn-4", 20, 1200)]
    [InlineData("zahn-5", 20, 1800)]
    public void Ranges(string name, double shortest, double thickest)
    {
        FlowCup cup = FlowCups.ByName(name);
        Published.Agrees((shortest, 80), (cup.TimeRange.Low, cup.TimeRange.High), $"times of {name}", "s");
        Published.Agrees(thickest, cup.Thickest.Centistokes, Within.Relative(0.1, "the printed ranges are rounded"), $"thickest liquid of {name}", "mm²/s");
    }

    /// <summary>13.1.1: coefficient of variation between laboratories 11.5 %.</summary>
    [Fact]
    public void Spread_is_that_between_laboratories() =>
        Published.Agrees(11.5, 100 * FlowCups.ByName("zahn-3").LogSpread, Within.Rounding(1e-12), "coefficient of variation between laboratories", "%");
}
