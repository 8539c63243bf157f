using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class RefractometerReadingTests
{
    private static RefractometerReading Of(RefractometerScale scale, double celsius, params double[] readings) => new()
    {
        Scale = scale,
        Readings = readings,
        Temperature = Temperature.FromDegreesCelsius(celsius),
    };

    /// <summary>Chataway's table as in MoistureReading: 1.4935 at 20 °C is 17.4 % (its own tests hold it to the source); here only that the door is the same.</summary>
    [Fact]
    public void An_index_is_read_as_the_relation_says()
    {
        Ratio direct = MoistureReading.FromRefractiveIndex(1.4900, Temperature.FromDegreesCelsius(26)).Moisture;
        Assert.Equal(direct.Percent, Of(RefractometerScale.RefractiveIndex, 26, 1.4900).Measure().Moisture.Percent, 1e-12);
    }

    /// <summary>
    /// Handbooks for hand refractometers say 0.09 to 0.1 % moisture per °C (from memory; it follows from 0.00023 per °C over some 0.0025 per
    /// percent): honey on a warm prism reads too wet.
    /// </summary>
    [Theory]
    [InlineData(RefractometerScale.Moisture, 18)]
    [InlineData(RefractometerScale.Brix, 80.4)]
    public void A_warm_prism_reads_too_wet(RefractometerScale scale, double reading)
    {
        double at20C = Of(scale, 20, reading).Measure().Moisture.Percent;
        double at30C = Of(scale, 30, reading).Measure().Moisture.Percent;
        Assert.InRange(at20C - at30C, 0.85, 1.0);
        Assert.Equal(18, at20C, 1e-9);
    }

    /// <summary>An instrument that corrects for itself is read as at 20 °C, and its thermometer no longer matters.</summary>
    [Fact]
    public void Own_correction()
    {
        MoistureMeasurement own = (Of(RefractometerScale.Moisture, 30, 17.6) with { Temperature = null }).Measure();
        Assert.Equal(17.6, own.Moisture.Percent, 1e-9);
        Assert.DoesNotContain(own.Contributions, share => share.Name == "temperature of the prism");
    }

    /// <summary>Errors by hand: √(0.1² + 0.1²/n + 0.09² + 0.025²) %.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void Errors_add_up(int drops)
    {
        MoistureMeasurement measured = Of(RefractometerScale.Moisture, 22, [.. Enumerable.Repeat(17.6, drops)]).Measure();
        Assert.Equal(Math.Sqrt(0.01 + 0.01 / drops + 0.09 * 0.09 + 0.025 * 0.025), measured.StandardDeviation.Percent, 0.002);
        Assert.Equal(measured.Moisture.Percent - 1.96 * measured.StandardDeviation.Percent, measured.Interval95.Low.Percent, 1e-4);
        Assert.Equal(1, measured.Contributions.Sum(share => share.Share), 1e-12);
    }

    [Fact]
    public void A_sugar_scale_is_good_to_three_tenths() =>
        Assert.Equal("scale against moisture", Of(RefractometerScale.Brix, 20, 80.5).Measure().Contributions[0].Name);

    [Fact]
    public void Drops_that_differ_are_remarked_on() =>
        Assert.Contains(Of(RefractometerScale.Moisture, 20, 17.2, 18.0, 17.5).Measure().Notices, notice => notice.Code == "refractometer.scatter");

    /// <summary>What the moisture's error does to the viscosity: its slope, −B · 3.7019/(T − T0)², by hand at 17.6 % and 35 °C.</summary>
    [Fact]
    public void The_factor_on_the_viscosity_follows()
    {
        MoistureMeasurement measured = Of(RefractometerScale.Moisture, 20, 17.6).Measure();
        double distance = 308.15 - (187.31 - 3.7019 * 0.6);
        Assert.Equal(Math.Exp(3.7019 * 1449.73 / distance / distance * measured.StandardDeviation.Percent), measured.ViscosityFactorAt(Temperature.FromDegreesCelsius(35)), 1e-4);
    }

    /// <summary>Whatever is read, the moisture is what the scale means and the interval holds it.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void The_index_of_a_moisture_reads_as_that_moisture(Share moisture, Share celsius)
    {
        double percent = moisture.Between(14, 24), t = celsius.Between(15, 35);
        double index = MoistureReading.RefractiveIndexAt20C(Ratio.FromPercent(percent)) - 0.00023 * (t - 20);
        MoistureMeasurement measured = Of(RefractometerScale.RefractiveIndex, t, index).Measure();
        Assert.Equal(percent, measured.Moisture.Percent, 1e-9);
        Assert.True(measured.Interval95.Low < measured.Moisture && measured.Moisture < measured.Interval95.High);
    }

    [Theory]
    [InlineData(RefractometerScale.RefractiveIndex, 1.6)]
    [InlineData(RefractometerScale.Brix, 20)]
    [InlineData(RefractometerScale.Moisture, 80)]
    [InlineData(RefractometerScale.Moisture, double.NaN)]
    public void Readings_beyond_the_scale_are_refused(RefractometerScale scale, double reading) =>
        Assert.Equal("Readings", Assert.Throws<ArgumentOutOfRangeException>(() => Of(scale, 20, reading).Measure()).ParamName);

    [Theory]
    [InlineData(RefractometerScale.RefractiveIndex)]
    [InlineData(RefractometerScale.Brix)]
    [InlineData(RefractometerScale.Moisture)]
    public void A_reading_that_is_no_number_is_laid_to_the_readings(RefractometerScale scale)
    {
        foreach (double reading in new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity })
            Assert.Equal("Readings", Assert.Throws<ArgumentOutOfRangeException>(() => Of(scale, 20, reading).Measure()).ParamName);
    }

    [Fact]
    public void A_scale_that_does_not_exist_is_refused() =>
        Assert.Equal("Scale", Assert.Throws<ArgumentOutOfRangeException>(() => Of((RefractometerScale)9, 20, 17).Measure()).ParamName);

    [Fact]
    public void One_to_a_thousand_drops_are_taken()
    {
        Assert.Equal(17.5, Of(RefractometerScale.Moisture, 20, [.. Enumerable.Repeat(17.5, 1000)]).Measure().Moisture.Percent, 1e-9);
        Assert.StartsWith(
            "1001 readings are given; it takes 1 to 1000.",
            Assert.Throws<ArgumentException>(() => Of(RefractometerScale.Moisture, 20, [.. Enumerable.Repeat(17.5, 1001)]).Measure()).Message,
            StringComparison.Ordinal);
        Assert.Equal("Readings", Assert.Throws<ArgumentException>(() => Of(RefractometerScale.Moisture, 20).Measure()).ParamName);
    }

    /// <summary>The change of the index with temperature is taken from 10 to 40 °C, and remarked on below 15.</summary>
    [Theory]
    [InlineData(9.99, true, 0)]
    [InlineData(10, false, 1)]
    [InlineData(14.99, false, 1)]
    [InlineData(15, false, 0)]
    [InlineData(40, false, 0)]
    [InlineData(40.01, true, 0)]
    public void A_prism_too_cold_or_too_warm_is_refused(double celsius, bool refused, int notices)
    {
        RefractometerReading reading = Of(RefractometerScale.Moisture, celsius, 18);
        if (refused)
            Assert.Equal("Temperature", Assert.Throws<ArgumentOutOfRangeException>(() => reading.Measure()).ParamName);
        else
            Assert.Equal(notices, reading.Measure().Notices.Count);
    }

    /// <summary>
    /// The mean of 14 and 24 % is 19 %. There n − 1 = 10^(−0.26810 − 0.002243 × 19) = 0.48897, so 0.00023 per K are
    /// 0.00023/(0.48897 ln 10 × 0.002243) = 0.09107 % moisture per K, three times that for a thermometer good to 3 K.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void The_thermometer_counts_by_the_slope_at_the_mean(double spreadK)
    {
        MoistureMeasurement measured = (Of(RefractometerScale.Moisture, 20, 14, 24) with { TemperatureSpread = TemperatureDelta.FromKelvins(spreadK) }).Measure();
        Assert.Equal(19, measured.Moisture.Percent, 1e-9);
        Assert.Equal(0.0009107 * spreadK, measured.Contributions.Single(share => share.Name == "temperature of the prism").StandardDeviation, 1e-6 * spreadK);
    }

    /// <summary>Two drops 0.40 % apart have a standard deviation of 0.4/√2 = 0.28 %, two 0.45 % apart one of 0.32 %; three times 0.1 % is the limit.</summary>
    [Fact]
    public void Drops_may_differ_by_three_tenths_of_a_percent()
    {
        Assert.Empty(Of(RefractometerScale.Moisture, 20, 17.40, 17.80).Measure().Notices);
        Notice notice = Assert.Single(Of(RefractometerScale.Moisture, 20, 17.40, 17.85).Measure().Notices);
        Assert.Equal("the drops differ by 0.32 % moisture, one standard deviation", notice.Seen);
    }

    [Theory]
    [InlineData(RefractometerScale.RefractiveIndex, 1.49, Standing.SecondaryCopy)]
    [InlineData(RefractometerScale.Moisture, 18, Standing.SecondaryCopy)]
    [InlineData(RefractometerScale.Brix, 80.4, Standing.Derived)]
    public void The_source_is_that_of_the_scale(RefractometerScale scale, double reading, Standing standing) =>
        Assert.Equal(standing, Of(scale, 20, reading).Measure().Source.Standing);
}
