using FlowSim.Tests.Calibration;
using UnitsNet;

namespace FlowSim.Tests;

/// <summary>What every process takes from the root: histories, cautions, Stokes' sphere.</summary>
public class RootRulesTests
{
    private static (Duration, Temperature) Point(double days, double celsius) => (Duration.FromDays(days), Temperature.FromDegreesCelsius(celsius));

    private static ArgumentException Refused(params (Duration, Temperature)[] points)
    {
        ArgumentException refused = Assert.ThrowsAny<ArgumentException>(() => new TemperatureHistory(points));
        Assert.Equal("points", refused.ParamName);
        return refused;
    }

    [Fact]
    public void A_history_has_two_points_and_more_each_later()
    {
        var history = new TemperatureHistory([Point(-1, 20), Point(0, 40), Point(2, 30)]);
        Assert.Equal([-86400, 0, 172800], history.TimesS.ToArray());
        Assert.Equal([293.15, 313.15, 303.15], history.TemperaturesK.ToArray().Select(kelvins => Math.Round(kelvins, 9)));
        Assert.IsType<ArgumentNullException>(Assert.ThrowsAny<ArgumentException>(() => new TemperatureHistory(null!)));
        Refused();
        Refused(Point(0, 20));
        Assert.Contains("Point 3", Refused(Point(0, 20), Point(1, 20), Point(1, 30)).Message, StringComparison.Ordinal);
        Assert.Contains("Point 2 at 0 s must be later than the one before, at 86400 s", Refused(Point(1, 20), Point(0, 20)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_history_keeps_to_a_century_and_to_what_honey_bears()
    {
        _ = new TemperatureHistory([Point(-36525, -40), Point(36525, 150)]);
        Refused(Point(-36526, 20), Point(0, 20));
        Refused(Point(0, 20), Point(36526, 20));
        Refused(Point(0, -40.1), Point(1, 20));
        Refused(Point(0, 20), Point(1, 150.1));
    }

    [Fact]
    public void Held_honey_has_one_temperature_from_the_start()
    {
        var held = TemperatureHistory.Hold(Temperature.FromDegreesCelsius(40), Duration.FromHours(3));
        Assert.Equal([0, 10800], held.TimesS.ToArray());
        Assert.Equal(held.TemperaturesK[0], held.TemperaturesK[1]);
        Assert.ThrowsAny<ArgumentException>(() => TemperatureHistory.Hold(Temperature.FromDegreesCelsius(40), Duration.Zero));
    }

    [Theory]
    [InlineData(47.9, null)]
    [InlineData(48, "Wear gloves.")]
    [InlineData(53.9, "Wear gloves.")]
    [InlineData(54, "Keep away.")]
    [InlineData(70, "Keep away.")]
    public void Hot_honey_is_warned_of_and_hotter_strongly(double celsius, string? advice)
    {
        Caution? caution = Cautions.Scald(celsius + 273.15, "Wear gloves.", "Keep away.");
        Assert.Equal(advice is not null, caution is not null);
        if (caution is not null)
        {
            Assert.Equal("scald", caution.Code);
            Assert.EndsWith(advice!, caution.Text, StringComparison.Ordinal);
            Assert.Contains(FormattableString.Invariant($"{celsius:0} °C"), caution.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void More_than_23_kilograms_are_not_for_one_person()
    {
        Assert.Null(Cautions.Lift(23, "The pail holds"));
        Caution caution = Cautions.Lift(23.04, "The pail holds", ", and weighs itself")!;
        Assert.Equal("lift", caution.Code);
        Assert.StartsWith("The pail holds 23.0 kg, and weighs itself: more than the 23 kg", caution.Text, StringComparison.Ordinal);
    }

    /// <summary>1 mm and 400 kg/m³: 9.80665 · 1e-6 · 400/18 N/m.</summary>
    [Fact]
    public void A_sphere_sinks_as_Stokes_says()
    {
        Assert.Equal(9.80665e-6 * 400 / 18, StokesSphere.SpeedTimesViscosityStokes1851(1e-3, 400), 1e-16);
        Assert.Equal(-9.80665e-6 * 100 / 18 * 4, StokesSphere.SpeedTimesViscosityStokes1851(2e-3, -100), 1e-16);
    }

    [Fact]
    public void A_correlation_is_of_no_honey_at_hand_unless_it_says_so()
    {
        Assert.False(new OwnHoney((_, _) => 6).IsMeasured);
        Assert.Null(new OwnHoney((_, _) => 6).FormAt(18));
    }

    [Theory]
    [InlineData(0.2, "nearest: 0.5 m")]
    [InlineData(9, "nearest: 3 m")]
    [InlineData(double.NaN, "nearest: 1 m")]
    public void A_value_beyond_a_range_is_told_the_nearest_within(double value, string said) =>
        Assert.Contains(said, Assert.Throws<ArgumentOutOfRangeException>(() => new ValidityRange("x law", "x", "m", 1, 2, 0.5, 3).Require(value, "x")).Message, StringComparison.Ordinal);
}
