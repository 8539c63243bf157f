using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Free convection at an upright wall.</summary>
[Publication("Churchill and Chu 1975", "Int. J. Heat Mass Transfer 18:1323, by Bergman et al. 2011, Introduction to Heat Transfer, 6th ed., Ex. 9.2", Standing.SecondaryCopy, Remark = "in the documentation of the open library ht, which quotes the example")]
public class ChurchillChu1975Tests
{
    [Fact]
    public void Bergman_example_9_2() =>
        Published.Agrees(147.16185223770603, FreeConvection.VerticalPlateChurchillChu1975(0.69 * 2.63e9, 0.69), Within.HalfDigit(1e-9), "Nu at Pr 0.69, Gr 2.63e9");

    [Fact]
    public void Without_buoyancy_the_constant_is_left() =>
        Assert.Equal(0.825 * 0.825, FreeConvection.VerticalPlateChurchillChu1975(0, 0.7), 1e-15);

    [Fact]
    [Publication("McAdams, turbulent", "Nu = 0.10 Ra^(1/3) for gases at a wall, his rounding of Eckert and Jackson", Standing.FromMemory)]
    public void Turbulent_air_approaches_a_tenth_of_the_cube_root()
    {
        const double ra = 1e11;
        Published.Agrees(
            0.10 * Math.Cbrt(ra), FreeConvection.VerticalPlateChurchillChu1975(ra, 0.71), Within.Ratio(0.9, 1.25, "a rounded coefficient, of 20 %"), "Nu of air at Ra 1e11");
    }

    [Fact]
    [Publication("McAdams, laminar", "Nu = 0.59 Ra^(1/4), Ra 1e4 to 1e9", Standing.FromMemory)]
    public void Laminar_air_lies_near_the_fourth_root_law()
    {
        foreach (double ra in new[] { 1e5, 1e6, 1e7, 1e8 })
        {
            Published.Agrees(
                0.59 * Math.Pow(ra, 0.25),
                FreeConvection.VerticalPlateChurchillChu1975(ra, 0.71),
                Within.Ratio(0.8, 1.2, "the form for all Rayleigh numbers is up to 20 % off it"),
                $"Nu of air at Ra {ra:0e0}");
        }
    }
}
