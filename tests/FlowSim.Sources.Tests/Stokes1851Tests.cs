using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>A ball in a wide vessel.</summary>
[Publication("Stokes 1851", "Trans. Camb. Phil. Soc. 9:8, in a worked problem of a public tutoring page", Standing.SecondaryCopy, Remark = "the page was opened")]
public class Stokes1851Tests
{
    /// <summary>A ball of 205 mg and 1.85 mm radius sinks through glycerol (1260 kg/m³) at 39 mm/s.</summary>
    [Fact]
    public void Ball_in_glycerol()
    {
        const double radius = 0.00185;
        double ball = 0.000205 / (4.0 / 3 * Math.PI * Math.Pow(radius, 3));
        Assert.Equal(7729.47624, ball, 5e-6);
        Published.Agrees(1.237246215, SphereFall.WideVesselViscosityPaS(2 * radius, ball - 1260, 0.039), Within.HalfDigit(5e-9), "viscosity of glycerol", "Pa·s");
    }

    /// <summary>
    /// Oil of 874 kg/m³, radius 1 µm, in air of 18.32 µPa·s, the air's own density left out. Matter of 1 g/cm³, 10 µm, in air of 17.2 µPa·s, with a
    /// slip factor of 1.016 and g 9.807.
    /// </summary>
    [Fact]
    [Publication("worked examples of single spheres", "a student's working on a public forum on physics; a public notebook after Seinfeld and Pandis 2006, eq. 9.42", Standing.Opened)]
    public void Speeds_of_worked_examples()
    {
        double oil = StokesSphere.SpeedTimesViscosityStokes1851(2e-6, 874) / 18.32e-6;
        Published.Agrees(48, 0.005 / oil, Within.HalfDigit(0.5), "time of an oil drop of 2 µm for 5 mm of air", "s");
        double dust = StokesSphere.SpeedTimesViscosityStokes1851(10e-6, 1000) / 17.2e-6;
        Published.Agrees(1158.594, dust * 1.016 * 100 * 3600 * 9.807 / 9.80665, Within.Absolute(0.001, "a unit of the last digit"), "speed of dust of 10 µm in air", "cm/h");
    }

    /// <summary>Weight less buoyancy of wax (960 kg/m³) and of a bubble of 0.5 mm in honey of 3 Pa·s and 1400 kg/m³, over 3πμd.</summary>
    [Theory]
    [Publication("a working by hand", "the same formula", Standing.Derived)]
    [InlineData(440, 0.020)]
    [InlineData(1400, 0.0636)]
    public void Wax_and_a_bubble_of_half_a_millimetre_in_honey(double difference, double millimetresPerSecond) =>
        Published.Agrees(
            millimetresPerSecond,
            1000 * StokesSphere.SpeedTimesViscosityStokes1851(0.5e-3, difference) / 3,
            Within.Absolute(0.0001, "a unit of the last digit"),
            $"speed of 0.5 mm in honey of 3 Pa·s, {difference} kg/m³ lighter",
            "mm/s");

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
