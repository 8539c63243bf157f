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
        Assert.Equal(1.237246215, SphereFall.WideVesselViscosityPaS(2 * radius, ball - 1260, 0.039), 5e-9);
    }

    /// <summary>
    /// Speeds of single spheres in worked examples. Oil of 874 kg/m³, radius 1 µm, in air of 18.32 µPa·s: 48 s for 5 mm (a student's working on a public forum
    /// on physics, opened; the air's own density left out there). Matter of 1 g/cm³, 10 µm, in air of 17.2 µPa·s: 1158.594 cm/h with a slip factor of
    /// 1.016 (a public notebook after Seinfeld and Pandis 2006, eq. 9.42, opened; g 9.807 there).
    /// </summary>
    [Fact]
    public void Speeds_of_worked_examples()
    {
        double oil = StokesSphere.SpeedTimesViscosityStokes1851(2e-6, 874) / 18.32e-6;
        Assert.Equal(48, 0.005 / oil, 0.5);
        double dust = StokesSphere.SpeedTimesViscosityStokes1851(10e-6, 1000) / 17.2e-6;
        Assert.Equal(1158.594, dust * 1.016 * 100 * 3600 * 9.807 / 9.80665, 0.001);
    }

    /// <summary>Weight less buoyancy of wax (960 kg/m³) and of a bubble of 0.5 mm in honey of 3 Pa·s and 1400 kg/m³, over 3πμd: by hand.</summary>
    [Theory]
    [InlineData(440, 0.020)]
    [InlineData(1400, 0.0636)]
    public void Wax_and_a_bubble_of_half_a_millimetre_in_honey(double difference, double millimetresPerSecond) =>
        Assert.Equal(millimetresPerSecond, 1000 * StokesSphere.SpeedTimesViscosityStokes1851(0.5e-3, difference) / 3, 0.0001);

    /// <summary>Weight less buoyancy is 6πμrv, put in by hand.</summary>
    [Fact]
    public void Weight_less_buoyancy_is_the_drag()
    {
        const double r = 0.002, v = 0.01, mu = 0.85, difference = 6400;
        double force = 4.0 / 3 * Math.PI * r * r * r * difference * 9.80665;
        double drag = 6 * Math.PI * mu * r * v;
        Assert.Equal(force / drag * mu, SphereFall.WideVesselViscosityPaS(2 * r, difference, v), 1e-12);
    }
}
