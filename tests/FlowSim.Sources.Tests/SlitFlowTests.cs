using FlowSim.Gates;

namespace FlowSim.Sources.Tests;

/// <summary>Flow through a narrow gap, Q = w h³ Δp/(12 μ L), against worked figures.</summary>
public class SlitFlowTests
{
    /// <summary>
    /// A public engineering calculator on leakage past a rod (opened): gap 1 mm, 10 Pa, diameter 10 m with 3.14 for π, 0.5 Pa·s, depth 1 m:
    /// 5.23333333333333e-8 m³/s.
    /// </summary>
    [Fact]
    public void Leakage_past_a_rod() => Assert.Equal(5.23333333333333e-8, SlitFlow.VolumeFlowM3PerS(3.14 * 10, 0.001, 1, 10, 0.5), 1e-21);

    /// <summary>
    /// A textbook's leakage past a piston (from memory): diameter 25 mm, length 15 mm, gap 5 µm, 20 MPa against 1 MPa, oil of 0.018 Pa·s: 57.6 mm³/s.
    /// </summary>
    [Fact]
    public void Leakage_past_a_piston() => Assert.Equal(57.6e-9, SlitFlow.VolumeFlowM3PerS(Math.PI * 0.025, 5e-6, 0.015, 19e6, 0.018), 0.05e-9);

    /// <summary>The parabola it comes from: the mean speed is two thirds of the highest, h²Δp/(8 μ L) (a public examination question, opened).</summary>
    [Fact]
    public void Mean_speed_is_two_thirds_of_the_highest()
    {
        const double h = 1e-4, pressure = 4000, mu = 3, length = 0.003;
        Assert.Equal(2.0 / 3 * h * h * pressure / (8 * mu * length), SlitFlow.VolumeFlowM3PerS(0.1, h, length, pressure, mu) / (0.1 * h), 1e-15);
    }
}
