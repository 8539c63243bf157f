using FlowSim.Gates;
using MathNet.Numerics;

namespace FlowSim.Sources.Tests;

/// <summary>The parabola u = Δp (a² − r²)/(4 μ L), integrated over the tube.</summary>
[Publication("Poiseuille 1840, Hagen 1839", "Flow through a tube", Standing.FromMemory)]
public class Poiseuille1840Tests
{
    [Theory]
    [InlineData(0.019, 0.04)]
    [InlineData(0.0125, 0.6)]
    public void Tube_passes_the_integral_of_its_profile(double a, double length)
    {
        const double dp = 4000, mu = 3;
        double flow = Integrate.GaussLegendre(r => 2 * Math.PI * r * dp * (a * a - r * r) / (4 * mu * length), 0, a, 16);
        Assert.Equal(flow, dp / (mu * OpeningResistance.TubePoiseuille1840PerM3(a, length)), 1e-13 * flow);
    }

    /// <summary>f the Fanning factor.</summary>
    [Fact]
    [Publication("Shah and London 1978", "f Re of the circle", Standing.FromMemory)]
    public void Friction_factor_times_Reynolds_number_is_sixteen()
    {
        const double a = 0.02, length = 1.5, mu = 5, rho = 1400, velocity = 0.01;
        double dp = mu * OpeningResistance.TubePoiseuille1840PerM3(a, length) * velocity * Math.PI * a * a;
        double wallShear = dp * a / (2 * length);
        double fanning = wallShear / (rho * velocity * velocity / 2);
        Published.Agrees(16, fanning * rho * velocity * 2 * a / mu, Within.Rounding(1e-12), "f Re of a round tube");
    }
}
