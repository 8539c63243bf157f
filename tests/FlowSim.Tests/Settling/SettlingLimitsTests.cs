using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>Options, searches and bands at their limits, and setups whose parts do not go together.</summary>
public class SettlingLimitsTests
{
    public static TheoryData<string, SettlingOptions> Refused => new()
    {
        { "RelativeTolerance", Brief with { RelativeTolerance = 0.99e-12 } },
        { "RelativeTolerance", Brief with { RelativeTolerance = 1.01e-3 } },
        { "SeriesPoints", Brief with { SeriesPoints = -1 } },
        { "SeriesPoints", Brief with { SeriesPoints = 100_001 } },
        { "ProfilePoints", Brief with { ProfilePoints = 1 } },
        { "ProfilePoints", Brief with { ProfilePoints = 100_001 } },
        { "ProfileTimes", Brief with { ProfileTimes = new Duration[1001] } },
        { "ProfileTimes", Brief with { ProfileTimes = [Duration.Zero, Duration.FromSeconds(-0.1)] } },
        { "ProfileTimes", Brief with { ProfileTimes = [Duration.FromDays(60.001)] } },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void An_option_just_out_of_range_is_named(string name, SettlingOptions options)
    {
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => SettlingRun.Simulate(Plain(), options)).ParamName);
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => options.Require(60 * 86400)).ParamName);
    }

    [Fact]
    public void Options_at_their_limits_are_accepted()
    {
        foreach (SettlingOptions options in new[]
                 {
                     Brief with { RelativeTolerance = 1e-12 }, Brief with { RelativeTolerance = 1e-3 }, Brief with { SeriesPoints = 100_000, ProfilePoints = 100_000 }, Brief with { ProfilePoints = 2 },
                     Brief with { ProfileTimes = new Duration[1000] }, Brief with { ProfileTimes = [Duration.FromDays(60)] }, Brief with { ProfileTimes = null },
                 })
        {
            options.Require(60 * 86400);
        }

        // What is asked for at the end of what is computed: of a run that stands longer than it looks ahead, when it has stood.
        Duration end = Duration.FromDays(70);
        SettlingResult result = SettlingRun.Simulate(Plain() with { StandsFor = end }, Brief with { ProfileTimes = [end], ProfilePoints = 2 });
        Assert.Equal(end.Seconds, Assert.Single(result.Profiles).At.Seconds);
    }

    /// <summary>A setup asks to be clear of something that it has.</summary>
    [Theory]
    [InlineData(false, false, ClearOf.Everything, "neither bubbles nor debris")]
    [InlineData(false, false, ClearOf.Bubbles, "neither bubbles nor debris")]
    [InlineData(false, true, ClearOf.Bubbles, "clear of bubbles, but has none")]
    [InlineData(true, false, ClearOf.Debris, "clear of debris, but has none")]
    [InlineData(false, true, ClearOf.Everything, null)]
    [InlineData(false, true, ClearOf.Debris, null)]
    [InlineData(true, false, ClearOf.Everything, null)]
    [InlineData(true, false, ClearOf.Bubbles, null)]
    [InlineData(true, true, ClearOf.Debris, null)]
    public void What_has_to_be_clear_must_be_there(bool bubbles, bool debris, ClearOf of, string? refusal)
    {
        SettlingSetup setup = Plain() with { Bubbles = bubbles ? new Bubbles() : null, Debris = debris ? new Debris() : null, ClearOf = of };
        if (refusal is null)
        {
            SettlingResult result = SettlingRun.Simulate(setup, Brief);
            Assert.Equal(bubbles, result.Bubbles is not null);
            Assert.Equal(debris, result.Debris is not null);
            Assert.Equal(debris, result.DebrisLeft is not null);
            return;
        }

        ArgumentException refused = Assert.Throws<ArgumentException>(() => SettlingRun.Simulate(setup, Brief));
        Assert.Equal("ClearOf", refused.ParamName);
        Assert.Contains(refusal, refused.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string, SettlingSetup> RefusedSetups => new()
    {
        { "Honey", Plain() with { Honey = null! } },
        { "Temperature", Plain() with { Temperature = null! } },
        { "Temperature", Plain() with { Temperature = Hold(70.01) } },
        { "Temperature", Plain() with { Temperature = Hold(9.99) } },
        { "Temperature", Plain() with { Temperature = new TemperatureHistory([(Duration.Zero, Celsius(35)), (Duration.FromHours(1), Celsius(70.01))]) } },
        { "Temperature", Plain() with { Honey = new Honey { Moisture = Ratio.FromPercent(17.8), Viscosity = new MeasuredViscosity((Celsius(70), DynamicViscosity.FromPascalSeconds(1))) }, Temperature = Hold(80.01) } },
        { "ClearTo", Plain() with { ClearTo = null! } },
        { "ClearTo", Plain() with { ClearTo = Clarity.OfShare(Ratio.FromPercent(0.99e-4)) } },
        { "ClearTo", Plain() with { ClearTo = Clarity.OfShare(Ratio.FromPercent(99.001)) } },
        { "ClearTo", Plain() with { ClearTo = Clarity.OfSize(Length.FromMillimeters(0.99e-3)) } },
        { "ClearTo", Plain() with { ClearTo = Clarity.OfSize(Length.FromMillimeters(20.001)) } },
        { "ClearOf", Plain() with { ClearOf = (ClearOf)3 } },
        { "Load", Plain() with { Debris = new Debris { Load = Ratio.FromPercent(2.001) } } },
        { "Density", Plain() with { Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(499) } } },
    };

    [Theory]
    [MemberData(nameof(RefusedSetups))]
    public void A_setup_just_out_of_range_is_named(string name, SettlingSetup setup) =>
        Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(() => SettlingSetupCheck.Require(setup)).ParamName);

    [Fact]
    public void Setups_at_their_limits_are_accepted()
    {
        foreach (SettlingSetup setup in new[]
                 {
                     Plain() with { Temperature = Hold(70) }, Plain() with { Temperature = Hold(10) }, Plain() with { ClearTo = Clarity.OfShare(Ratio.FromPercent(1e-4)) },
                     Plain() with { ClearTo = Clarity.OfShare(Ratio.FromPercent(99)) }, Plain() with { ClearTo = Clarity.OfSize(Length.FromMillimeters(0.001)) },
                     Plain() with { ClearTo = Clarity.OfSize(Length.FromMillimeters(20)) }, Plain() with { Debris = new Debris { Load = Ratio.FromPercent(2) } },
                 })
        {
            Assert.Same(setup.Honey, SettlingSetupCheck.Require(setup).Honey);
        }
    }

    /// <summary>Next to no bubbles: clear of a size within a time as soon as its speed is depth over time; the temperature is rounded up to 0.01 K.</summary>
    [Theory]
    [InlineData(6, 0.5)]
    [InlineData(24, 0.3)]
    [InlineData(100, 0.13)]
    public void The_coolest_temperature_by_the_closed_form(double hours, double millimetres)
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(0.4), Debris = null, ClearTo = Clarity.OfSize(Length.FromMillimeters(millimetres)) };
        double coolest = SettlingSearch.CoolestFor(setup, Duration.FromHours(hours))!.Value.DegreesCelsius, needed = 0.298 / (3600 * hours);
        Assert.True(FreeSpeed(setup.Honey, coolest, millimetres, 1.2) >= needed * (1 - 1e-8));
        Assert.True(FreeSpeed(setup.Honey, coolest - 0.0101, millimetres, 1.2) < needed);

        // No answer when the highest allowed is cooler than that; the same answer when it is not.
        Assert.Null(SettlingSearch.CoolestFor(setup, Duration.FromHours(hours), Celsius(coolest - 0.1)));
        Assert.Equal(coolest, SettlingSearch.CoolestFor(setup, Duration.FromHours(hours), Celsius(coolest + 0.1))!.Value.DegreesCelsius, 0.0101);
    }

    /// <summary>A search takes 1 min to 3650 days, and a highest temperature from the cool end of the viscosity's data to the outer warm end.</summary>
    [Fact]
    public void A_search_at_its_limits()
    {
        SettlingSetup setup = Plain() with { Bubbles = Few(20), Debris = null, ClearTo = Clarity.OfSize(Length.FromMillimeters(20)), Depth = Length.FromMillimeters(1) };
        Duration day = Duration.FromDays(1);
        Assert.Equal(12, SettlingSearch.CoolestFor(setup, Duration.FromMinutes(1))!.Value.DegreesCelsius, 1e-9);
        Assert.Equal(12, SettlingSearch.CoolestFor(setup, Duration.FromDays(3650))!.Value.DegreesCelsius, 1e-9);
        Assert.Equal(12, SettlingSearch.CoolestFor(setup, day, Celsius(12))!.Value.DegreesCelsius, 1e-9);
        Assert.Equal(12, SettlingSearch.CoolestFor(setup, day, Celsius(70))!.Value.DegreesCelsius, 1e-9);
        Assert.Equal("within", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(setup, Duration.FromMinutes(0.99))).ParamName);
        Assert.Equal("within", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(setup, Duration.FromDays(3650.01))).ParamName);
        Assert.Equal("highest", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(setup, day, Celsius(11.99))).ParamName);
        Assert.Equal("highest", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(setup, day, Celsius(70.01))).ParamName);

        // Without a highest, 60 °C, where the data end: what needs 65 °C has no answer, but has one when 70 °C are allowed.
        SettlingSetup slow = Plain() with { Bubbles = Few(0.4), Debris = null, ClearTo = Clarity.OfSize(Length.FromMillimeters(0.3)) };
        Duration at65 = Duration.FromSeconds(0.298 / FreeSpeed(slow.Honey, 65, 0.3, 1.2));
        Assert.Null(SettlingSearch.CoolestFor(slow, at65));
        Assert.Equal(65, SettlingSearch.CoolestFor(slow, at65, Celsius(70))!.Value.DegreesCelsius, 0.0101);
    }

    /// <summary>Whoever measured the viscosity has no lot to guess: sizes alone are varied, and times go with their square.</summary>
    [Fact]
    public void The_band_of_measured_honey_is_of_sizes_alone()
    {
        SettlingSetup setup = Plain() with { Honey = Measured(), Bubbles = Few(0.5), Debris = null };
        SettlingBand band = SettlingBand.Of(setup);
        Assert.Equal(2.25, band.Likely!.Value / band.Quick!.Value, 1e-6);
        Assert.Equal(2.25, band.Slow!.Value / band.Likely.Value, 1e-6);
        BandInput input = Assert.Single(band.Inputs);
        Assert.Equal(("median size of bubbles and debris", 1.5), (input.Name, input.Factor));

        // Clear of a size: then the sizes do not count either, and nothing is left to vary.
        SettlingBand bySize = SettlingBand.Of(setup with { ClearTo = Clarity.OfSize(Length.FromMillimeters(0.3)) });
        Assert.Empty(bySize.Inputs);
        Assert.Equal(bySize.Likely!.Value.Seconds, bySize.Slow!.Value.Seconds, 1e-6 * bySize.Likely.Value.Seconds);
        BandInput lot = SettlingBand.Of(Plain()).Inputs[0];
        Assert.Equal(("viscosity of the lot", Math.Exp(0.3)), (lot.Name, lot.Factor));
    }

    /// <summary>Wax as well is larger in the quick case and smaller in the slow one: on the square of 1.5, at a concentration that slows nothing.</summary>
    [Fact]
    public void The_band_varies_debris_like_bubbles()
    {
        SettlingSetup setup = Plain() with { Bubbles = null, Debris = new Debris { Load = Ratio.FromDecimalFractions(1e-12) } };
        SettlingBand band = SettlingBand.Of(setup);
        Assert.Equal(Math.Exp(0.3) * 2.25, band.Likely!.Value / band.Quick!.Value, 1e-6);
        Assert.Equal(Math.Exp(0.3) * 2.25, band.Slow!.Value / band.Likely.Value, 1e-6);

        // At the ends of what sizes may be, 20 mm and 1 µm, and of a lot, 20, a case stays within.
        SettlingBand largest = SettlingBand.Of(setup with { Debris = setup.Debris! with { MedianSize = Length.FromMillimeters(20) }, Depth = Length.FromMeters(20) });
        Assert.Equal(Math.Exp(0.3), largest.Likely!.Value / largest.Quick!.Value, 1e-6);
        SettlingBand thickest = SettlingBand.Of(setup with { Honey = setup.Honey with { LotFactor = 20 }, Longest = Duration.FromDays(3650) });
        Assert.Equal(2.25, thickest.Slow!.Value / thickest.Likely!.Value, 1e-6);
    }

    [Fact]
    public void A_band_keeps_to_the_options_and_to_a_stop()
    {
        Assert.Equal("RelativeTolerance", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingBand.Of(Plain(), new SettlingOptions { RelativeTolerance = 1 })).ParamName);
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => SettlingBand.Of(Plain(), cancellation: cancelled.Token));
        Assert.Throws<OperationCanceledException>(() => SettlingSearch.CoolestFor(Plain(), Duration.FromDays(1), cancellation: cancelled.Token));
    }
}
