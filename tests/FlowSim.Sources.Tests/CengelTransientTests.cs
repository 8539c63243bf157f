using FlowSim.Heating;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Transient conduction: one-term coefficients and the short brass cylinder.</summary>
[Publication("Çengel, transient conduction", "Heat and Mass Transfer, chapter 4, table 4-2 and example 4-8", Standing.SecondaryCopy, Remark = "wall, cylinder and the worked example seen earlier in a copy, not opened for these tests; the sphere's rows from memory (Bi = 1 is exact: π/2, 4/π)")]
public class CengelTransientTests
{
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
        Published.Agrees(zeta, zeta1, Within.HalfDigit(0.00005001), $"ζ₁ of the {shape}, Bi {biot}");
        Published.Agrees(a1, coefficient, Within.HalfDigit(0.00005001), $"A₁ of the {shape}, Bi {biot}");
    }

    [Fact]
    public void Example_4_8_short_brass_cylinder()
    {
        // 120 °C into 25 °C, h 60, R 0.05 m, half-height 0.06 m, k 110, α 3.39e-5, 900 s. The book's ρ 8530 and c 380 give α 3.394e-5;
        // c is set to give 3.39e-5.
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
        Published.Agrees(63, centreC, Within.Absolute(0.5, "the book reads it off charts to whole degrees"), "centre after 900 s", "°C");
        Assert.Equal(62.7317, centreC, 0.00005); // the series, summed beforehand apart from this code
    }
}
