using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Properties;

public class MoistureReadingTests
{
    // Closed form: the two are inverses. 1e-9 % is rounding.
    [Property(Arbitrary = [typeof(Fractions)])]
    public void Moisture_to_index_and_back(Fraction moisture)
    {
        double w = moisture.Between(13.02, 24.97); // within the table by more than the equation's error, or the index is out of range
        double index = MoistureReading.RefractiveIndexAt20C(Ratio.FromPercent(w));
        Assert.Equal(w, MoistureReading.FromRefractiveIndex(index, Given.Celsius(20)).Moisture.Percent, 1e-9);
    }

    [Property(MaxTest = 500)]
    public void Any_index_gives_a_moisture_or_throws(double index, double temperatureC)
    {
        foreach (double n in new[] { index, 1.474 + Math.Abs(index % 0.0304) })
        {
            try
            {
                Assert.InRange(MoistureReading.FromRefractiveIndex(n, Given.Celsius(temperatureC % 40)).Moisture.Percent, 12.9, 25.1);
            }
            catch (ArgumentException)
            {
            }
        }
    }

    [Property(MaxTest = 500)]
    public void Any_Brix_gives_a_moisture_or_throws(double reading)
    {
        foreach (double bx in new[] { reading, 70 + Math.Abs(reading % 20) })
        {
            try
            {
                Assert.InRange(MoistureReading.FromBrix(bx).Moisture.Percent, 12.9, 25.1);
            }
            catch (ArgumentOutOfRangeException)
            {
            }
        }
    }

    [Theory]
    [InlineData(1.4740, 20)]
    [InlineData(1.5044, 20)]
    [InlineData(1.4940, 10)]
    [InlineData(1.4940, 40)]
    public void The_edges_are_taken(double index, double temperatureC) =>
        Assert.InRange(MoistureReading.FromRefractiveIndex(index, Given.Celsius(temperatureC)).Moisture.Percent, 12.9, 25.1);

    [Theory]
    [InlineData(1.4739, 20)]
    [InlineData(1.5045, 20)]
    [InlineData(1.4940, 9.99)]
    [InlineData(1.4940, 40.01)]
    [InlineData(double.NaN, 20)]
    [InlineData(double.PositiveInfinity, 20)]
    [InlineData(1.4940, double.NaN)]
    public void Beyond_the_edges_is_refused(double index, double temperatureC) =>
        Assert.ThrowsAny<ArgumentException>(() => MoistureReading.FromRefractiveIndex(index, Given.Celsius(temperatureC)));

    [Theory]
    [InlineData(73.39)]
    [InlineData(85.41)]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void Brix_beyond_the_edges_is_refused(double reading) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MoistureReading.FromBrix(reading));

    [Theory]
    [InlineData(12.99)]
    [InlineData(25.01)]
    public void Moisture_beyond_the_edges_is_refused(double moisturePercent) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MoistureReading.RefractiveIndexAt20C(Ratio.FromPercent(moisturePercent)));

    [Theory]
    [InlineData(1.4979, 78.8)]
    [InlineData(1.4940, 81.4)]
    public void Spreads_are_stated(double index, double brix)
    {
        Assert.Equal(0.1, MoistureReading.FromRefractiveIndex(index, Given.Celsius(20)).Spread.Percent, 1e-12);
        Assert.Equal(0.3, MoistureReading.FromBrix(brix).Spread.Percent, 1e-12);
    }
}
