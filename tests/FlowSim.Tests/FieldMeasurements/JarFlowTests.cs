using FlowSim.FieldMeasurements;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class JarFlowTests
{
    /// <summary>A tank of 1 m² of floor, so that 40 L are 40 mm: from 300 to 260 mm, 240 to 200 mm above a gate at 60 mm.</summary>
    private static FallingJarFlow Falling(double viscousPerM3, double inertialPerM4) => new(
        0.040, 1400, viscousPerM3, inertialPerM4, new UprightCylinder(Length.FromMeters(Math.Sqrt(4 / Math.PI)), Length.FromMeters(1)), 0.300, 0.060);

    [Fact]
    public void The_head_is_the_honey_above_the_gate()
    {
        FallingJarFlow flow = Falling(1e6, 0);
        Assert.Equal(0.240, flow.FirstHeadM, 1e-12);
        Assert.Equal(0.200, flow.LastHeadM, 1e-9);
    }

    /// <summary>Closed forms over 1 m² of floor: with friction alone t = μ R̂/(ρ g) ln(h1/h2), without any t = 2 √(B̂/g) (√h1 − √h2).</summary>
    [Fact]
    public void Friction_alone_and_inertia_alone_empty_it_as_the_closed_forms_say()
    {
        double friction = 5e6 / (1400 * 9.80665) * Math.Log(0.240 / 0.200);
        Assert.Equal(friction, Falling(1e6, 0).TimeS(5), 1e-9 * friction);
        Assert.Equal(5, Falling(1e6, 0).ViscosityPaS(friction), 1e-8);
        double inertia = 2 * Math.Sqrt(4e6 / 9.80665) * (Math.Sqrt(0.240) - Math.Sqrt(0.200));
        Assert.Equal(inertia, Falling(1e6, 4e6).TimeS(0), 1e-9 * inertia);
    }

    /// <summary>At the start the share is ρ B̂ Q²/(ρ g h1); without friction it is all of it.</summary>
    [Fact]
    public void The_share_of_inertia_is_that_at_the_start()
    {
        FallingJarFlow flow = Falling(1e6, 4e6);
        Assert.Equal(1, flow.InertialShare(0), 1e-12);

        // μ R̂ = 5e4, ρ B̂ = 5.6e9, ρ g h1 = 3295 Pa.
        double r = 0.05e6, b = 1400 * 4e6, p = 1400 * 9.80665 * 0.240;
        double q = (Math.Sqrt(r * r + 4 * b * p) - r) / (2 * b);
        Assert.Equal(b * q * q / p, flow.InertialShare(0.05), 1e-9);
    }
}
