using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Nu = 0.55 Ra^(1/4) in a closed cylinder, 0.75 ≤ L/D ≤ 2.</summary>
[Publication("Evans and Stefany 1966", "As given in Holman, Heat Transfer", Standing.FromMemory)]
public class EvansStefany1966Tests
{
    [Theory]
    [InlineData(1e4, 5.5)]
    [InlineData(1e8, 55)]
    [InlineData(16e8, 110)]
    [Publication("a working by hand", "the same formula", Standing.Derived)]
    public void By_hand(double rayleigh, double nusselt) =>
        Published.Agrees(nusselt, FreeConvection.ClosedCylinderEvansStefany1966(rayleigh), Within.Rounding(1e-12 * nusselt), $"Nu at Ra {rayleigh:0.#e0}");

    [Fact]
    public void Shapes() =>
        Published.Agrees((0.75, 2.0), (FreeConvection.ClosedCylinderAspectRange.Low, FreeConvection.ClosedCylinderAspectRange.High), "height over diameter");
}
