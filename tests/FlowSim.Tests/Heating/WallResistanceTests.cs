using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Tests.Heating;

public class WallResistanceTests
{
    private static HeatTransferCoefficient Film(double w) => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(w);

    private static WallLayer Layer(double millimetres, double conductivity) => new()
    {
        Thickness = Length.FromMillimeters(millimetres),
        Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(conductivity),
    };

    [Fact]
    public void Flat_layers_by_hand()
    {
        // 1/50 + 0.002/0.45 + 0.03/0.04 + 1/10 = 0.02 + 0.0044444 + 0.75 + 0.1 = 0.8744444 m²·K/W.
        Assert.Equal(1 / 0.874444444444, WallResistance.OverallOfPlane(Film(50), [Layer(2, 0.45), Layer(30, 0.04)], Film(10)).WattsPerSquareMeterKelvin, 1e-9);
    }

    [Fact]
    public void A_bare_wall_is_its_two_films() =>
        Assert.Equal(8, WallResistance.OverallOfPlane(Film(40), [], Film(10)).WattsPerSquareMeterKelvin, 1e-12);

    [Fact]
    public void Round_layers_by_hand()
    {
        // r 100 to 150 mm, λ 0.05: (0.1/0.05) ln 1.5 = 0.8109302; films 1/20 and 0.1/(0.15 · 10) = 0.05 and 0.0666667.
        Assert.Equal(1 / (0.05 + 0.810930216216 + 0.066666666667), WallResistance.OverallOfCylinder(Length.FromMillimeters(100), Film(20), [Layer(50, 0.05)], Film(10)).WattsPerSquareMeterKelvin, 1e-9);
    }

    [Fact]
    public void Round_layers_join_flat_ones_on_a_wide_vessel()
    {
        WallLayer[] layers = [Layer(2, 0.45), Layer(30, 0.04)];
        double flat = WallResistance.OverallOfPlane(Film(50), layers, Film(10)).WattsPerSquareMeterKelvin;
        Assert.Equal(flat, WallResistance.OverallOfCylinder(Length.FromMeters(10), Film(50), layers, Film(10)).WattsPerSquareMeterKelvin, 0.004 * flat);
    }

    [Fact]
    public void Thin_insulation_on_a_thin_tube_can_let_more_heat_out()
    {
        // Critical radius λ/h (any text on heat transfer): 0.04/10 = 4 mm. From 2 mm outwards the loss grows until there.
        double Loss(double mm) => WallResistance.OverallOfCylinder(Length.FromMillimeters(2), Film(1e6), [Layer(mm, 0.04)], Film(10)).WattsPerSquareMeterKelvin;
        Assert.True(Loss(2) > Loss(1) && Loss(2) > Loss(3) && Loss(1) > Loss(0));
    }

    [Fact]
    public void A_bad_part_is_named()
    {
        Assert.Equal("Conductivity", Assert.Throws<ArgumentOutOfRangeException>(() => WallResistance.OverallOfPlane(Film(50), [Layer(2, 0)], Film(10))).ParamName);
        Assert.Equal("Thickness", Assert.Throws<ArgumentOutOfRangeException>(() => WallResistance.OverallOfPlane(Film(50), [Layer(501, 1)], Film(10))).ParamName);
        Assert.Equal("outside", Assert.Throws<ArgumentOutOfRangeException>(() => WallResistance.OverallOfPlane(Film(50), [], Film(0))).ParamName);
        Assert.Equal("innerRadius", Assert.Throws<ArgumentOutOfRangeException>(() => WallResistance.OverallOfCylinder(Length.Zero, Film(50), [], Film(1))).ParamName);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(1e5)]
    public void A_water_side_that_no_bath_has_is_refused(double coefficient) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterBath.CheckedWPerM2K(Film(coefficient), "bath"));

    [Fact]
    public void A_water_side_is_the_user_s() => Assert.Equal(400, WaterBath.CheckedWPerM2K(Film(400), "bath"));

    [Fact]
    public void What_is_missing_or_out_of_range_is_named_flat_or_round()
    {
        Func<HeatTransferCoefficient, IReadOnlyList<WallLayer>, HeatTransferCoefficient, HeatTransferCoefficient>[] walls =
            [WallResistance.OverallOfPlane, (inside, layers, outside) => WallResistance.OverallOfCylinder(Length.FromMeters(1), inside, layers, outside)];
        foreach (Func<HeatTransferCoefficient, IReadOnlyList<WallLayer>, HeatTransferCoefficient, HeatTransferCoefficient> wall in walls)
        {
            Assert.Equal("layers", Assert.Throws<ArgumentNullException>(() => wall(Film(50), null!, Film(10))).ParamName);
            Assert.Equal("layer", Assert.Throws<ArgumentNullException>(() => wall(Film(50), [Layer(2, 1), null!], Film(10))).ParamName);
            Assert.Equal("inside", Assert.Throws<ArgumentOutOfRangeException>(() => wall(Film(0.99e-6), [], Film(10))).ParamName);
            Assert.Equal("inside", Assert.Throws<ArgumentOutOfRangeException>(() => wall(Film(1.01e9), [], Film(10))).ParamName);
            Assert.Equal("outside", Assert.Throws<ArgumentOutOfRangeException>(() => wall(Film(50), [], Film(0.99e-6))).ParamName);
            Assert.Equal("Thickness", Assert.Throws<ArgumentOutOfRangeException>(() => wall(Film(50), [Layer(501, 1)], Film(10))).ParamName);
            Assert.True(wall(Film(1e-6), [], Film(1e9)).WattsPerSquareMeterKelvin > 0);
        }
    }
}
