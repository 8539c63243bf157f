using FlowSim.Gates;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Gates;

/// <summary>The level at which a tank counts as drained, worked out by hand.</summary>
public class TankHeelTests
{
    private static readonly ConeBottomedTank Cone = new(Mm(400), Mm(300), Mm(400));

    private static Length Mm(double value) => Length.FromMillimeters(value);

    [Theory]
    [InlineData(0, 0.002)]
    [InlineData(0.05, 0.052)]
    public void An_upright_tank_drains_to_two_millimetres_over_the_gate(double gateM, double levelM) =>
        Assert.Equal(levelM, TankHeel.LevelM(new UprightCylinder(Mm(285), Mm(360)), gateM, 0.038), 1e-15);

    /// <summary>A cone that is as wide as it is high, so its surface is as wide as the level is high: 40 mm wide at 40 mm.</summary>
    [Fact]
    public void A_cone_drains_to_where_it_is_as_wide_as_the_bore() => Assert.Equal(0.040, TankHeel.LevelM(Cone, 0, 0.040), 1e-8);

    [Fact]
    public void Over_a_gate_where_the_cone_is_wide_enough_two_millimetres_are_left() => Assert.Equal(0.062, TankHeel.LevelM(Cone, 0.060, 0.040), 1e-15);

    [Fact]
    public void A_tank_that_is_narrower_than_the_bore_everywhere_drains_nothing() => Assert.Equal(0.7, TankHeel.LevelM(Cone, 0, 0.500), 1e-8);
}
