using FlowSim.Screens;
using MathNet.Numerics;

namespace FlowSim.Sources.Tests;

/// <summary>d²t/dV² = k (dt/dV)ⁿ at constant pressure, n = 2, 3/2, 1, 0 for complete, standard, intermediate blocking and cake.</summary>
[Publication("Hermia 1982", "Trans. IChemE 60:183", Standing.FromMemory, Remark = "the exponents as given in the abstracts of later reviews, which were read")]
public class Hermia1982Tests
{
    private static double Exponent(BlockingLaw law) => law switch
    {
        BlockingLaw.Complete => 2,
        BlockingLaw.Standard => 1.5,
        BlockingLaw.Intermediate => 1,
        _ => 0,
    };

    /// <summary>At K t = 1: e⁻¹, 1/1.5², 1/2, 1/√3, each also as printed to five digits.</summary>
    [Fact]
    public void Flux_at_unit_time()
    {
        Assert.Equal(1 / Math.E, Clogging.FluxRatioHermia1982(BlockingLaw.Complete, 1), 1e-15);
        Assert.Equal(4.0 / 9, Clogging.FluxRatioHermia1982(BlockingLaw.Standard, 1), 1e-15);
        Assert.Equal(0.5, Clogging.FluxRatioHermia1982(BlockingLaw.Intermediate, 1), 1e-15);
        Assert.Equal(1 / Math.Sqrt(3), Clogging.FluxRatioHermia1982(BlockingLaw.Cake, 1), 1e-15);
    }

    [Theory]
    [InlineData(BlockingLaw.Complete, 0.36788, 0.632121)]
    [InlineData(BlockingLaw.Standard, 0.44444, 0.666667)]
    [InlineData(BlockingLaw.Intermediate, 0.5, 0.693147)]
    [InlineData(BlockingLaw.Cake, 0.57735, 0.732051)]
    [Publication("their closed forms", "e⁻¹, 1/1.5², 1/2, 1/√3 and 1 − 1/e, 2/3, ln 2, √3 − 1, to five and six digits", Standing.Derived)]
    public void Printed_values_at_unit_time(BlockingLaw law, double flux, double volume)
    {
        Published.Agrees(flux, Clogging.FluxRatioHermia1982(law, 1), Within.HalfDigit(5e-6), $"flux at K t = 1, {law}");
        Published.Agrees(volume, Clogging.VolumeRatioHermia1982(law, 1), Within.HalfDigit(5e-7), $"volume at K t = 1, {law}");
    }

    /// <summary>At K t = 1: 1 − 1/e, 2/3, ln 2, √3 − 1.</summary>
    [Fact]
    public void Volume_at_unit_time()
    {
        Assert.Equal(1 - 1 / Math.E, Clogging.VolumeRatioHermia1982(BlockingLaw.Complete, 1), 1e-15);
        Assert.Equal(2.0 / 3, Clogging.VolumeRatioHermia1982(BlockingLaw.Standard, 1), 1e-15);
        Assert.Equal(Math.Log(2), Clogging.VolumeRatioHermia1982(BlockingLaw.Intermediate, 1), 1e-15);
        Assert.Equal(Math.Sqrt(3) - 1, Clogging.VolumeRatioHermia1982(BlockingLaw.Cake, 1), 1e-15);
    }

    [Theory]
    [CombinatorialLaws]
    public void Volume_is_the_integral_of_the_flux(BlockingLaw law, double kt)
    {
        double expected = Integrate.GaussLegendre(t => Clogging.FluxRatioHermia1982(law, t), 0, kt, 128);
        Assert.Equal(expected, Clogging.VolumeRatioHermia1982(law, kt), 1e-10 * expected);
    }

    /// <summary>
    /// Hermia's own equation: with J = dV/dt, d²t/dV² = −J′/J³ must be k (1/J)ⁿ with k the same at all times. J′ by central
    /// differences; in units of J0 and K, k = 1.
    /// </summary>
    [Theory]
    [CombinatorialLaws]
    public void Flux_satisfies_the_blocking_equation(BlockingLaw law, double kt)
    {
        double step = 1e-4 * kt;
        double flux = Clogging.FluxRatioHermia1982(law, kt);
        double slope = (Clogging.FluxRatioHermia1982(law, kt + step) - Clogging.FluxRatioHermia1982(law, kt - step)) / (2 * step);
        Assert.Equal(1, -slope / Math.Pow(flux, 3) * Math.Pow(flux, Exponent(law)), 1e-6);
    }

    /// <summary>
    /// The rate used in a run, φ′ = −σ φ^m U with U = J0 φ at constant pressure, takes the time K t = σ J0 t that the closed
    /// form says: ∫ dφ/(−φ′) by quadrature.
    /// </summary>
    [Theory]
    [CombinatorialLaws]
    public void Open_share_follows_the_closed_form_at_constant_pressure(BlockingLaw law, double kt)
    {
        const double sigma = 0.4, j0 = 2e-3;
        double open = Clogging.FluxRatioHermia1982(law, kt);
        double seconds = Integrate.GaussLegendre(
            x => Math.Exp(x) / -Clogging.OpenShareRate(law, Math.Exp(x), sigma, j0 * Math.Exp(x)),
            Math.Log(open),
            0,
            64);
        Assert.Equal(kt, sigma * j0 * seconds, 1e-8 * kt);
    }

    /// <summary>At a rate held constant the open share falls with volume as 1 − v, (1 − v/2)², e^(−v), 1/(1 + v): standard forms.</summary>
    [Theory]
    [InlineData(BlockingLaw.Complete, 0.5, 0.5)]
    [InlineData(BlockingLaw.Standard, 0.5, 0.5625)]
    [InlineData(BlockingLaw.Intermediate, 0.5, 0.60653065971263342)]
    [InlineData(BlockingLaw.Cake, 0.5, 0.66666666666666667)]
    public void Open_share_against_strained_volume(BlockingLaw law, double volume, double open)
    {
        double needed = Integrate.GaussLegendre(phi => 1 / -Clogging.OpenShareRate(law, phi, 1, 1), open, 1, 64);
        Assert.Equal(volume, needed, 1e-10);
    }

    private sealed class CombinatorialLawsAttribute : Xunit.Sdk.DataAttribute
    {
        public override IEnumerable<object[]> GetData(System.Reflection.MethodInfo testMethod) =>
            from law in Enum.GetValues<BlockingLaw>()
            from kt in new[] { 0.1, 1.0, 5.0 }
            select new object[] { law, kt };
    }
}
