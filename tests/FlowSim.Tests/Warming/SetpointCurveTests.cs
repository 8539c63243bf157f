using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

public class SetpointCurveTests
{
    private static readonly SetpointCurve Curve = new(
    [
        Step(0, 35),
        Step(600, 40),
        Step(1000, 50, ramp: true),
        Step(2000, 30),
    ]);

    private static SetpointStep Step(double seconds, double celsius, bool ramp = false) =>
        new(Duration.FromSeconds(seconds), Temperature.FromDegreesCelsius(celsius), ramp);

    [Theory]
    [InlineData(0, 35)]
    [InlineData(599, 35)]
    [InlineData(600, 40)]
    [InlineData(800, 45)]
    [InlineData(1000, 50)]
    [InlineData(1999, 50)]
    [InlineData(2000, 30)]
    [InlineData(1e7, 30)]
    public void It_jumps_and_ramps(double seconds, double celsius) =>
        Assert.Equal(celsius + 273.15, Curve.At(Curve.SegmentAt(seconds), seconds), 1e-9);

    [Fact]
    public void A_segment_goes_on_to_its_very_end()
    {
        Assert.Equal(35 + 273.15, Curve.At(0, 600), 1e-9);
        Assert.Equal(50 + 273.15, Curve.At(1, 1000), 1e-9);
        Assert.Equal([600.0, 1000, 2000], Curve.Breaks);
        Assert.Equal([0, 10 / 400.0, 0, 0], Enumerable.Range(0, 4).Select(Curve.SlopeAt));
    }

    [Fact]
    public void A_ramp_in_the_first_step_has_nothing_to_come_from() =>
        Assert.Equal(308.15, new SetpointCurve([Step(0, 35, ramp: true)]).At(0, 50), 1e-9);
}
