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
}
