using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Air at one atmosphere against rows of textbook tables.</summary>
[Publication("Çengel, table of air", "Heat and Mass Transfer, properties of air at 1 atm", Standing.SecondaryCopy, Remark = "rows as public course material quotes them")]
public class AirTests
{
    [Theory]
    [InlineData(35, 1.145, 0.02625, 1.895e-5, 0.7268)]
    [InlineData(40, 1.127, 0.02662, 1.918e-5, 0.7255)]
    public void Cengel_table(double celsius, double density, double conductivity, double viscosity, double prandtl)
    {
        Air air = Air.StandardAtmosphere1976(celsius + 273.15);
        Published.Agrees(density, air.DensityKgPerM3, Within.Relative(0.005, "another source of data"), $"density at {celsius} °C", "kg/m³");
        Published.Agrees(viscosity, air.ViscosityPaS, Within.Relative(0.01, "another source of data"), $"viscosity at {celsius} °C", "Pa·s");
        Within tables = Within.Relative(0.03, "textbook tables themselves differ by 2 to 3 % there");
        Published.Agrees(conductivity, air.ConductivityWPerMK, tables, $"conductivity at {celsius} °C", "W/(m·K)");
        Published.Agrees(prandtl, air.Prandtl, tables, $"Prandtl number at {celsius} °C");
    }

    // Its density is that of p/(R T) at 1 bar, so density and what hangs on it are brought to one atmosphere.
    [Theory]
    [Publication("Incropera and DeWitt", "table A.4, air", Standing.FromMemory)]
    [InlineData(300, 1.1614, 184.6e-7, 26.3e-3, 15.89e-6, 22.5e-6, 0.707)]
    [InlineData(350, 0.9950, 208.2e-7, 30.0e-3, 20.92e-6, 29.9e-6, 0.700)]
    public void Incropera_table(double kelvin, double density, double viscosity, double conductivity, double kinematic, double diffusivity, double prandtl)
    {
        Air air = Air.StandardAtmosphere1976(kelvin);
        const double atmosphere = 1.01325;
        Within one = Within.Relative(0.01, "another source of data");
        Published.Agrees(density, air.DensityKgPerM3 / atmosphere, one, $"density at {kelvin} K and 1 bar", "kg/m³");
        Published.Agrees(viscosity, air.ViscosityPaS, one, $"viscosity at {kelvin} K", "Pa·s");
        Published.Agrees(conductivity, air.ConductivityWPerMK, one, $"conductivity at {kelvin} K", "W/(m·K)");
        Published.Agrees(kinematic, air.KinematicViscosityM2PerS * atmosphere, one, $"kinematic viscosity at {kelvin} K and 1 bar", "m²/s");
        Published.Agrees(diffusivity, air.DiffusivityM2PerS * atmosphere, one, $"thermal diffusivity at {kelvin} K and 1 bar", "m²/s");
        Published.Agrees(prandtl, air.Prandtl, Within.Relative(0.015, "a quotient of three of these"), $"Prandtl number at {kelvin} K");
        Assert.Equal(1 / kelvin, air.ExpansionPerK, 1e-15);
    }
}
