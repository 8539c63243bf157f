using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Plastic balls of nine sizes, five timings each over 300 mm on the axis of a tube of 75 mm, and the same liquid (1144.2 kg/m³) through a
/// capillary of 1.5 mm and 100 mm, 25 mL in 9 min 39.08 s under 533.25 mm of itself.
/// </summary>
[Publication("Measured falling balls", "Open data of a practical course in physics: experiment 212, viscosity of liquids, public repository nilsvu/PAP2, V212", Standing.Opened, Remark = "the viscosity of the liquid is that of the capillary measured beside it")]
public class FallingBallDataTests
{
    private const double LiquidKgPerM3 = 1144.2;

    /// <summary>Hagen–Poiseuille, which knows nothing of balls: 0.172 Pa·s, 2.7 % of it from the bore alone.</summary>
    private static double ByCapillary()
    {
        const double radius = 0.75e-3, flow = 25e-6 / 579.08;
        return Math.PI * LiquidKgPerM3 * 9.80665 * 0.53325 * Math.Pow(radius, 4) / (8 * flow * 0.100);
    }

    [Theory]
    [InlineData(1.5, 192.36, 199.12, 196.48, 194.7, 192.51)]
    [InlineData(2, 106.28, 115.26, 103.37, 101.09, 108.93)]
    [InlineData(3, 52.46, 51.96, 52.92, 52.61, 52.12)]
    [InlineData(4, 31.32, 31.17, 30.17, 30.51, 30.81)]
    public void Balls_of_all_sizes_give_the_viscosity_of_the_capillary(double diameterMm, params double[] seconds)
    {
        double mu = SphereFall.ViscosityPaS(diameterMm / 1000, 0.075, 1377.5, LiquidKgPerM3, 0.300 / seconds.Average());
        Assert.InRange(LiquidKgPerM3 * 0.300 / seconds.Average() * diameterMm / 1000 / mu, 0, SphereFall.ReynoldsRange.OuterHigh);
        Published.Agrees(
            ByCapillary(), mu, Within.Relative(0.045, "the capillary alone leaves 2.7 %, from its bore; the rest is the balls' own"), $"viscosity by balls of {diameterMm} mm", "Pa·s");
    }

    /// <summary>From 5 mm on the balls are faster than the equation goes.</summary>
    [Fact]
    public void Larger_balls_are_beyond_its_range()
    {
        const double speed = 0.300 / 20.244;
        double mu = SphereFall.ViscosityPaS(0.005, 0.075, 1377.5, LiquidKgPerM3, speed);
        Assert.False(SphereFall.ReynoldsRange.Admits(LiquidKgPerM3 * speed * 0.005 / mu));
    }

    /// <summary>Without the corrections the balls disagree with each other and with the capillary, so the test above can fail.</summary>
    [Fact]
    public void Without_the_corrections_they_do_not()
    {
        double stokes = SphereFall.WideVesselViscosityPaS(0.005, 1377.5 - LiquidKgPerM3, 0.300 / 20.244);
        Assert.True(stokes > 1.2 * ByCapillary());
    }
}
