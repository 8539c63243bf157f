using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class CupReadingTests
{
    private static readonly CupReading Reading = new()
    {
        Sample = Samples.Honey(18.5, 48),
        Cup = FlowCups.ByName("ford-5"),
        Times = Samples.Seconds(60),
    };

    /// <summary>12.1 (60 − 2) = 701.8 mm²/s, times the density.</summary>
    [Fact]
    public void Formula_times_density()
    {
        ViscosityMeasurement measured = Reading.Measure();
        Assert.Equal(701.8, measured.KinematicViscosity.Centistokes, 1e-9);
        Assert.Equal(701.8e-6 * measured.Density.KilogramsPerCubicMeter, measured.Viscosity.PascalSeconds, 1e-12);
        Assert.Equal("formula of the cup", measured.Contributions[0].Name);
        Assert.Contains(measured.Notices, notice => notice.Code == "cup.cooling");
        Assert.Contains(measured.Cautions, caution => caution.Code == "scald");
    }

    /// <summary>A refusal says how long the cup is good for, what that is, what the honey has, and when it would come within reach.</summary>
    [Fact]
    public void Too_thick_honey_is_refused_with_all_that_helps()
    {
        CupReading cool = Reading with { Sample = Samples.Honey(17.5, 30), Cup = FlowCups.ByName("iso-6"), Times = Samples.Seconds(300) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => cool.Measure());
        Assert.Contains("iso-6 is good for, 100 s, which is 684 mm2/s", refused.Reason, StringComparison.Ordinal);
        CupReach reach = CupReach.Of(cool.Cup, new Honey { Moisture = Ratio.FromPercent(17.5) }, Temperature.FromDegreesCelsius(30), cool.Ceiling);
        Assert.Contains(FormattableString.Invariant($"{reach.Honey.Centistokes:0} mm2/s at 30 °C"), refused.Reason, StringComparison.Ordinal);
        Assert.False(reach.IsGood);
        Assert.Contains(FormattableString.Invariant($"{reach.ThinEnoughFrom!.Value.DegreesCelsius:0.#} °C, within the ceiling of 50 °C"), refused.Instead, StringComparison.Ordinal);
        Assert.True(reach.IsWithinCeiling);
        Assert.Contains("above the ceiling of 40 °C: time a falling ball", Assert.Throws<MeasurementRefusedException>(() => (cool with { Ceiling = Temperature.FromDegreesCelsius(40) }).Measure()).Instead, StringComparison.Ordinal);
    }

    /// <summary>At the temperature that is named the honey has just the viscosity the cup ends at.</summary>
    [Theory]
    [InlineData("iso-6")]
    [InlineData("ford-5")]
    [InlineData("zahn-5")]
    public void The_temperature_named_is_the_one(string name)
    {
        var honey = new Honey { Moisture = Ratio.FromPercent(17.5), LotFactor = 1.2 };
        CupReach reach = CupReach.Of(FlowCups.ByName(name), honey, Temperature.FromDegreesCelsius(30), Temperature.FromDegreesCelsius(50));
        HoneyProperties properties = HoneyProperties.Of(honey);
        Temperature from = reach.ThinEnoughFrom!.Value;
        KinematicViscosity there = properties.ViscosityAt(from) / properties.DensityAt(from);
        Assert.Equal(reach.Cup.Thickest.Centistokes, there.Centistokes, 1e-3);
    }

    /// <summary>A wide cup of one's own: what is thin enough only a little above the coldest the correlation goes is not called thin enough there.</summary>
    [Fact]
    public void A_wide_cup_of_ones_own()
    {
        var honey = new Honey { Moisture = Ratio.FromPercent(17.5) };
        HoneyProperties properties = HoneyProperties.Of(honey);
        Temperature mild = Temperature.FromDegreesCelsius(15);
        double thickest = (properties.ViscosityAt(mild) / properties.DensityAt(mild)).Centistokes;
        FlowCup wide = FlowCups.ByName("ford-5") with { Name = "own", OffsetS = 0, SlopeMm2PerS2 = thickest / 100 };
        Assert.Equal(15, CupReach.Of(wide, honey, mild, mild).ThinEnoughFrom!.Value.DegreesCelsius, 1e-4);
        Assert.Equal(properties.Viscosity.TemperatureRange.OuterLow, CupReach.Of(wide with { SlopeMm2PerS2 = thickest / 10 }, honey, mild, mild).ThinEnoughFrom!.Value.DegreesCelsius, 1e-9);
    }

    [Fact]
    public void A_cup_for_thin_paint_is_never_reached()
    {
        CupReading reading = Reading with { Cup = FlowCups.ByName("iso-3"), Times = Samples.Seconds(500) };
        Assert.Null(CupReach.Of(reading.Cup, new Honey { Moisture = Ratio.FromPercent(18.5) }, reading.Sample.Temperature, reading.Ceiling).ThinEnoughFrom);
        Assert.Contains("falling ball", Assert.Throws<MeasurementRefusedException>(() => reading.Measure()).Instead, StringComparison.Ordinal);
    }

    [Fact]
    public void A_short_time_asks_for_a_narrower_cup()
    {
        CupReading reading = Reading with { Cup = FlowCups.ByName("iso-6"), Times = Samples.Seconds(20) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => reading.Measure());
        Assert.Contains("iso-5", refused.Instead, StringComparison.Ordinal);
        Assert.Contains("30 s", refused.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cup_is_found_by_name_or_the_nearest_is_named()
    {
        Assert.Equal("zahn-3", FlowCups.ByName("Zahn-3").Name);
        Assert.Contains("'ford-4'", Assert.Throws<ArgumentException>(() => FlowCups.ByName("ford4")).Message, StringComparison.Ordinal);
    }

    /// <summary>The first and the last second of the cup, 20 and 100 s, still count: 12.1 × 18 = 217.8 and 12.1 × 98 = 1185.8 mm²/s.</summary>
    [Theory]
    [InlineData(20, 217.8)]
    [InlineData(100, 1185.8)]
    public void Times_at_the_ends_of_the_cup_are_taken(double seconds, double centistokes) =>
        Assert.Equal(centistokes, (Reading with { Times = Samples.Seconds(seconds) }).Measure().KinematicViscosity.Centistokes, 1e-9);

    /// <summary>ford-5 ends at 1186 mm²/s, a common honey of 18.5 % at 48 °C has a third of that: warming is no advice then.</summary>
    [Fact]
    public void Honey_thicker_than_its_moisture_says_goes_to_the_ball()
    {
        CupReading thick = Reading with { Times = Samples.Seconds(150) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => thick.Measure());
        Assert.Equal("Yours is thicker than that: time a falling ball instead.", refused.Instead);
        Assert.StartsWith("150 s are more than the cup ford-5 is good for, 100 s, which is 1186 mm2/s; a common honey of this moisture has ", refused.Reason, StringComparison.Ordinal);

        // At the very temperature from which a common honey is thin enough, it is so already.
        Temperature from = CupReach.Of(thick.Cup, new Honey { Moisture = thick.Sample.Moisture }, thick.Sample.Temperature, thick.Ceiling).ThinEnoughFrom!.Value;
        CupReading edge = thick with { Sample = thick.Sample with { Temperature = from } };
        Assert.StartsWith("Yours is thicker", Assert.Throws<MeasurementRefusedException>(() => edge.Measure()).Instead, StringComparison.Ordinal);
        CupReading cooler = thick with { Sample = thick.Sample with { Temperature = from - TemperatureDelta.FromKelvins(1) } };
        Assert.StartsWith("It would come within reach at ", Assert.Throws<MeasurementRefusedException>(() => cooler.Measure()).Instead, StringComparison.Ordinal);
    }

    [Fact]
    public void Within_the_ceiling_the_ball_is_the_second_choice_and_above_it_the_first()
    {
        CupReading cool = Reading with { Sample = Samples.Honey(17.5, 30), Cup = FlowCups.ByName("iso-6"), Times = Samples.Seconds(300) };
        Assert.EndsWith("within the ceiling of 50 °C; else time a falling ball.", Assert.Throws<MeasurementRefusedException>(() => cool.Measure()).Instead, StringComparison.Ordinal);
        Assert.EndsWith(
            "above the ceiling of 35.5 °C: time a falling ball instead.",
            Assert.Throws<MeasurementRefusedException>(() => (cool with { Ceiling = Temperature.FromDegreesCelsius(35.5) }).Measure()).Instead,
            StringComparison.Ordinal);
    }

    /// <summary>The correlation ends at 21.5 %: of a wetter honey nothing is said but what the cup is good for.</summary>
    [Fact]
    public void Where_no_common_honey_is_known_only_the_cup_is_spoken_of()
    {
        CupReading wet = Reading with { Sample = Samples.Honey(22, 48), Times = Samples.Seconds(150) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => wet.Measure());
        Assert.Equal("150 s are more than the cup ford-5 is good for, 100 s, which is 1186 mm2/s.", refused.Reason);
        Assert.Equal("Time a falling ball instead.", refused.Instead);
    }

    /// <summary>The narrowest cup of its family has no narrower one beside it.</summary>
    [Fact]
    public void A_short_time_in_the_narrowest_cup_asks_for_cooler_honey()
    {
        CupReading reading = Reading with { Cup = FlowCups.ByName("zahn-1"), Times = Samples.Seconds(31) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => reading.Measure());
        Assert.Equal("31 s are less than the cup zahn-1 is good for, 35 s, which is 7 mm2/s.", refused.Reason);
        Assert.Equal("Measure cooler honey, or take a cup with a narrower hole.", refused.Instead);
    }

    /// <summary>
    /// A cup with the hole of iso-6 that is trusted from 50 s on: 40 s are 6.90 × 40 − 570/40 = 261.8 mm²/s, which iso-5 tells in
    /// 81 s (3.28 × 81 − 220/81 = 263.0). The cup with the same hole is no narrower one.
    /// </summary>
    [Fact]
    public void A_narrower_cup_is_one_with_a_narrower_hole()
    {
        FlowCup cautious = FlowCups.ByName("iso-6") with { Name = "iso-own", TimeRange = new ValidityRange("cup iso-own", "time", "s", 50, 100) };
        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => (Reading with { Cup = cautious, Times = Samples.Seconds(40) }).Measure());
        Assert.Equal("Take the cup iso-5, or measure cooler honey.", refused.Instead);
    }
}
