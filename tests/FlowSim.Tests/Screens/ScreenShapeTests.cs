using FlowSim.Screens;
using FsCheck.Xunit;
using MathNet.Numerics;
using UnitsNet;

namespace FlowSim.Tests.Screens;

/// <summary>What every form of cloth must fulfil, and solid geometry for each.</summary>
public class ScreenShapeTests
{
    private static Length Mm(double value) => Length.FromMillimeters(value);

    private static readonly (string Name, ScreenShape Shape)[] Samples =
    [
        ("disc", new FlatDisc(Mm(240), Mm(100))),
        ("cone", new ConeScreen(Mm(250), Mm(180))),
        ("steep cone", new ConeScreen(Mm(60), Mm(900))),
        ("basket", new BasketScreen(Mm(300), Mm(200))),
        ("bag", new BagScreen(Mm(200), Mm(450))),
        ("hemisphere", new BagScreen(Mm(240), Mm(120))),
    ];

    public static TheoryData<string> Names => [.. Samples.Select(sample => sample.Name)];

    private static ScreenShape Shape(string name) => Samples.Single(sample => sample.Name == name).Shape;

    [Property(MaxTest = 500, Arbitrary = [typeof(Generators)])]
    public void Depth_and_volume_are_inverse(Share share)
    {
        foreach ((string name, ScreenShape shape) in Samples)
        {
            double full = shape.PondVolumeM3(shape.RimHeightM);
            foreach (double part in new[] { 0, 0.5, 1, share.Value, share.LogBetween(1e-12, 1) })
            {
                double back = shape.PondVolumeM3(shape.PondDepthM(part * full));
                Assert.True(Math.Abs(back - part * full) <= 1e-13 * full, $"{name} at {part}: {back} for {part * full}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Ends_are_exact_and_outside_is_clamped(string name)
    {
        ScreenShape shape = Shape(name);
        double rim = shape.RimHeightM;
        Assert.Equal(0, shape.PondVolumeM3(0));
        Assert.Equal(0, shape.PondVolumeM3(-1));
        Assert.Equal(0, shape.PondDepthM(0));
        Assert.Equal(0, shape.PondDepthM(-1));
        Assert.Equal(rim, shape.PondDepthM(shape.PondVolumeM3(rim)), 1e-14 * rim);
        Assert.Equal(rim, shape.PondDepthM(1e3), 1e-14 * rim);
        Assert.Equal(0, shape.HeadIntegralM3(0));
        Assert.Equal(0, shape.HeadIntegralM3(-1));
        Assert.Equal(shape.HeadIntegralM3(rim), shape.HeadIntegralM3(2 * rim));
        Assert.Equal(shape.WettedClothAreaM2(rim), shape.WettedClothAreaM2(2 * rim));
        Assert.Equal(shape.SurfaceAreaM2(0), shape.SurfaceAreaM2(-1));
    }

    /// <summary>dI/dd is the wetted cloth and dV/dd the surface: quadrature of the areas, independent of I and V.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Head_integral_and_volume_are_integrals_of_the_areas(string name)
    {
        ScreenShape shape = Shape(name);
        for (int i = 1; i <= 7; i++)
        {
            double depth = shape.RimHeightM * i / 7;
            Assert.Equal(Quadrature(shape.WettedClothAreaM2, depth), shape.HeadIntegralM3(depth), 1e-13 * shape.HeadIntegralM3(shape.RimHeightM));
            Assert.Equal(Quadrature(shape.SurfaceAreaM2, depth), shape.PondVolumeM3(depth), 1e-13 * shape.PondVolumeM3(shape.RimHeightM));
        }
    }

    private static double Quadrature(Func<double, double> area, double depth)
    {
        // The 200 mm bag turns from cap to cylinder at 0.1 m; elsewhere the areas are smooth.
        double kink = Math.Min(depth, 0.1);
        return Integrate.GaussLegendre(area, 0, kink, 32) + (depth > kink ? Integrate.GaussLegendre(area, kink, depth, 32) : 0);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void Slope_of_the_head_integral_is_the_wetted_cloth(Share share)
    {
        foreach ((_, ScreenShape shape) in Samples)
        {
            double depth = share.Between(0.02, 0.98) * shape.RimHeightM;
            double step = 1e-5 * shape.RimHeightM;
            double slope = (shape.HeadIntegralM3(depth + step) - shape.HeadIntegralM3(depth - step)) / (2 * step);
            Assert.Equal(slope, shape.WettedClothAreaM2(depth), 1e-6 * shape.WettedClothAreaM2(shape.RimHeightM));
        }
    }

    /// <summary>Cone: V = πr²h/3, lateral area πr√(r² + h²), head integral a third of that times h.</summary>
    [Fact]
    public void Cone_by_solid_geometry()
    {
        ConeScreen cone = new(Mm(600), Mm(400));
        Assert.Equal(Math.PI * 0.09 * 0.4 / 3, cone.PondVolumeM3(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.3 * 0.5, cone.WettedClothAreaM2(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.3 * 0.5 * 0.4 / 3, cone.HeadIntegralM3(0.4), 1e-15);
        Assert.Equal(Math.PI * 0.0225, cone.SurfaceAreaM2(0.2), 1e-15);
    }

    /// <summary>Hemisphere ⅔πR³ and 2πR²; cap of height h: πh²(3R − h)/3.</summary>
    [Fact]
    public void Bag_by_solid_geometry()
    {
        BagScreen bag = new(Mm(200), Mm(300));
        Assert.Equal(2 * Math.PI * 0.001 / 3, bag.PondVolumeM3(0.1), 1e-16);
        Assert.Equal(Math.PI * 0.0025 * (0.3 - 0.05) / 3, bag.PondVolumeM3(0.05), 1e-16);
        Assert.Equal(2 * Math.PI * 0.01, bag.WettedClothAreaM2(0.1), 1e-15);
        Assert.Equal(2 * Math.PI * 0.01 + 2 * Math.PI * 0.1 * 0.2, bag.WettedClothAreaM2(0.3), 1e-15);
        Assert.Equal(2 * Math.PI * 0.001 / 3 + Math.PI * 0.01 * 0.2, bag.PondVolumeM3(0.3), 1e-16);
        Assert.Equal(Math.PI * 0.01, bag.SurfaceAreaM2(0.2), 1e-16);
    }

    /// <summary>Basket: bottom πR², side 2πRd; head integral πR²d + πRd².</summary>
    [Fact]
    public void Basket_and_disc_by_solid_geometry()
    {
        BasketScreen basket = new(Mm(200), Mm(300));
        Assert.Equal(Math.PI * 0.01 + 2 * Math.PI * 0.1 * 0.2, basket.WettedClothAreaM2(0.2), 1e-15);
        Assert.Equal(Math.PI * 0.01 * 0.2 + Math.PI * 0.1 * 0.04, basket.HeadIntegralM3(0.2), 1e-16);

        FlatDisc disc = new(Mm(200), Mm(300));
        Assert.Equal(Math.PI * 0.01 * 0.2, disc.HeadIntegralM3(0.2), 1e-16);
        Assert.Equal(Math.PI * 0.01, disc.WettedClothAreaM2(0.2), 1e-16);
    }

    [Fact]
    public void A_bag_is_at_least_a_hemisphere() =>
        Assert.Equal("rimHeight", Assert.Throws<ArgumentOutOfRangeException>(() => new BagScreen(Mm(200), Mm(99))).ParamName);

    [Theory]
    [InlineData(5, 100, "diameter")]
    [InlineData(3001, 100, "diameter")]
    [InlineData(200, 0.5, "rimHeight")]
    public void Lengths_outside_their_limits_are_refused_by_name(double diameterMm, double rimMm, string argument) =>
        Assert.Equal(argument, Assert.Throws<ArgumentOutOfRangeException>(() => new FlatDisc(Mm(diameterMm), Mm(rimMm))).ParamName);
}
