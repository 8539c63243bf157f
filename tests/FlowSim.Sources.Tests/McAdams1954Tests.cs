using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Free convection at horizontal plates.</summary>
[Publication("McAdams 1954", "Heat Transmission, 3rd ed., horizontal plates", Standing.SecondaryCopy, Remark = "by the examples of the open library ht")]
public class McAdams1954Tests
{
    [Theory]
    [InlineData(5.54 * 3.21e8, 181.73121274384457, 55.44564799362829)]
    [InlineData(0.01 * 3.21e8, 22.857041558492334, 11.428520779246167)]
    public void Examples_of_a_reference_library(double rayleigh, double buoyantSide, double shelteredSide)
    {
        Published.Agrees(buoyantSide, FreeConvection.HorizontalUnstableMcAdams1954(rayleigh), Within.HalfDigit(1e-9), $"Nu of the buoyant side, Ra {rayleigh:0.###e0}");
        Published.Agrees(shelteredSide, FreeConvection.HorizontalStableMcAdams1954(rayleigh), Within.HalfDigit(1e-9), $"Nu of the sheltered side, Ra {rayleigh:0.###e0}");
    }

    [Fact]
    public void The_two_branches_join_at_most_six_percent_above_the_published_form()
    {
        // 0.54 Ra^(1/4) to 1e7: at 1e7 the other branch stands at 0.15/0.54 · 1e7^(1/12) = 1.064 of it.
        for (double ra = 1e4; ra <= 1e7; ra *= 1.1)
            Assert.InRange(FreeConvection.HorizontalUnstableMcAdams1954(ra) / (0.54 * Math.Pow(ra, 0.25)), 1 - 1e-12, 1.065);
    }
}
