using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Tests.Screens;

/// <summary>A form with another rim is the form that would be built with it.</summary>
public class RimTests
{
    public static TheoryData<string> Forms => [.. ScreenShapes.All.Select(entry => entry.Name)];

    [Theory]
    [MemberData(nameof(Forms))]
    public void Another_rim_makes_the_form_that_would_be_built_with_it(string name)
    {
        ScreenShape? raised = Built(name, 0.10).WithRimM(0.13);
        ScreenShape expected = Built(name, 0.13);
        Assert.NotNull(raised);
        Assert.Equal(expected.GetType(), raised.GetType());
        Assert.Equal(0.13, raised.RimHeightM);
        foreach (double depth in (double[])[0, 0.03, 0.09, 0.11, 0.13, 0.2])
        {
            Assert.Equal(expected.PondVolumeM3(depth), raised.PondVolumeM3(depth), 15);
            Assert.Equal(expected.SurfaceAreaM2(depth), raised.SurfaceAreaM2(depth), 15);
            Assert.Equal(expected.WettedClothAreaM2(depth), raised.WettedClothAreaM2(depth), 15);
            Assert.Equal(expected.HeadIntegralM3(depth), raised.HeadIntegralM3(depth), 15);
            Assert.Equal(expected.PondDepthM(0.7 * expected.PondVolumeM3(depth)), raised.PondDepthM(0.7 * expected.PondVolumeM3(depth)), 12);
        }
    }

    /// <summary>A form 160 mm wide; a cone of a slope of 0.8 in radius per depth, whatever its rim.</summary>
    private static ScreenShape Built(string name, double rimM) => name == "cone"
        ? new ConeScreen(Length.FromMeters(1.6 * rimM), Length.FromMeters(rimM))
        : ScreenShapes.All.First(entry => entry.Name == name).Create(key => key == "rim_height" ? rimM : 0.16);
}
