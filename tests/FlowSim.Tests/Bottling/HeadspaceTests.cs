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

    /// <summary>400 mL of honey at 35 °C in a jar of 500 mL: 100 mL are left, a fifth; at 40 °C by the density there; and the most it may hold leaves a tenth of the jar.</summary>
    [Fact]
    public void Rooms_by_hand()
    {
        HoneyProperties honey = HoneyProperties.Of(Usual);
        double cold = honey.DensityAt(Temperature.FromDegreesCelsius(35)).GramsPerMilliliter, warm = honey.DensityAt(Temperature.FromDegreesCelsius(40)).GramsPerMilliliter;
        Jar jar = new() { Brimful = Volume.FromMilliliters(500) };
        Headspace room = Of(jar, Mass.FromGrams(400 * cold), leastPercent: 10);
        Assert.Equal(100, room.AtFilling.Milliliters, 1e-9);
        Assert.Equal(0.2, room.ShareAtFilling.DecimalFractions, 1e-12);
        Assert.Equal(500 - 400 * cold / warm, room.AtHottest.Milliliters, 1e-9);
        Assert.Equal(450 * warm, room.Most.Grams, 1e-9);
        Assert.Equal(40, room.Hottest.DegreesCelsius, 1e-12);
        Assert.Equal(HeadspaceVerdict.Fits, room.Verdict);
        Assert.Equal(HeadspaceVerdict.TooTight, Of(jar, Mass.FromGrams(460 * warm), leastPercent: 10).Verdict);
        Assert.Equal(HeadspaceVerdict.CannotBeHeld, Of(jar, Mass.FromGrams(501 * warm), leastPercent: 10).Verdict);

        // 100 mL in a neck of 80 mm are 19.9 mm deep.
        Assert.Equal(100 / (Math.PI * 16) * 10, Of(jar with { Mouth = Length.FromMillimeters(80) }, Mass.FromGrams(400 * cold)).DepthAtFilling!.Value.Millimeters, 1e-9);
        Assert.Null(room.DepthAtFilling);
    }

    /// <summary>A jar that is just full when it is hottest holds its honey, and no headspace is asked for.</summary>
    [Fact]
    public void Full_to_the_brim_is_held()
    {
        Volume brim = Mass.FromGrams(500) / HoneyProperties.Of(Usual).DensityAt(Temperature.FromDegreesCelsius(40));
        Assert.Equal(HeadspaceVerdict.Fits, Of(new Jar { Brimful = brim }, Mass.FromGrams(500), leastPercent: 0).Verdict);
        Assert.Equal(HeadspaceVerdict.CannotBeHeld, Of(new Jar { Brimful = brim * 0.999999 }, Mass.FromGrams(500), leastPercent: 0).Verdict);
    }

    [Theory]
    [InlineData("fill", 1, 60_000, 0.001)]
    [InlineData("least", 0, 50, 0.001)]
    [InlineData("filling", 0, 80, 0.001)]
    [InlineData("hottestStore", 0, 80, 0.001)]
    public void Limits_belong_to_what_is_allowed(string part, double low, double high, double beyond)
    {
        Jar jar = new() { Brimful = Volume.FromMilliliters(390) };
        Headspace With(double value) => part switch
        {
            "fill" => Of(jar, Mass.FromGrams(value)),
            "least" => Of(jar, Mass.FromGrams(500), leastPercent: value),
            "filling" => Of(jar, Mass.FromGrams(500), fillingC: value),
            _ => Of(jar, Mass.FromGrams(500), hottestC: value),
        };
        Assert.True(With(low).HoneyAtFilling > Volume.Zero);
        Assert.True(With(high).HoneyAtFilling > Volume.Zero);
        Assert.Equal(part, Assert.Throws<ArgumentOutOfRangeException>(() => With(low - beyond)).ParamName);
        Assert.Equal(part, Assert.Throws<ArgumentOutOfRangeException>(() => With(high + beyond)).ParamName);
        Assert.Equal("Brimful", Assert.Throws<ArgumentOutOfRangeException>(() => Of(new Jar { Brimful = Volume.FromMilliliters(4) }, Mass.FromGrams(500))).ParamName);
        Assert.Equal("jar", Assert.Throws<ArgumentNullException>(() => Of(null!, Mass.FromGrams(500))).ParamName);
    }
}
