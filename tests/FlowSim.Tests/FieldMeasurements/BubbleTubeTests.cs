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

    /// <summary>The time of the known liquid is held to the range of the tube and the constant to 0.001 to 1000 St/s, each by its own name.</summary>
    [Theory]
    [InlineData(12, 0.99, "time")]
    [InlineData(12, 1, null)]
    [InlineData(12, 1100, null)]
    [InlineData(12, 1101, "time")]
    [InlineData(10000, 10, null)]
    [InlineData(10001, 10, "known")]
    [InlineData(0.01, 10, null)]
    [InlineData(0.0099, 10, "known")]
    public void A_constant_out_of_its_range_is_refused(double stokes, double seconds, string? blamed)
    {
        double Constant() => BubbleTube.StokesPerSecondOf(KinematicViscosity.FromStokes(stokes), Duration.FromSeconds(seconds));
        if (blamed is null)
            Assert.Equal(stokes / seconds, Constant(), 1e-12 * stokes);
        else
            Assert.Equal(blamed, Assert.Throws<ArgumentOutOfRangeException>(() => Constant()).ParamName);
    }

    /// <summary>Supported from 4 to 150 s: before that cooler honey helps, after it warmer.</summary>
    [Theory]
    [InlineData(3.9, "measure cooler honey, or compare with tubes of known viscosity side by side: below 4 s the standard advises that")]
    [InlineData(4, null)]
    [InlineData(150, null)]
    [InlineData(151, "measure warmer honey, or time a falling ball")]
    public void Times_beyond_the_letters_are_remarked_on(double seconds, string? helps)
    {
        Notice[] notices = [.. (Tube with { Times = Samples.Seconds(seconds) }).Measure().Notices];
        if (helps is null)
            Assert.Empty(notices);
        else
            Assert.Equal(("bubble.time", helps), (Assert.Single(notices).Code, notices[0].Helps));
    }
}
