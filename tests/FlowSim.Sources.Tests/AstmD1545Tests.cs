using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Bubble tubes: "the bubble seconds are approximately equal to stokes for most liquids".</summary>
[Publication("ASTM D1545", "Viscosity of Transparent Liquids by Bubble Time Method", Standing.Opened, Remark = "scope, dimensions, procedure and a part of table 1")]
public class AstmD1545Tests
{
    /// <summary>Rows of table 1 that were seen; stokes in the one column, bubble seconds in the other.</summary>
    [Theory]
    [InlineData(10, 10)]
    [InlineData(25, 25)]
    [InlineData(80, 80)]
    public void Seconds_are_stokes(double seconds, double stokes) =>
        Published.Agrees(
            stokes,
            KinematicViscosity.FromSquareMetersPerSecond(BubbleTube.KinematicViscosityD1545M2PerS(seconds, 1)).Stokes,
            Within.Rounding(1e-9),
            $"{seconds} bubble seconds",
            "St");

    /// <summary>
    /// Filled letter tubes as a maker lists them, centistokes (public price list, opened), against the stokes of the letters in
    /// table 1: A 0.50, D 1.00, T 5.50 (from memory). They differ by as much as the spread that is taken for the tube.
    /// </summary>
    [Theory]
    [InlineData(53.6, 0.50)]
    [InlineData(102.9, 1.00)]
    [InlineData(547.2, 5.50)]
    public void Letters_are_within_the_spread(double listedCentistokes, double stokes) =>
        Assert.Equal(stokes, listedCentistokes / 100, 0.10 * stokes);

    /// <summary>Note 3: 0.1 °C in the bath changes the time by 1 %. Our honey at 25 °C changes its viscosity by as much.</summary>
    [Fact]
    public void A_tenth_of_a_degree_is_a_percent()
    {
        HoneyProperties honey = HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(17.8) });
        double ratio = honey.ViscosityAt(Temperature.FromDegreesCelsius(24.95)) / honey.ViscosityAt(Temperature.FromDegreesCelsius(25.05));
        Published.Agrees(
            1,
            100 * (ratio - 1),
            Within.Ratio(0.7, 1.5, "a rule of thumb for all liquids, of one digit"),
            "change of the time for 0.1 °C in the bath, honey of 17.8 % at 25 °C",
            "%");
    }

    /// <summary>4.2: below 4 s the standard advises comparison with known tubes.</summary>
    [Fact]
    public void Short_times_are_remarked_on()
    {
        Published.Agrees(4, BubbleTube.TimeRange.Low, Within.Rounding(0), "shortest time without comparison with known tubes", "s");
        var tube = new BubbleTube
        {
            Sample = new HoneySample { Moisture = Ratio.FromPercent(18), Temperature = Temperature.FromDegreesCelsius(45) },
            Times = [Duration.FromSeconds(3.5)],
        };
        Assert.Contains(tube.Measure().Notices, notice => notice.Code == "bubble.time");
        Assert.DoesNotContain((tube with { Times = [Duration.FromSeconds(20)] }).Measure().Notices, notice => notice.Code == "bubble.time");
    }
}
