using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

public class CylinderGridTests
{
    private static readonly CylinderGrid Grid = new(0.14, 0.3, 7, 11);

    [Fact]
    public void The_cells_fill_the_cylinder()
    {
        double volume = Enumerable.Range(0, 7).Sum(i => 11 * Grid.CellVolumeM3(i));
        Assert.Equal(Math.PI * 0.14 * 0.14 * 0.3, volume, 1e-15);
        Assert.Equal(Grid.EndAreaM2, Grid.RingAreaM2.Sum(), 1e-15);
        Assert.Equal(2 * Math.PI * 0.14 * 0.3, 11 * Grid.SideCellAreaM2, 1e-15);
        Assert.Equal(77, Grid.Count);
    }

    /// <summary>T = r² makes the heat per length through a circle 4πr²: differences of squares are exact, so the conductances must be.</summary>
    [Fact]
    public void A_parabola_in_radius_gives_the_heat_that_calculus_does()
    {
        for (int i = 0; i < 6; i++)
        {
            double inner = (i + 0.5) * Grid.RadialStepM, outer = (i + 1.5) * Grid.RadialStepM, face = (i + 1) * Grid.RadialStepM;
            double heat = Grid.RadialFaceM(i) * ((outer * outer) - (inner * inner));
            Assert.Equal(4 * Math.PI * face * face * Grid.AxialStepM, heat, 1e-15);
        }
    }

    [Fact]
    public void A_straight_line_in_height_gives_the_heat_that_calculus_does() =>
        Assert.Equal(Grid.EndAreaM2, Enumerable.Range(0, 7).Sum(Grid.AxialFaceM) * Grid.AxialStepM, 1e-15);

    [Theory]
    [InlineData(0, 0.3, 0.3)]
    [InlineData(0.05, 0.17, 0.12)]
    [InlineData(0.1, 0.101, 0.001)]
    [InlineData(0.2, double.PositiveInfinity, 0.1)]
    [InlineData(-1, 0.02, 0.02)]
    [InlineData(0.4, 0.5, 0)]
    [InlineData(0.1, 0.1, 0)]
    public void What_a_band_covers_adds_up(double fromM, double toM, double coveredM)
    {
        double[] shares = [.. Enumerable.Range(0, 11).Select(k => Grid.ShareBetween(k, fromM, toM))];
        Assert.Equal(coveredM, shares.Sum() * Grid.AxialStepM, 1e-12);
        Assert.All(shares, share => Assert.InRange(share, 0, 1));
    }

    [Fact]
    public void Another_shape_becomes_the_cylinder_of_its_level_and_volume()
    {
        var tank = new ConeBottomedTank(Length.FromMeters(0.6), Length.FromMeters(0.5), Length.FromMeters(0.3));
        Length level = Length.FromMeters(0.7);
        double radius = VesselCylinder.RadiusM(new WarmedVessel { Shape = tank, Level = level });
        Assert.Equal(tank.VolumeM3(0.7), Math.PI * radius * radius * 0.7, 1e-12);

        // A cylinder stays itself.
        var pail = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360));
        Assert.Equal(0.1425, VesselCylinder.RadiusM(new WarmedVessel { Shape = pail, Level = Length.FromMillimeters(111) }), 1e-12);
    }
}
