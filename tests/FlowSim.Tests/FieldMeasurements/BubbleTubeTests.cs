using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class BubbleTubeTests
{
    private static readonly BubbleTube Tube = new() { Sample = Samples.Honey(), Times = Samples.Seconds(30) };

    /// <summary>30 s are 30 St; times the density that is the viscosity, in poise by hand: 30 × 1.41 g/cm³ = 42 P.</summary>
    [Fact]
    public void Seconds_times_density()
    {
        ViscosityMeasurement measured = Tube.Measure();
        Assert.Equal(30, measured.KinematicViscosity.Stokes, 1e-9);
        Assert.Equal(30 * measured.Density.GramsPerCubicCentimeter, measured.Viscosity.Poise, 1e-9);
        Assert.Equal("constant of the tube", measured.Contributions[0].Name);
        Assert.InRange(measured.LogStandardDeviation, 0.10, 0.103);
    }

    [Fact]
    public void A_tube_of_ones_own_is_set_with_a_known_liquid()
    {
        double constant = BubbleTube.StokesPerSecondOf(KinematicViscosity.FromStokes(12), Duration.FromSeconds(30));
        Assert.Equal(0.4, constant, 1e-12);
        ViscosityMeasurement measured = (Tube with { StokesPerSecond = constant, StokesPerSecondSpread = Ratio.FromPercent(3) }).Measure();
        Assert.Equal(12, measured.KinematicViscosity.Stokes, 1e-9);
        Assert.InRange(measured.LogStandardDeviation, 0.03, 0.035);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(2000)]
    public void Times_beyond_the_tube_are_refused(double seconds) =>
        Assert.Equal("Times", Assert.Throws<ArgumentOutOfRangeException>(() => (Tube with { Times = Samples.Seconds(seconds) }).Measure()).ParamName);
}
