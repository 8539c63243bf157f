using FlowSim.Heating;

namespace FlowSim.Sources.Tests;

/// <summary>Cylinder across a stream.</summary>
[Publication("Churchill and Bernstein 1977", "J. Heat Transfer 99:300, in examples: Bergman et al. 2011, Ex. 7.3, and a public calculator", Standing.SecondaryCopy, Remark = "the first as the documentation of the open library ht quotes it, the others on the page of a calculator built on that library")]
public class ChurchillBernstein1977Tests
{
    [Theory]
    [InlineData(6071, 0.7, 40.63708594124974, 1e-10)]
    [InlineData(120, 0.71, 5.65356, 5e-6)]
    [InlineData(25000, 4, 174.054, 5e-4)]
    [InlineData(200000, 60, 1727.58, 5e-3)]
    public void Published_examples(double reynolds, double prandtl, double nusselt, double halfDigit) =>
        Published.Agrees(nusselt, ForcedConvection.CylinderChurchillBernstein1977(reynolds, prandtl), Within.HalfDigit(halfDigit), $"Nu at Re {reynolds}, Pr {prandtl}");
}
