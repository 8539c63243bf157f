using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>When a run says something, and the numbers in what it says.</summary>
public class SettlingNoticesTests
{
    private static Notice[] Of(SettlingSetup setup, string code) =>
        [.. SettlingRun.Simulate(setup, Brief).Notices.Where(notice => notice.Code == code)];

    private static TemperatureHistory Course(params (double Hours, double Celsius)[] points) =>
        new([.. points.Select(point => (Duration.FromHours(point.Hours), Celsius(point.Celsius)))]);

    /// <summary>Viscosity has data from 12 to 60 °C, density from 10 to 60 °C: each is said once, though start, coldest and hottest are all asked about.</summary>
    [Fact]
    public void Each_range_that_is_left_is_said_once()
    {
        string[] Ranges(TemperatureHistory temperature) =>
            [.. SettlingRun.Simulate(Plain() with { Temperature = temperature }, Brief).Notices.Select(n => n.Code).Where(code => code.EndsWith(".temperature", StringComparison.Ordinal))];

        const string Viscosity = "range.vogel viscosity.temperature", OfDensity = "range.density.temperature";
        Assert.Equal([Viscosity, OfDensity], Ranges(Hold(60.5)));
        Assert.Equal([Viscosity], Ranges(Hold(11.5)));
        Assert.Empty(Ranges(Course((0, 59.9), (30, 12.1))));
        Assert.Equal([Viscosity, OfDensity], Ranges(Course((0, 40), (3, 61), (30, 40))));
        Assert.Equal([Viscosity], Ranges(Course((0, 40), (3, 11), (30, 40))));
    }

