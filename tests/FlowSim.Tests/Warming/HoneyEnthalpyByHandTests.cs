using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>Enthalpy worked out by hand at the corners of the melting range.</summary>
public class HoneyEnthalpyByHandTests
{
    // e = 2000 t + 2 t²: 40 800 at 20 °C, 61 800 at 30 °C, 83 200 at 40 °C, 105 000 at 50 °C. Melts from 30 to 40 °C with 10 000 J/kg.
    private static readonly HoneyEnthalpy s_melting = new(2000, 4, 10_000, 30, 40);

    private static readonly HoneyEnthalpy s_liquid = new(2000, 4);

    [Theory]
    [InlineData(20, 40_800, 0)]
    [InlineData(30, 61_800, 0)]
    [InlineData(35, 77_450, 0.5)]
    [InlineData(40, 93_200, 1)]
    [InlineData(50, 115_000, 1)]
    public void The_curve_climbs_by_what_melts(double celsius, double enthalpy, double melted)
    {
        Assert.Equal(enthalpy, s_melting.OnCurve(celsius + 273.15), 1e-6);
        Assert.Equal(melted, s_melting.MeltedAt(enthalpy), 1e-9);
        Assert.Equal(enthalpy, s_melting.At(celsius + 273.15, melted), 1e-6);
        (double kelvins, _, double now) = s_melting.Of(enthalpy, double.NegativeInfinity);
        Assert.Equal(celsius + 273.15, kelvins, 1e-9);
        Assert.Equal(melted, now, 1e-9);
        Assert.Equal(2000 + (4 * celsius), s_melting.SensibleCapacity(celsius + 273.15), 1e-9);
        Assert.Equal(celsius + 273.15, s_liquid.LiquidK((2000 * celsius) + (2 * celsius * celsius)), 1e-9);
    }

    [Theory]
    [InlineData(29.9, 2119.6)]
    [InlineData(30.1, 3120.4)]
    [InlineData(35, 3140)]
    [InlineData(39.9, 3159.6)]
    [InlineData(40.1, 2160.4)]
    public void Melting_takes_a_thousand_joules_more_a_kelvin_within_its_range(double celsius, double capacity)
    {
        double h = s_melting.OnCurve(celsius + 273.15);
        Assert.Equal(capacity, s_melting.Of(h, double.NegativeInfinity).HeatCapacity, 1e-6);

        // As it comes to its highest the curve goes on; below it nothing melts.
        Assert.Equal(capacity, s_melting.Of(h, h).HeatCapacity, 1e-6);
        double below = s_melting.Of(h - 1, h).HeatCapacity;
        Assert.Equal(2000 + (4 * celsius), below, 0.01);
    }

    [Fact]
    public void Where_the_range_ends_the_capacity_is_the_sensible_one()
    {
        Assert.Equal(2120, s_melting.Of(61_800, 0).HeatCapacity, 1e-6);
        Assert.Equal(2160, s_melting.Of(93_200, 0).HeatCapacity, 1e-6);
        Assert.Equal((0, 1), (s_melting.MeltedAt(61_799), s_melting.MeltedAt(93_201)));
        Assert.Equal((0, 1), (s_melting.Of(50_000, 0).Melted, s_melting.Of(99_000, 0).Melted));
    }

    /// <summary>Half melted at 35 °C, then back at 20 °C: 40 800 J/kg and half of the latent heat.</summary>
    [Fact]
    public void What_has_melted_stays_in_the_enthalpy_of_colder_honey()
    {
        (double kelvins, double capacity, double melted) = s_melting.Of(45_800, 77_450);
        Assert.Equal(293.15, kelvins, 1e-9);
        Assert.Equal(2080, capacity, 1e-9);
        Assert.Equal(0.5, melted, 1e-9);
        Assert.True(s_melting.Melts);
        Assert.False(s_liquid.Melts);

        // The vertex of the parabola is at −2000/4 °C, with −500 000 J/kg.
        Assert.Equal(-500 + 273.15, s_liquid.LiquidK(-500_000), 1e-6);
    }
}
