using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Churchill and Bernstein 1977, J. Heat Transfer 99:300: cylinder across a stream.</summary>
public class ChurchillBernstein1977Tests
{
    [Theory]
    [InlineData(6071, 0.7, 40.63708594124974, 1e-10)] // Bergman et al. 2011, Ex. 7.3, as quoted in the documentation of the open library ht (opened)
    [InlineData(120, 0.71, 5.65356, 5e-6)] // the next three: a public calculator's page built on that library (opened)
    [InlineData(25000, 4, 174.054, 5e-4)]
    [InlineData(200000, 60, 1727.58, 5e-3)]
    public void Published_examples(double reynolds, double prandtl, double nusselt, double halfDigit) =>
        Assert.Equal(nusselt, ForcedConvection.CylinderChurchillBernstein1977(reynolds, prandtl), halfDigit);
}
