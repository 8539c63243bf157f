using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Air at one atmosphere against rows of textbook tables.</summary>
public class AirTests
{
    // Çengel, Heat and Mass Transfer, table of air at 1 atm, rows read in public course material that quotes them (opened).
    // ρ 0.5 %, μ 1 %; λ and Pr 3 %: textbook tables themselves differ by 2 to 3 % there.
    [Theory]
    [InlineData(35, 1.145, 0.02625, 1.895e-5, 0.7268)]
    [InlineData(40, 1.127, 0.02662, 1.918e-5, 0.7255)]
    public void Cengel_table(double celsius, double density, double conductivity, double viscosity, double prandtl)
    {
        Air air = Air.StandardAtmosphere1976(celsius + 273.15);
        Assert.Equal(density, air.DensityKgPerM3, 0.005 * density);
        Assert.Equal(viscosity, air.ViscosityPaS, 0.01 * viscosity);
        Assert.Equal(conductivity, air.ConductivityWPerMK, 0.03 * conductivity);
        Assert.Equal(prandtl, air.Prandtl, 0.03 * prandtl);
    }

    // Incropera and DeWitt, table A.4 (from memory): 300 K, 350 K. 1 % each. Its density is that of p/(R T) at 1 bar, so density and
    // what hangs on it are brought to one atmosphere.
    [Theory]
    [InlineData(300, 1.1614, 184.6e-7, 26.3e-3, 15.89e-6, 22.5e-6, 0.707)]
    [InlineData(350, 0.9950, 208.2e-7, 30.0e-3, 20.92e-6, 29.9e-6, 0.700)]
    public void Incropera_table(double kelvin, double density, double viscosity, double conductivity, double kinematic, double diffusivity, double prandtl)
    {
        Air air = Air.StandardAtmosphere1976(kelvin);
        const double atmosphere = 1.01325;
        Assert.Equal(density, air.DensityKgPerM3 / atmosphere, 0.01 * density);
        Assert.Equal(viscosity, air.ViscosityPaS, 0.01 * viscosity);
        Assert.Equal(conductivity, air.ConductivityWPerMK, 0.01 * conductivity);
        Assert.Equal(kinematic, air.KinematicViscosityM2PerS * atmosphere, 0.01 * kinematic);
        Assert.Equal(diffusivity, air.DiffusivityM2PerS * atmosphere, 0.01 * diffusivity);
        Assert.Equal(prandtl, air.Prandtl, 0.015 * prandtl);
        Assert.Equal(1 / kelvin, air.ExpansionPerK, 1e-15);
    }
}
