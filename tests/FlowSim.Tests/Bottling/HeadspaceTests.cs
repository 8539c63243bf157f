using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

public class HeadspaceTests
{
    private static readonly Honey Usual = new() { Moisture = Ratio.FromPercent(17.2) };

    private static Headspace Of(Jar jar, Mass fill, double fillingC = 35, double hottestC = 40, double leastPercent = 1) => Headspace.Of(
        Usual, jar, fill, Temperature.FromDegreesCelsius(fillingC), Temperature.FromDegreesCelsius(hottestC), Ratio.FromPercent(leastPercent));

    /// <summary>The most that leaves the headspace is on the edge of fitting.</summary>
    [Fact]
    public void The_most_is_the_edge()
    {
        Jar jar = CommonJars.ByName("jar-500g").Item;
        Mass most = Of(jar, Mass.FromGrams(500)).Most;
        Assert.Equal(HeadspaceVerdict.Fits, Of(jar, most * 0.999999).Verdict);
        Assert.Equal(HeadspaceVerdict.TooTight, Of(jar, most * 1.000001).Verdict);
        Assert.Equal(HeadspaceVerdict.CannotBeHeld, Of(jar, most * 1.0102).Verdict);
        Assert.Equal(0.01, Of(jar, most).ShareAtHottest.DecimalFractions, 1e-9);
    }

    /// <summary>Honey filled hotter than any place it will stand is judged as hot as it is filled.</summary>
    [Fact]
    public void Filling_may_be_the_hottest()
    {
        Headspace room = Of(CommonJars.ByName("jar-500g").Item, Mass.FromGrams(500), fillingC: 50);
        Assert.Equal(50, room.Hottest.DegreesCelsius, 1e-9);
        Assert.Equal(room.HoneyAtFilling, room.HoneyAtHottest);
    }

    /// <summary>From 20 to 40 °C the honey grows by what its density says, some 0.8 %.</summary>
    [Fact]
    public void It_grows_by_its_expansion()
    {
        Headspace room = Of(CommonJars.ByName("jar-500g").Item, Mass.FromGrams(500), fillingC: 20);
        HoneyProperties honey = HoneyProperties.Of(Usual);
        double ratio = honey.DensityAt(Temperature.FromDegreesCelsius(20)) / honey.DensityAt(Temperature.FromDegreesCelsius(40));
        Assert.Equal(ratio, room.HoneyAtHottest / room.HoneyAtFilling, 1e-12);
        Assert.InRange(ratio, 1.006, 1.011);
    }

    /// <summary>10 mL of room in a neck of 40 mm are 7.96 mm.</summary>
    [Fact]
    public void Depth_below_the_brim()
    {
        double density = HoneyProperties.Of(Usual).DensityAt(Temperature.FromDegreesCelsius(35)).GramsPerMilliliter;
        Jar jar = new() { Brimful = Volume.FromMilliliters(100), Mouth = Length.FromMillimeters(40) };
        Assert.Equal(10 / (Math.PI / 4 * 16) * 10, Of(jar, Mass.FromGrams(90 * density)).DepthAtFilling!.Value.Millimeters, 1e-6);
        Assert.Null(Of(jar with { Mouth = null }, Mass.FromGrams(90)).DepthAtFilling);
    }

    /// <summary>A catalogue whose jars did not hold what they are sold as would be no catalogue: honey of usual moisture, filled at 35 °C, to stand at 40 °C.</summary>
    [Fact]
    public void Every_jar_holds_what_it_is_sold_as() => Assert.All(
        CommonJars.All.Where(jar => jar.Item.SoldAs is not null),
        jar => Assert.Equal(HeadspaceVerdict.Fits, Of(jar.Item, jar.Item.SoldAs!.Value).Verdict));
}
