using FlowSim.Settling;

namespace FlowSim.Sources.Tests;

/// <summary>A drop with a clean surface: drag πμd (2 + 3λ)/(1 + λ) in place of Stokes's 3πμd.</summary>
[Publication("Hadamard 1911, Rybczynski 1911", "The drag of a drop; its ends are in every text: a bubble rises 3/2 as fast as a rigid sphere, and a very thick drop as one; equal liquids give 6/5", Standing.FromMemory)]
public class HadamardRybczynski1911Tests
{
    [Theory]
    [InlineData(0, 1.5)]
    [InlineData(1, 1.2)]
    [InlineData(1e12, 1)]
    public void A_clean_surface(double viscosityRatio, double factor) =>
        Published.Agrees(
            factor, HinderedSpeed.CleanSurfaceFactorHadamardRybczynski1911(viscosityRatio), Within.Rounding(1e-11), $"speed over a rigid sphere's, viscosity ratio {viscosityRatio:0.#e0}");

    /// <summary>The drag of the two, 6πμa against 2πμa (2 + 3λ)/(1 + λ), for air in honey of 3 Pa·s.</summary>
    [Fact]
    public void Drags_of_the_two()
    {
        const double lambda = 18e-6 / 3;
        Assert.Equal(6 / (2 * (2 + (3 * lambda)) / (1 + lambda)), HinderedSpeed.CleanSurfaceFactorHadamardRybczynski1911(lambda), 1e-14);
    }
}
