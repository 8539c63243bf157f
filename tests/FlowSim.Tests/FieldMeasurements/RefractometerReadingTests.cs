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
        Assert.Throws<ArgumentOutOfRangeException>(() => Of(scale, 20, reading).Measure());
}
