using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>Flow cups of 3, 4, 5 and 6 mm.</summary>
[Publication("ISO 2431", "Determination of flow time by use of flow cups", Standing.FromMemory, Remark = "the ranges of viscosity for 30 to 100 s, which were not used for the formulas; the formulas were read in a public program that cites the standard")]
public class Iso2431Tests
{
    [Theory]
    [InlineData("iso-3", 7, 42)]
    [InlineData("iso-4", 34, 135)]
    [InlineData("iso-5", 91, 326)]
    [InlineData("iso-6", 188, 684)]
    public void Ends_are_those_of_the_standard(string name, double thinnest, double thickest)
    {
        FlowCup cup = FlowCups.ByName(name);
        Published.Agrees((30, 100), (cup.TimeRange.Low, cup.TimeRange.High), $"times of {name}", "s");
        Published.Agrees(thinnest, cup.Thinnest.Centistokes, Within.HalfDigit(0.5), $"thinnest liquid of {name}", "mm²/s");
        Published.Agrees(thickest, cup.Thickest.Centistokes, Within.HalfDigit(0.5), $"thickest liquid of {name}", "mm²/s");
    }

    [Theory]
    [Publication("a maker's table of cups", "a public page: sensitivity in the middle of the range", Standing.Opened)]
    [InlineData("iso-4", 1.4)]
    [InlineData("iso-6", 7.1)]
    public void Slope_at_the_middle(string name, double slope)
    {
        FlowCup cup = FlowCups.ByName(name);
        Published.Agrees(
            slope, cup.ViscosityMm2PerS(65.5) - cup.ViscosityMm2PerS(64.5), Within.Relative(0.03, "two digits"), $"viscosity for a second more at 65 s, {name}", "mm²/s");
    }

    [Theory]
    [InlineData("iso-3", 57)]
    [InlineData("iso-6", 33)]
    [InlineData("ford-4", 80)]
    [InlineData("zahn-5", 44)]
    public void Time_is_the_inverse(string name, double seconds)
    {
        FlowCup cup = FlowCups.ByName(name);
        Assert.Equal(seconds, cup.TimeS(cup.ViscosityMm2PerS(seconds)), 1e-9);
    }
}
