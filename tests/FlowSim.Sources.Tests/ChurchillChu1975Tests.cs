using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Churchill and Chu 1975, Int. J. Heat Mass Transfer 18:1323: free convection at an upright wall.</summary>
public class ChurchillChu1975Tests
{
    [Fact]
    public void Bergman_example_9_2()
    {
        // Bergman et al. 2011, Introduction to Heat Transfer, 6th ed., Ex. 9.2: Pr 0.69, Gr 2.63e9; Nu 147.16185 in the
        // documentation of the open library ht (opened), which quotes the example.
        Assert.Equal(147.16185223770603, FreeConvection.VerticalPlateChurchillChu1975(0.69 * 2.63e9, 0.69), 1e-9);
    }

    [Fact]
    public void Without_buoyancy_the_constant_is_left() =>
        Assert.Equal(0.825 * 0.825, FreeConvection.VerticalPlateChurchillChu1975(0, 0.7), 1e-15);

    [Fact]
    public void Turbulent_air_approaches_a_tenth_of_the_cube_root()
    {
        // Nu = 0.10 Ra^(1/3) for turbulent free convection of gases at a wall (McAdams' rounding of Eckert and Jackson, from memory); 20 %.
        const double ra = 1e11;
        Assert.InRange(FreeConvection.VerticalPlateChurchillChu1975(ra, 0.71) / (0.10 * Math.Cbrt(ra)), 0.9, 1.25);
    }

    [Fact]
    public void Laminar_air_lies_near_the_fourth_root_law()
    {
        // Nu = 0.59 Ra^(1/4), 1e4 to 1e9 (McAdams, from memory); the all-Ra form is up to 20 % off it.
        foreach (double ra in new[] { 1e5, 1e6, 1e7, 1e8 })
            Assert.InRange(FreeConvection.VerticalPlateChurchillChu1975(ra, 0.71) / (0.59 * Math.Pow(ra, 0.25)), 0.8, 1.2);
    }
}
