using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Stokes 1851, Trans. Camb. Phil. Soc. 9:8, a ball in a wide vessel. A worked problem of a public tutoring page, which was opened: a
/// ball of 205 mg and 1.85 mm radius sinks through glycerol (1260 kg/m³) at 39 mm/s; its answer is 1.2372 Pa·s.
/// </summary>
public class Stokes1851Tests
{
    [Fact]
    public void Ball_in_glycerol()
    {
        const double radius = 0.00185;
        double ball = 0.000205 / (4.0 / 3 * Math.PI * Math.Pow(radius, 3));
        Assert.Equal(7729.47624, ball, 5e-6);
        Assert.Equal(1.237246215, SphereFall.ViscosityStokes1851PaS(2 * radius, ball - 1260, 0.039), 5e-9);
    }

    /// <summary>Weight less buoyancy is 6πμrv, put in by hand.</summary>
    [Fact]
    public void Weight_less_buoyancy_is_the_drag()
    {
        const double r = 0.002, v = 0.01, mu = 0.85, difference = 6400;
        double force = 4.0 / 3 * Math.PI * r * r * r * difference * 9.80665;
        double drag = 6 * Math.PI * mu * r * v;
        Assert.Equal(force / drag * mu, SphereFall.ViscosityStokes1851PaS(2 * r, difference, v), 1e-12);
    }
}
