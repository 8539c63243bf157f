using FlowSim.Gates;

namespace FlowSim.Sources.Tests;

/// <summary>Q = w h³ Δp/(12 μ L).</summary>
[Publication("Flow through a narrow gap", "Leakage past a rod, worked out by a public engineering calculator", Standing.Opened)]
public class SlitFlowTests
{
    /// <summary>The calculator takes 3.14 for π.</summary>
    [Fact]
    public void Leakage_past_a_rod() => Published.Agrees(
        5.23333333333333e-8,
        SlitFlow.VolumeFlowM3PerS(3.14 * 10, 0.001, 1, 10, 0.5),
        Within.HalfDigit(1e-21),
        "gap 1 mm, 10 Pa, diameter 10 m, 0.5 Pa·s, depth 1 m",
        "m³/s");

    /// <summary>20 MPa against 1 MPa.</summary>
    [Fact]
    [Publication("a textbook", "leakage past a piston", Standing.FromMemory)]
    public void Leakage_past_a_piston() => Published.Agrees(
        57.6,
        1e9 * SlitFlow.VolumeFlowM3PerS(Math.PI * 0.025, 5e-6, 0.015, 19e6, 0.018),
        Within.HalfDigit(0.05),
        "diameter 25 mm, length 15 mm, gap 5 µm, 19 MPa, oil of 0.018 Pa·s",
        "mm³/s");

    /// <summary>The parabola it comes from: the mean speed is two thirds of the highest, h²Δp/(8 μ L) (a public examination question, opened).</summary>
    [Fact]
    public void Mean_speed_is_two_thirds_of_the_highest()
    {
        const double h = 1e-4, pressure = 4000, mu = 3, length = 0.003;
        Assert.Equal(2.0 / 3 * h * h * pressure / (8 * mu * length), SlitFlow.VolumeFlowM3PerS(0.1, h, length, pressure, mu) / (0.1 * h), 1e-15);
    }
}
