using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Properties;

public class CrystalLiquorTests
{
    // Closed form: the water of the crystals and of the liquid is the water of the honey.
    [Property(Arbitrary = [typeof(Fractions)])]
    public void Water_is_kept(Fraction moisture, Fraction crystals)
    {
        double w = moisture.Between(12, 23);
        double x = crystals.Between(0, 0.6);
        double liquid = CrystalLiquor.MoistureOfLiquid(Ratio.FromPercent(w), Ratio.FromDecimalFractions(x)).Percent;
        Assert.Equal(w, x * CrystalLiquor.WaterInMonohydratePercent + (1 - x) * liquid, 1e-9);
        Assert.True(liquid >= w - 1e-12, "the liquid is wetter than the honey");
    }

    [Fact]
    public void Water_in_the_monohydrate_is_that_of_its_formula()
    {
        // C6H12O6·H2O with standard atomic weights C 12.011, H 1.008, O 15.999 (IUPAC, from memory); 0.005 is the rounding.
        const double water = 2 * 1.008 + 15.999;
        const double glucose = 6 * 12.011 + 12 * 1.008 + 6 * 15.999;
        Assert.Equal(100 * water / (water + glucose), CrystalLiquor.WaterInMonohydratePercent, 0.005);
    }

    [Theory]
    [InlineData(11.99, 10)]
    [InlineData(23.01, 10)]
    [InlineData(17, -0.01)]
    [InlineData(17, 60.01)]
    [InlineData(double.NaN, 10)]
    [InlineData(17, double.NaN)]
    public void Beyond_the_edges_is_refused(double moisturePercent, double crystalsPercent) =>
        Assert.ThrowsAny<ArgumentException>(() => CrystalLiquor.MoistureOfLiquid(Ratio.FromPercent(moisturePercent), Ratio.FromPercent(crystalsPercent)));
}
