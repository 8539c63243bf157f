using FlowSim.Gates;

namespace FlowSim.Sources.Tests;

/// <summary>Δp = (μ Q/a³)(3 + 8L/(πa)).</summary>
[Publication("Dagan, Weinbaum and Pfeffer 1982", "J. Fluid Mech. 115:505", Standing.FromMemory)]
public class Dagan1982Tests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(2)]
    [InlineData(50)]
    public void Hole_and_tube_add(double lengthInRadii)
    {
        const double a = 0.019;
        double expected = (3 + 8 * lengthInRadii / Math.PI) / (a * a * a);
        Assert.Equal(expected, OpeningResistance.HoleAndTubeDagan1982PerM3(a, lengthInRadii * a), 1e-14 * expected);
    }

    /// <summary>A long tube is Poiseuille's: the ends weigh 3πa/(8L).</summary>
    [Fact]
    public void Long_tube_forgets_its_ends()
    {
        const double a = 0.001, length = 10;
        Assert.Equal(1 + 3 * Math.PI * a / (8 * length), OpeningResistance.HoleAndTubeDagan1982PerM3(a, length) / OpeningResistance.TubePoiseuille1840PerM3(a, length), 1e-12);
    }
}
