using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Tests.Screens;

/// <summary>The ranges that the records' documentation gives.</summary>
public class ScreenCheckTests
{
    private static readonly Cloth GoodCloth = Cloth.FromAstmSieve(40);

    private static readonly Strainer GoodStrainer = new()
    {
        Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
        Cloths = [GoodCloth],
    };

    [Fact]
    public void Usual_equipment_passes()
    {
        GoodStrainer.Validate();
        (GoodStrainer with { Venting = Venting.Sealed, Overflow = OverflowPath.Spill, Cloths = [GoodCloth, GoodCloth] }).Validate();
        new Debris().Validate();
        Assert.All(StandardSieves.All, sieve => sieve.ToCloth().Validate());
    }

    [Fact]
    public void A_sealed_strainer_cannot_overflow_into_its_receiver()
    {
        ArgumentException refused = Assert.Throws<ArgumentException>((GoodStrainer with { Venting = Venting.Sealed }).Validate);
        Assert.Equal(nameof(Strainer.Overflow), refused.ParamName);
        Assert.Contains("no way past the cloth", refused.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string, Strainer> BadStrainers => new()
    {
        { nameof(Strainer.Cloths), GoodStrainer with { Cloths = [] } },
        { nameof(Strainer.Cloths), GoodStrainer with { Cloths = [.. Enumerable.Repeat(GoodCloth, 9)] } },
        { nameof(Cloth.Opening), GoodStrainer with { Cloths = [GoodCloth with { Opening = Length.FromMillimeters(0.019) }] } },
        { nameof(Cloth.Opening), GoodStrainer with { Cloths = [GoodCloth with { Opening = Length.FromMillimeters(11) }] } },
        { nameof(Cloth.WireDiameter), GoodStrainer with { Cloths = [GoodCloth with { WireDiameter = Length.FromMillimeters(0.009) }] } },
        { nameof(Cloth.WireDiameter), GoodStrainer with { Cloths = [GoodCloth with { WireDiameter = Length.FromMillimeters(5.1) }] } },
        { nameof(Cloth.WireDiameter), GoodStrainer with { Cloths = [new Cloth { Opening = Length.FromMillimeters(0.1), WireDiameter = Length.FromMillimeters(2) }] } },
        { nameof(Strainer.ScreenFactor), GoodStrainer with { ScreenFactor = 0.04 } },
        { nameof(Strainer.ScreenFactor), GoodStrainer with { ScreenFactor = double.NaN } },
        { nameof(Strainer.ScreenFactor), GoodStrainer with { ScreenFactor = 21 } },
        { nameof(Strainer.MinimumHead), GoodStrainer with { MinimumHead = Length.FromMillimeters(-1) } },
        { nameof(Strainer.MinimumHead), GoodStrainer with { MinimumHead = Length.FromMillimeters(51) } },
        { nameof(Strainer.Venting), GoodStrainer with { Venting = (Venting)5 } },
        { nameof(Strainer.Overflow), GoodStrainer with { Overflow = (OverflowPath)5 } },
    };

    [Theory]
    [MemberData(nameof(BadStrainers))]
    public void A_strainer_outside_its_ranges_is_refused_by_name(string name, Strainer strainer) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(strainer.Validate).ParamName);

    public static TheoryData<string, Debris> BadDebris => new()
    {
        { nameof(Debris.Load), new Debris { Load = Ratio.FromPercent(-0.01) } },
        { nameof(Debris.Load), new Debris { Load = Ratio.FromPercent(2.1) } },
        { nameof(Debris.MedianSize), new Debris { MedianSize = Length.FromMicrometers(0.9) } },
        { nameof(Debris.MedianSize), new Debris { MedianSize = Length.FromMillimeters(21) } },
        { nameof(Debris.SizeSpread), new Debris { SizeSpread = 0.04 } },
        { nameof(Debris.SizeSpread), new Debris { SizeSpread = 2.1 } },
        { nameof(Debris.SizeSpread), new Debris { SizeSpread = double.NaN } },
        { nameof(Debris.CaptureEfficiency), new Debris { CaptureEfficiency = -0.1 } },
        { nameof(Debris.CaptureEfficiency), new Debris { CaptureEfficiency = 1.1 } },
        { nameof(Debris.Density), new Debris { Density = Density.FromKilogramsPerCubicMeter(499) } },
        { nameof(Debris.Density), new Debris { Density = Density.FromKilogramsPerCubicMeter(3001) } },
        { nameof(Debris.Law), new Debris { Law = (BlockingLaw)9 } },
    };

    [Theory]
    [MemberData(nameof(BadDebris))]
    public void Debris_outside_its_ranges_is_refused_by_name(string name, Debris debris) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(debris.Validate).ParamName);

    [Fact]
    public void Missing_parts_are_refused()
    {
        Assert.Equal(nameof(Strainer.Shape), Assert.Throws<ArgumentNullException>((GoodStrainer with { Shape = null! }).Validate).ParamName);
        Assert.Equal(nameof(Strainer.Cloths), Assert.Throws<ArgumentNullException>((GoodStrainer with { Cloths = null! }).Validate).ParamName);
        Assert.Throws<ArgumentNullException>((GoodStrainer with { Cloths = [null!] }).Validate);
    }

    [Fact]
    public void Nothing_at_all_is_refused_by_name()
    {
        Assert.Equal("strainer", Assert.Throws<ArgumentNullException>(((Strainer)null!).Validate).ParamName);
        Assert.Equal("debris", Assert.Throws<ArgumentNullException>(((Debris)null!).Validate).ParamName);
    }

    [Fact]
    public void Up_to_eight_cloths_are_taken() => (GoodStrainer with { Cloths = [.. Enumerable.Repeat(GoodCloth, 8)] }).Validate();
}
