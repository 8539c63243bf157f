using FlowSim.Screens;

namespace FlowSim.Sources.Tests;

/// <summary>Resistance of woven wire cloth.</summary>
[Publication("Armour and Cannon 1968", "Fluid flow through woven screens, AIChE J. 14:415", Standing.AbstractOnly, Remark = "8.61, 0.52, Re = ρU/(μ a² D) and the ranges were read; the friction factor's definition is from memory")]
public class ArmourCannon1968Tests
{
    [Theory]
    [Publication("a working apart from this code", "r = 8.61 a² B/ε²", Standing.Derived)]
    [InlineData(600, 400, 1.801e5)]
    [InlineData(400, 250, 2.524e5)]
    [InlineData(200, 140, 5.693e5)]
    [InlineData(100, 71, 1.156e6)]
    public void Resistance_of_standard_cloths(double openingUm, double wireUm, double expectedPerM) =>
        Published.Agrees(
            expectedPerM,
            SquareCloth.ResistancePerMArmourCannon1968(openingUm * 1e-6, wireUm * 1e-6),
            Within.Relative(5e-4, "four digits"),
            $"resistance of {openingUm} µm cloth of {wireUm} µm wire",
            "1/m");

    /// <summary>f = 8.61/Re in the creeping limit, with f = Δp ε² D/(B ρ U²): put together from the parts.</summary>
    [Fact]
    public void Friction_factor_times_Reynolds_number_is_the_viscous_coefficient()
    {
        const double w = 400e-6, d = 250e-6, mu = 3, rho = 1400, u = 1e-3;
        double a = SquareCloth.SpecificSurfacePerM(w, d);
        double porosity = SquareCloth.Porosity(w, d);
        double dp = mu * SquareCloth.ResistancePerMArmourCannon1968(w, d) * u;
        double friction = dp * porosity * porosity * w / (SquareCloth.ThicknessM(d) * rho * u * u);
        double reynolds = rho * u / (mu * a * a * w);
        Published.Agrees(8.61, friction * reynolds, Within.Rounding(1e-12), "f Re in the creeping limit");
        Assert.True(SquareCloth.ReynoldsRange.Supports(reynolds));
    }

    /// <summary>The inertial term left out is 0.52 against 8.61/Re: 1 % and 10 % of it at the ends of the range.</summary>
    [Fact]
    public void Range_bounds_the_inertia_left_out()
    {
        Assert.Equal(0.01, 0.52 * SquareCloth.ReynoldsRange.High / 8.61, 0.0005);
        Assert.Equal(0.10, 0.52 * SquareCloth.ReynoldsRange.OuterHigh / 8.61, 0.005);
    }

    /// <summary>Ranges as the abstract gives them: porosity 0.35 to 0.76, pores 5 to 550 µm.</summary>
    [Fact]
    public void Ranges_are_the_abstract_s()
    {
        Published.Agrees((0.35, 0.76), (SquareCloth.PorosityRange.Low, SquareCloth.PorosityRange.High), "porosity");
        Published.Agrees((5, 550), (SquareCloth.OpeningRange.Low, SquareCloth.OpeningRange.High), "pore", "µm");
    }
}
