using FlowSim.Screens;
using FsCheck.Xunit;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using UnitsNet;

namespace FlowSim.Tests.Screens;

public class CloggingTests
{
    /// <summary>∫ p(D)/D dD with MathNet's log-normal density by quadrature in ln D, independent of the closed form.</summary>
    [Theory]
    [InlineData(500e-6, 0.6, 400e-6, 1e-1)]
    [InlineData(500e-6, 0.6, 1e-6, 400e-6)]
    [InlineData(500e-6, 0.6, 200e-6, 600e-6)]
    [InlineData(100e-6, 0.3, 400e-6, 1e-1)]
    [InlineData(2e-3, 1.2, 50e-6, 200e-6)]
    public void Partial_expectation_of_inverse_size_against_quadrature(double median, double spread, double low, double high)
    {
        LogNormal sizes = new(Math.Log(median), spread);
        double Piece(double from, double to) => Integrate.GaussLegendre(x => sizes.Density(Math.Exp(x)), from, to, 128);
        double top = Math.Min(Math.Log(high), Math.Log(median) + 12 * spread);
        double bottom = Math.Max(Math.Log(low), Math.Log(median) - 14 * spread);
        double middle = (bottom + top) / 2;
        double expected = Piece(bottom, middle) + Piece(middle, top);
        Assert.Equal(expected, Clogging.OversizeInverseSize(median, spread, low, high), 1e-10 * expected);
    }

    /// <summary>E[1/D] over all sizes = e^(s²/2)/D50.</summary>
    [Fact]
    public void Whole_expectation_of_inverse_size() =>
        Assert.Equal(Math.Exp(0.18) / 500e-6, Clogging.OversizeInverseSize(500e-6, 0.6, 0, double.PositiveInfinity), 1e-10);

    [Property(Arbitrary = [typeof(Generators)])]
    public void Classes_add_up_and_are_never_negative(Share median, Share spread, Share one, Share other)
    {
        double d50 = median.LogBetween(1e-6, 2e-2);
        double s = spread.Between(0.05, 2);
        double low = Math.Min(one.LogBetween(2e-5, 1e-2), other.LogBetween(2e-5, 1e-2));
        double high = Math.Max(one.LogBetween(2e-5, 1e-2), other.LogBetween(2e-5, 1e-2));
        double inner = Clogging.OversizeInverseSize(d50, s, low, high);
        double above = Clogging.OversizeInverseSize(d50, s, high, double.PositiveInfinity);
        double both = Clogging.OversizeInverseSize(d50, s, low, double.PositiveInfinity);
        Assert.True(inner >= 0 && above >= 0 && double.IsFinite(both));
        Assert.Equal(both, inner + above, 1e-12 * both + 1e-300);
    }

    private static double[] Sigma(Debris debris, params double[] openingsUm)
    {
        double[] sigma = new double[openingsUm.Length];
        Clogging.BlindedAreaPerVolumePerM(DebrisNumbers.Of(debris), 1400, [.. openingsUm.Select(um => um * 1e-6)], sigma);
        return sigma;
    }

    /// <summary>
    /// Bits of nearly one size D: each blinds πD²/4, there are c ρ_h/(ρ_d πD³/6) per m³ of honey, and a share E is caught. With
    /// c = 0.3 g/kg, ρ_h = 1400, ρ_d = 960, D = 1 mm, E = 0.5: 1.5 · 0.0003 · 1.45833 · 0.5/0.001 = 0.328125 per m. The
    /// narrow spread of 0.05 adds e^0.00125.
    /// </summary>
    [Fact]
    public void Bits_of_one_size_by_counting()
    {
        Debris debris = new() { MedianSize = Length.FromMillimeters(1), SizeSpread = 0.05 };
        Assert.Equal(0.328125 * Math.Exp(0.00125), Assert.Single(Sigma(debris, 400)), 1e-12);
        Assert.Equal(0, Assert.Single(Sigma(debris, 3000)), 1e-12);
    }

    /// <summary>The same bits on three cloths: the second sees half of what the first saw, and so on, in whatever order.</summary>
    [Theory]
    [InlineData(600, 400, 200)]
    [InlineData(200, 600, 400)]
    public void Later_cloths_catch_their_share_of_what_reaches_them(double first, double second, double third)
    {
        Debris debris = new() { MedianSize = Length.FromMillimeters(1), SizeSpread = 0.05 };
        double[] sigma = Sigma(debris, first, second, third);
        Assert.Equal(0.328125 * Math.Exp(0.00125), sigma[0], 1e-12);
        Assert.Equal(sigma[0] / 2, sigma[1], 1e-12);
        Assert.Equal(sigma[0] / 4, sigma[2], 1e-12);
    }

    /// <summary>A coarse cloth first leaves the fine one all bits between the openings and half of the larger ones.</summary>
    [Fact]
    public void Coarse_before_fine()
    {
        Debris debris = new();
        double scale = 1.5 * (1400.0 / 960) * 3e-4 * 0.5;
        double between = Clogging.OversizeInverseSize(500e-6, 0.6, 200e-6, 600e-6);
        double above = Clogging.OversizeInverseSize(500e-6, 0.6, 600e-6, double.PositiveInfinity);
        double[] sigma = Sigma(debris, 600, 200);
        Assert.Equal(scale * above, sigma[0], 1e-12);
        Assert.Equal(scale * (between + above / 2), sigma[1], 1e-12);
    }

    [Fact]
    public void A_cloth_that_catches_everything_leaves_a_coarser_one_clean()
    {
        double[] sigma = Sigma(new Debris { CaptureEfficiency = 1 }, 200, 600);
        Assert.True(sigma[0] > 0);
        Assert.Equal(0, sigma[1]);
    }

    [Fact]
    public void Two_like_cloths_share_and_clean_honey_blinds_none()
    {
        double[] twice = Sigma(new Debris(), 400, 400);
        Assert.Equal(twice[0] / 2, twice[1], 1e-12);
        Assert.Equal([0, 0], Sigma(new Debris { Load = Ratio.Zero }, 400, 200));
    }

    [Fact]
    public void Finding_the_blinded_area_allocates_nothing()
    {
        Debris debris = new();
        double[] openings = [600e-6, 200e-6], sigma = new double[2];
        Assert.Equal(0, Allocated.By(() => Clogging.BlindedAreaPerVolumePerM(DebrisNumbers.Of(debris), 1400, openings, sigma)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    public void A_closed_cloth_closes_no_further(double share) => Assert.Equal(0, Clogging.OpenShareRate(BlockingLaw.Complete, share, 1, 1));

    /// <summary>What stood in the place of the answer before does not count.</summary>
    [Fact]
    public void The_blinded_area_is_found_anew_each_time()
    {
        double[] sigma = [1e6, -1e6];
        Clogging.BlindedAreaPerVolumePerM(DebrisNumbers.Of(new Debris()), 1400, [600e-6, 200e-6], sigma);
        Assert.Equal(Sigma(new Debris(), 600, 200), sigma);
    }
}
