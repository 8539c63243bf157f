using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Vessels;

/// <summary>A trial step may ask a shape about anything; it must answer with a number or NaN, and at once.</summary>
public class NotANumberTests
{
    private static readonly Length Metre = Length.FromMeters(1);

    public static TheoryData<VesselShape> VesselShapes =>
    [
        new UprightCylinder(Metre, Metre),
        new RectangularTank(Metre, Metre, Metre),
        new ConeBottomedTank(Metre, Metre, Metre),
        new HorizontalCylinder(Metre, Metre),
        new LevelVolumeTable([(Length.Zero, Volume.Zero), (Metre / 2, Volume.FromCubicMeters(0.2)), (Metre, Volume.FromCubicMeters(1))]),
    ];

    public static TheoryData<ScreenShape> ScreenShapes =>
    [
        new FlatDisc(Metre, Metre),
        new ConeScreen(Metre, Metre),
        new BasketScreen(Metre, Metre),
        new BagScreen(Metre, Metre),
    ];

    [Theory]
    [MemberData(nameof(VesselShapes))]
    public void A_vessel_answers_anything(VesselShape shape)
    {
        foreach (double x in new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, -double.MaxValue, double.Epsilon })
        {
            _ = shape.VolumeM3(x) + shape.SurfaceAreaM2(x) + shape.WettedAreaM2(x);
            double level = shape.LevelM(x);
            Assert.True(double.IsNaN(x) ? double.IsNaN(level) : level >= 0 && level <= shape.HeightM, $"{shape.GetType().Name}: level of {x} is {level}");
        }
    }

    [Theory]
    [MemberData(nameof(ScreenShapes))]
    public void A_screen_answers_anything(ScreenShape shape)
    {
        foreach (double x in new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, -double.MaxValue, double.Epsilon })
        {
            _ = shape.PondVolumeM3(x) + shape.SurfaceAreaM2(x) + shape.WettedClothAreaM2(x) + shape.HeadIntegralM3(x);
            double depth = shape.PondDepthM(x);
            Assert.True(double.IsNaN(x) ? double.IsNaN(depth) : depth >= 0 && depth <= shape.RimHeightM, $"{shape.GetType().Name}: depth of {x} is {depth}");
        }
    }
}
