using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class MoistureMeasurementTests
{
    private static MoistureMeasurement Measured(double percent) => new()
    {
        Moisture = Ratio.FromPercent(percent),
        StandardDeviation = Ratio.FromPercent(0.5),
        Contributions = [],
        Source = MoistureReading.IndexSource,
    };

    /// <summary>ln μ of the Arrhenius law falls by 0.4296 per percent at any temperature and moisture: half a percent is a factor e^0.2148.</summary>
    [Theory]
    [InlineData(15, 20)]
    [InlineData(19, 50)]
    public void The_factor_is_that_of_the_correlation_asked_for(double percent, double celsius) =>
        Assert.Equal(Math.Exp(0.2148), Measured(percent).ViscosityFactorAt(Temperature.FromDegreesCelsius(celsius), new ArrheniusViscosity()), 1e-12);

    /// <summary>The default correlation reaches from 13.5 to 21.5 % and from 10 to 70 °C.</summary>
    [Theory]
    [InlineData(17, 9.99, "temperature")]
    [InlineData(17, 10, null)]
    [InlineData(17, 70, null)]
    [InlineData(17, 70.01, "temperature")]
    [InlineData(13.49, 30, "Moisture")]
    [InlineData(13.5, 30, null)]
    [InlineData(21.5, 30, null)]
    [InlineData(21.51, 30, "Moisture")]
    public void Beyond_the_correlation_it_is_refused(double percent, double celsius, string? blamed)
    {
        double Factor() => Measured(percent).ViscosityFactorAt(Temperature.FromDegreesCelsius(celsius));
        if (blamed is null)
            Assert.InRange(Factor(), 1.05, 1.5);
        else
            Assert.Equal(blamed, Assert.Throws<ArgumentOutOfRangeException>(() => Factor()).ParamName);
    }
}
