using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Evans and Stefany 1966, as given in Holman, Heat Transfer: Nu = 0.55 Ra^(1/4) in a closed cylinder, 0.75 ≤ L/D ≤ 2. Standing: from memory.</summary>
public class EvansStefany1966Tests
{
    [Theory]
    [InlineData(1e4, 5.5)]
    [InlineData(1e8, 55)]
    [InlineData(16e8, 110)]
    public void By_hand(double rayleigh, double nusselt) =>
        Assert.Equal(nusselt, FreeConvection.ClosedCylinderEvansStefany1966(rayleigh), 1e-12 * nusselt);

    [Fact]
    public void Shapes() =>
        Assert.Equal((0.75, 2.0), (FreeConvection.ClosedCylinderAspectRange.Low, FreeConvection.ClosedCylinderAspectRange.High));
}
