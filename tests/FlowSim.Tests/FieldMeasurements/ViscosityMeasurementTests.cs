using FlowSim.FieldMeasurements;

namespace FlowSim.Tests.FieldMeasurements;

public class ViscosityMeasurementTests
{
    private static ViscosityMeasurement Of(double logSpread) => ViscosityMeasurement.Of(
        5, new ErrorBudget().Add("the one", logSpread).Add("the other", 0.001), Samples.Honey(), [], [], FallingBall.EndSource);

    /// <summary>A standard deviation of 1 of ln μ is the largest answered: a factor e either way.</summary>
    [Fact]
    public void Errors_up_to_a_factor_e_are_answered()
    {
        ViscosityMeasurement widest = ViscosityMeasurement.Of(5, new ErrorBudget().Add("the one", 1), Samples.Honey(), [], [], FallingBall.EndSource);
        Assert.Equal(1, widest.LogStandardDeviation);
        Assert.Equal(5, widest.Viscosity.PascalSeconds);

        MeasurementRefusedException refused = Assert.Throws<MeasurementRefusedException>(() => Of(1.24));
        Assert.Equal("LogStandardDeviation", refused.ParamName);
        Assert.Equal("The errors leave nothing of the measurement: ln of the viscosity has a standard deviation of 1.2, at most 1 is answered.", refused.Reason);
        Assert.Equal("Most comes from: the one. Measure that more closely, or over a longer time.", refused.Instead);
        Assert.Throws<MeasurementRefusedException>(() => Of(double.NaN));
    }
}