    /// <summary>A layer that is not clear: how far was looked, in hours below two days.</summary>
    [Theory]
    [InlineData(24, 30, "not clear within 30 h, as far ahead as was looked")]
    [InlineData(1, 47.9, "not clear within 47.9 h, as far ahead as was looked")]
    [InlineData(1, 48, "not clear within 2 days, as far ahead as was looked")]
    [InlineData(1, 60, "not clear within 2.5 days, as far ahead as was looked")]
    [InlineData(72, 1, "not clear within 3 days, as far ahead as was looked")]
    public void Not_clear_within_the_time_looked_ahead(double standsForH, double longestH, string seen)
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(0.01), Debris = null, StandsFor = Duration.FromHours(standsForH), Longest = Duration.FromHours(longestH) };
        Assert.Equal(seen, Assert.Single(Of(setup, "settling.not-clear")).Seen);
        Assert.Empty(Of(setup with { Bubbles = Few(5) }, "settling.not-clear"));
    }

    /// <summary>From 3 K on, while it stands, a wall that cools stirs; what comes later does not count.</summary>
    [Theory]
    [InlineData(32, "3.0 K")]
    [InlineData(32.02, null)]
    [InlineData(27.5, "7.5 K")]
    [InlineData(38, "3.0 K")]
    public void Honey_that_changes_its_temperature_stirs_itself(double to, string? moves)
    {
        SettlingSetup setup = Plain() with { Temperature = Course((0, 35), (24, to)) };
        Assert.Equal(moves is null ? [] : [$"the honey's temperature moves by {moves} while it stands"], Of(setup, "settling.stirs").Select(notice => notice.Seen));
        Assert.Empty(Of(setup with { Temperature = Course((0, 35), (24, 35), (48, to)) }, "settling.stirs"));
    }

    /// <summary>
    /// Stokes's law is left from a Reynolds number of 0.1: ρ v d/μ with v = g Δρ d²/(18 μ), for the size that 1 % of the mass is above, D50 e^(2.326 s), in the
    /// hottest honey. The median is solved for the number.
    /// </summary>
    [Theory]
    [InlineData(0.0999, 0.05, null)]
    [InlineData(0.1001, 0.05, "Reynolds number = 0.1001 is outside 0 to 0.1, the range of stokes-1851")]
    [InlineData(0.1001, 0.3, "Reynolds number = 0.1001 is outside 0 to 0.1, the range of stokes-1851")]
    [InlineData(0.5, 0.3, "Reynolds number = 0.5 is outside 0 to 0.1, the range of stokes-1851")]
    public void Sizes_so_large_that_inertia_counts(double reynolds, double spread, string? seen)
    {
        Honey honey = Measured(2);
        HoneyProperties at = HoneyProperties.Of(honey);
        double density = at.DensityAt(Celsius(40)).KilogramsPerCubicMeter, viscosity = at.ViscosityAt(Celsius(40)).PascalSeconds;
        double SizeM(double matter) => Math.Cbrt(reynolds * 18 * viscosity * viscosity / (Gravity * (density - matter) * density));
        Length Median(double matter) => Length.FromMeters(SizeM(matter) / Math.Exp(2.326 * spread));
        SettlingSetup air = Plain() with
        {
            Honey = honey,
            Temperature = Course((0, 30), (5, 40), (20, 35)),
            Bubbles = new Bubbles { MedianSize = Median(1.2), SizeSpread = spread },
            Debris = null,
        };
        SettlingSetup wax = air with { Bubbles = null, Debris = new Debris { MedianSize = Median(960), SizeSpread = spread } };
        foreach ((SettlingSetup setup, double matter) in new[] { (air, 1.2), (wax, 960.0), (air with { Debris = wax.Debris }, 1.2) })
        {
            Notice[] notices = Of(setup, "range.stokes-1851.Reynolds number");
            Assert.Equal(seen is null ? [] : [seen], notices.Select(notice => notice.Seen));
            string largest = FormattableString.Invariant($"the largest, {1000 * SizeM(matter):0.0} mm, move more slowly than computed; they are gone first all the same");
            Assert.All(notices, notice => Assert.Equal(largest, notice.MayMean));
        }
    }

    /// <summary>Large bubbles, all gone and heaped to one half: twice their share of the depth. From a tenth of it on it is said.</summary>
    [Theory]
    [InlineData(4.99, null)]
    [InlineData(5, "the scum on top is 30 mm thick, 10 % of the depth")]
    [InlineData(5.01, "the scum on top is 30 mm thick, 10 % of the depth")]
    [InlineData(9, "the scum on top is 54 mm thick, 18 % of the depth")]
    public void Thick_scum_takes_room(double percent, string? seen)
    {
        SettlingSetup setup = Plain() with
        {
            Depth = Length.FromMillimeters(300),
            Bubbles = new Bubbles { Load = Ratio.FromPercent(percent), MedianSize = Length.FromMillimeters(3), SizeSpread = 0.2 },
            Debris = null,
        };
        Assert.Equal(seen is null ? [] : [seen], Of(setup, "settling.thick").Select(notice => notice.Seen));
    }

    /// <summary>Matter 5 kg/m³ lighter or heavier than the honey still moves; any nearer and it is taken to stay.</summary>
    [Theory]
    [InlineData(-5, SettlingDirection.Rises)]
    [InlineData(-4.999, SettlingDirection.Stays)]
    [InlineData(0, SettlingDirection.Stays)]
    [InlineData(4.999, SettlingDirection.Stays)]
    [InlineData(5, SettlingDirection.Sinks)]
    public void As_dense_as_the_honey_is_within_5(double heavierBy, SettlingDirection direction)
    {
        SettlingSetup setup = Plain();
        double honey = HoneyProperties.Of(setup.Honey).DensityAt(Celsius(35)).KilogramsPerCubicMeter;
        SettlingResult result = SettlingRun.Simulate(setup with { Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(honey + heavierBy) } }, Brief);
        Assert.Equal(direction, result.Debris!.Direction);
        Assert.Equal(direction == SettlingDirection.Stays, result.Notices.Any(notice => notice.Code == "settling.buoyant"));
        Assert.Equal(direction == SettlingDirection.Stays, result.Debris.MedianSpeed.MetersPerSecond == 0);
    }

    /// <summary>
    /// Honey of 17.8 % by the documented parabolas: 998.2 · (1.42347 − 0.0063017 · 0.8 − 0.00020097 · 0.64) = 1415.75 kg/m³ at 20 °C; at 50 °C
    /// 30 · 0.538 + 900 · 0.00094 = 16.99 less, 1398.76. Matter of 1407 kg/m³ sinks in the hot honey and rises in the cold.
    /// </summary>
    [Fact]
    public void Matter_whose_density_the_honey_passes_stays()
    {
        SettlingSetup setup = Plain() with { Temperature = Course((0, 50), (24, 20)), Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(1407.3) } };
        Notice notice = Assert.Single(Of(setup, "settling.buoyant"));
        Assert.Equal("the debris, 1407 kg/m³, is within 5 kg/m³ of the honey or passes its density as the temperature changes, 1399 to 1416 kg/m³", notice.Seen);
        Assert.Empty(Of(setup with { Debris = null }, "settling.buoyant"));
        Assert.Empty(Of(setup with { Debris = new Debris() }, "settling.buoyant"));
    }

    /// <summary>The reminders: a layer of more than 23 kg is not for one person, and from 48 and from 54 °C honey scalds.</summary>
    [Fact]
    public void Cautions_go_with_weight_and_heat()
    {
        string[] always = ["cover", "slip", "infants", "local-rules"];
        Caution[] Of(SettlingSetup setup) => [.. SettlingRun.Simulate(setup, Brief).Cautions];
        string[] Codes(SettlingSetup setup) => [.. Of(setup).Select(caution => caution.Code)];
        SettlingSetup mild = Plain();
        Assert.Equal(always, Codes(mild));
        Assert.Equal(always, Codes(mild with { HoneyMass = Mass.FromKilograms(23), Temperature = Hold(47.9) }));

        SettlingSetup heavy = mild with { HoneyMass = Mass.FromKilograms(26.4), Temperature = Hold(48) };
        Assert.Equal(["scald", "lift", .. always], Codes(heavy));
        Assert.StartsWith("The layer weighs 26.4 kg: more than the 23 kg", Of(heavy)[1].Text, StringComparison.Ordinal);
        Assert.Equal("Honey at 48 °C can burn in minutes, and it clings. Skim with a long tool.", Of(heavy)[0].Text);
        Assert.Equal(
            "Honey at 54 °C burns within seconds and clings. Skim with a long tool; gloves, sleeves, no bare hands near it.",
            Of(mild with { Temperature = Course((0, 35), (3, 54), (24, 30)) })[0].Text);
        Assert.Equal(always, Codes(mild with { StandsFor = Duration.FromHours(24), Temperature = Course((0, 35), (24, 40), (30, 54)) }));
    }
}
