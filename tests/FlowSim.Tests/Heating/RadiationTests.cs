using FlowSim.Heating;

namespace FlowSim.Tests.Heating;

public class RadiationTests
{
    [Fact]
    public void Black_surfaces_at_300_K()
    {
        // 4 σ T³ with σ = 5.670374419e-8 (CODATA 2018, from memory): 6.124 W/(m²·K), by hand.
        Assert.Equal(6.124, Radiation.GreySurfaceWPerM2K(1, 300, 300), 0.0005);
    }

    [Fact]
    public void The_coefficient_gives_the_exact_flux()
    {
        // Stefan-Boltzmann law: ε σ (T1⁴ − T2⁴).
        double flux = 0.9 * 5.670374419e-8 * (Math.Pow(333.15, 4) - Math.Pow(293.15, 4));
        Assert.Equal(flux, Radiation.GreySurfaceWPerM2K(0.9, 333.15, 293.15) * 40, 1e-9 * flux);
    }
}
