using FlowSim.Gates;
using MathNet.Numerics;

namespace FlowSim.Sources.Tests;

/// <summary>Creeping flow through a thin round hole, Q = a³Δp/(3μ), and what this project builds on it for other outlines.</summary>
[Publication("Sampson 1891", "Phil. Trans. R. Soc. A 182:449", Standing.SecondaryCopy, Remark = "as given in public encyclopaedia articles")]
public class Sampson1891Tests
{
    [Fact]
    public void Round_hole()
    {
        const double a = 0.019, mu = 3, dp = 4000;
        Assert.Equal(a * a * a * dp / (3 * mu), dp / (mu * OpeningResistance.ThinHoleSampson1891PerM3(a)), 1e-18);
        Assert.Equal(OpeningResistance.ThinHoleSampson1891PerM3(a) / 2, OpeningResistance.HoleEntryPerM3(a));
    }

    [Fact]
    public void Outline_formula_is_exact_for_the_circle()
    {
        const double a = 0.019;
        double hole = OpeningResistance.ThinHoleSampson1891PerM3(a);
        Assert.Equal(hole, OpeningResistance.ThinOpeningPerM3(Math.PI * a * a, 2 * Math.PI * a), 1e-14 * hole);
    }

    /// <summary>
    /// A very long ellipse is a slit of slowly varying half-width b(x) = b √(1 − x²/a²). A slit passes π b² Δp/(8 μ) per
    /// length; integrated over the ellipse, π a b² Δp/(6 μ).
    /// </summary>
    [Fact]
    [Publication("Hasimoto 1958", "J. Phys. Soc. Japan 13:633, flow through a slit", Standing.FromMemory)]
    public void Outline_formula_joins_the_slit_for_a_long_ellipse()
    {
        const double a = 1, b = 1e-4;
        double perimeter = 4 * Integrate.GaussLegendre(t => Math.Sqrt(a * a * Math.Cos(t) * Math.Cos(t) + b * b * Math.Sin(t) * Math.Sin(t)), 0, Math.PI / 2, 256);
        double slit = Integrate.GaussLegendre(x => Math.PI * b * b * (1 - x * x / (a * a)) / 8, -a, a, 16);
        Published.Agrees(
            slit,
            1 / OpeningResistance.ThinOpeningPerM3(Math.PI * a * b, perimeter),
            Within.Relative(1e-4, "the ellipse is ten thousand times as long as wide"),
            "flow per pressure and fluidity, ellipse of half-axes 1 m and 0.1 mm",
            "m³");
    }

    /// <summary>
    /// Flow through a bore half shut by a straight blade, relative to the full circle. The formula is to be up to 8 % low, never high.
    /// </summary>
    [Theory]
    [Publication("a boundary-element solution", "computed for this project beforehand, printed to two or three digits", Standing.Derived)]
    [InlineData(0.90, 0.918, 0.0005)]
    [InlineData(0.75, 0.699, 0.0005)]
    [InlineData(0.50, 0.316, 0.0005)]
    [InlineData(0.25, 0.066, 0.0005)]
    [InlineData(0.10, 0.0072, 0.00005)]
    public void Outline_formula_is_within_eight_percent_below_for_straight_blades(double opening, double relativeFlow, double halfDigit)
    {
        GateOpening open = GateOpening.OfStraightBlade(1, opening);
        double relative = OpeningResistance.ThinHoleSampson1891PerM3(1) / OpeningResistance.ThinOpeningPerM3(open.AreaM2, open.PerimeterM);
        Published.Agrees(
            relativeFlow,
            relative,
            Within.Ratio(0.92 * (1 - halfDigit / relativeFlow), 1 + halfDigit / relativeFlow, "the stated error of the formula, up to 8 % low, never high, and half of the last digit printed"),
            $"flow at {100 * opening} % open over that of the full circle");
    }

    /// <summary>C_d = 1/√(1/0.61² + 37.70/Re).</summary>
    [Theory]
    [Publication("a working by hand", "the same formula", Standing.Derived)]
    [InlineData(0.1, 0.0513)]
    [InlineData(1, 0.1574)]
    [InlineData(10, 0.3935)]
    [InlineData(100, 0.5712)]
    public void Implied_discharge_coefficient(double reynolds, double expected) =>
        Published.Agrees(expected, OpeningResistance.DischargeCoefficient(reynolds), Within.HalfDigit(0.00005), $"discharge coefficient at Re {reynolds}");

    /// <summary>C_d → 0.1629 √Re.</summary>
    [Fact]
    [Publication("Merritt 1967", "Hydraulic Control Systems, 0.2 √Re for a round hole", Standing.FromMemory)]
    public void Creeping_limit_of_the_discharge_coefficient()
    {
        const double re = 1e-6;
        double delta = OpeningResistance.DischargeCoefficient(re) / Math.Sqrt(re);
        Assert.Equal(0.1629, delta, 0.00005);
        Published.Agrees(0.2, delta, Within.Ratio(0.8, 1, "a coefficient of one digit"), "discharge coefficient over √Re, creeping");
    }

    /// <summary>The coefficient comes from the flow equation itself: Δp = μ R̂ Q + ρ Q²/(2 (0.61 A)²), Q = V A.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(30)]
    public void Discharge_coefficient_agrees_with_the_flow_equation(double reynolds)
    {
        const double a = 0.01, rho = 1400, mu = 2;
        double area = Math.PI * a * a;
        double velocity = reynolds * mu / (rho * 2 * a);
        double cdByFlow = OpeningResistance.DischargeCoefficient(reynolds);
        double dp = rho * velocity * velocity / 2 / (cdByFlow * cdByFlow);
        double b = rho / (2 * 0.61 * 0.61 * area * area);
        Assert.Equal(velocity * area, GateFlow.VolumeFlowM3PerS(dp, mu * OpeningResistance.ThinHoleSampson1891PerM3(a), b), 1e-14 * area);
    }

    [Fact]
    public void Range_is_creeping()
    {
        // Share of inertia in the pressure of a thin hole: (1/0.61²)/(1/0.61² + 12π/Re), 3 % and 30 % at the two limits.
        static double Inertia(double re) => 1 / (0.61 * 0.61) / (1 / (0.61 * 0.61) + 12 * Math.PI / re);
        Assert.Equal(0.03, Inertia(OpeningResistance.CreepingRange.High), 0.005);
        Assert.Equal(0.30, Inertia(OpeningResistance.CreepingRange.OuterHigh), 0.005);
    }
}
