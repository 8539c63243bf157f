using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Çengel, Heat and Mass Transfer, chapter 4: one-term coefficients and the short brass cylinder. Standing: wall, cylinder and the worked example seen earlier in a copy, not opened for these tests; the sphere's rows from memory (Bi = 1 is exact: π/2, 4/π).</summary>
public class CengelTransientTests
{
    // Table 4-2; half of the last digit.
    [Theory]
    [InlineData("wall", 0.1, 0.3111, 1.0161)]
    [InlineData("wall", 1, 0.8603, 1.1191)]
    [InlineData("wall", 10, 1.4289, 1.2620)]
    [InlineData("cylinder", 0.1, 0.4417, 1.0246)]
    [InlineData("cylinder", 1, 1.2558, 1.2071)]
    [InlineData("cylinder", 10, 2.1795, 1.5677)]
    [InlineData("sphere", 0.1, 0.5423, 1.0298)]
    [InlineData("sphere", 1, 1.5708, 1.2732)]
    [InlineData("sphere", 10, 2.8363, 1.9249)]
    public void Table_4_2(string shape, double biot, double zeta, double a1)
    {
        (double zeta1, double coefficient) = TransientConduction.OneTerm(
            shape switch { "wall" => ConductionShape.PlaneWall, "cylinder" => ConductionShape.InfiniteCylinder, _ => ConductionShape.Sphere },
            biot);
        Assert.Equal(zeta, zeta1, 0.00005001);
        Assert.Equal(a1, coefficient, 0.00005001);
    }

    [Fact]
    public void Example_4_8_short_brass_cylinder()
    {
        // 120 °C into 25 °C, h 60, R 0.05 m, half-height 0.06 m, k 110, α 3.39e-5, 900 s. The book reads 63 °C off charts; the
        // series was summed beforehand, apart from this code, to 62.7317 °C. The book's ρ 8530 and c 380 give α 3.394e-5; c is
        // set to give 3.39e-5.
        var cylinder = new CylinderConduction
        {
            Radius = Length.FromMeters(0.05),
            Height = Length.FromMeters(0.12),
            Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(110),
            Density = Density.FromKilogramsPerCubicMeter(8530),
            HeatCapacity = SpecificEntropy.FromJoulesPerKilogramKelvin(110 / (3.39e-5 * 8530)),
            Side = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(60),
            Ends = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(60),
        };
        double centreC = 25 + 95 * cylinder.GapAfter(Duration.FromSeconds(900)).Centre.DecimalFractions;
        Assert.Equal(63, centreC, 0.5);
        Assert.Equal(62.7317, centreC, 0.00005);
    }
}
