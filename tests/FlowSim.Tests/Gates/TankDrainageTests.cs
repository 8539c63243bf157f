using FlowSim.Gates;
using FlowSim.Vessels;
using FsCheck.Xunit;
using MathNet.Numerics;
using UnitsNet;

namespace FlowSim.Tests.Gates;

/// <summary>Drain times of a 19 L pail, worked out for this project beforehand from the closed form, and against quadrature.</summary>
public class TankDrainageTests
{
    private const double DiameterM = 0.285;
    private const double HeadM = 0.019 / PlanAreaM2;
    private const double DensityKgPerM3 = 1400;
    private const double Gravity = 9.81;
    private const double PlanAreaM2 = Math.PI / 4 * DiameterM * DiameterM;
    private const double SpecificWeight = DensityKgPerM3 * Gravity;

    private static readonly GateGeometry OpenGate = GateFlow.GeometryOf(
        new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        1);

    private static double TimeS(double viscosityPaS) => TankDrainage.PrismTimeS(
        HeadM, 0.05 * HeadM, PlanAreaM2, viscosityPaS * OpenGate.ViscousPerM3, DensityKgPerM3 * OpenGate.InertialPerM4, SpecificWeight);

    /// <summary>
    /// Pail 0.285 m across, 19 L (a head of 0.298 m), gate 38 mm × 40 mm, K 2.3, 3 Pa·s, 1400 kg/m³, g 9.81: 47.913 s to
    /// 5 % of the head, to the last digit printed.
    /// </summary>
    [Fact]
    public void Pail_at_three_pascal_seconds() => Assert.Equal(47.913, TimeS(3), 0.0005);

    [Fact]
    public void Nothing_takes_no_time() => Assert.Equal(0, TankDrainage.PrismTimeS(0, 0, PlanAreaM2, 0, DensityKgPerM3 * OpenGate.InertialPerM4, SpecificWeight));

    /// <summary>The same without inertia: 41.76 s.</summary>
    [Fact]
    public void Pail_at_three_pascal_seconds_without_inertia() =>
        Assert.Equal(41.76, TankDrainage.ViscousPrismTimeS(HeadM, 0.05 * HeadM, PlanAreaM2, 3 * OpenGate.ViscousPerM3, SpecificWeight), 0.005);

    /// <summary>The same at six viscosities, as printed in the project's table: three digits.</summary>
    [Theory]
    [InlineData(0.5, 20.2, 0.05)]
    [InlineData(1, 24.9, 0.05)]
    [InlineData(3, 47.9, 0.05)]
    [InlineData(10, 141, 0.5)]
    [InlineData(30, 418, 0.5)]
    [InlineData(100, 1392, 0.5)]
    public void Pail_from_thin_to_thick(double viscosityPaS, double seconds, double halfDigit) =>
        Assert.Equal(seconds, TimeS(viscosityPaS), halfDigit);

    /// <summary>Independent of the closed form: ∫ A dh/Q(h) by Gauss-Legendre quadrature.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void Prism_time_is_the_integral_of_area_over_flow(Share viscosity, Share end)
    {
        double muPaS = viscosity.LogBetween(1e-3, 1e3);
        double toHead = end.Between(0.05, 0.9) * HeadM;
        double r = muPaS * OpenGate.ViscousPerM3;
        double b = DensityKgPerM3 * OpenGate.InertialPerM4;
        double expected = Integrate.GaussLegendre(h => PlanAreaM2 / GateFlow.VolumeFlowM3PerS(SpecificWeight * h, r, b), toHead, HeadM, 128);
        Assert.Equal(expected, TankDrainage.PrismTimeS(HeadM, toHead, PlanAreaM2, r, b, SpecificWeight), 1e-11 * expected);
    }

    [Fact]
    public void Prism_time_has_both_limits()
    {
        double viscous = TankDrainage.ViscousPrismTimeS(1, 0.1, 0.5, 1e7, 13734);
        Assert.Equal(viscous, TankDrainage.PrismTimeS(1, 0.1, 0.5, 1e7, 0, 13734), 1e-12 * viscous);

        // B = ρ/(2 (C_d A_o)²) makes Torricelli's law of Δp = B Q².
        const double cd = 0.61, hole = 1e-3;
        double torricelli = TankDrainage.PrismTimeTorricelliS(1, 0.1, 0.5, cd, hole, 9.81);
        double b = 1400 / (2 * cd * cd * hole * hole);
        Assert.Equal(torricelli, TankDrainage.PrismTimeS(1, 0.1, 0.5, 0, b, 1400 * 9.81), 1e-12 * torricelli);
        Assert.Equal(TankDrainage.PrismTimeTorricelliS(1, 0, 0.5, cd, hole, 9.81), TankDrainage.PrismTimeS(1, 0, 0.5, 0, b, 1400 * 9.81), 1e-12 * torricelli);
    }

    [Fact]
    public void Nothing_falls_in_no_time() => Assert.Equal(0, TankDrainage.PrismTimeS(0.3, 0.3, 0.06, 1e6, 1e9, 13734));
}
