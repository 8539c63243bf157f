using FlowSim.Gates;
using MathNet.Numerics;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Integrated for three vessels: each closed form against quadrature of A(h)/(C_d A_o √(2 g h)). The
/// substitution h = u² takes the root out of the integrand, which is then a polynomial.
/// </summary>
[Publication("Torricelli 1644", "De motu aquarum: the speed of efflux, √(2 g h)", Standing.FromMemory)]
public class TorricelliTests
{
    private const double Cd = 0.61;
    private const double HoleM2 = 3e-4;
    private const double G = 9.80665;

    private static double DrainTime(Func<double, double> planArea, double fromHead, double toHead) => Integrate.GaussLegendre(
        u => 2 * planArea(u * u) / (Cd * HoleM2 * Math.Sqrt(2 * G)),
        Math.Sqrt(toHead),
        Math.Sqrt(fromHead),
        32);

    [Fact]
    public void Prism()
    {
        double expected = DrainTime(_ => 0.4, 0.9, 0.1);
        Assert.Equal(expected, TankDrainage.PrismTimeTorricelliS(0.9, 0.1, 0.4, Cd, HoleM2, G), 1e-12 * expected);
    }

    [Fact]
    public void Cone()
    {
        const double beta = 0.5;
        double expected = DrainTime(h => Math.PI * Math.Pow(h * Math.Tan(beta), 2), 0.7, 0);
        Assert.Equal(expected, TankDrainage.ConeTimeTorricelliS(0.7, beta, Cd, HoleM2, G), 1e-12 * expected);
    }

    [Fact]
    public void Sphere()
    {
        const double radius = 0.45;
        double expected = DrainTime(h => Math.PI * h * (2 * radius - h), 2 * radius, 0);
        Assert.Equal(expected, TankDrainage.SphereTimeTorricelliS(radius, Cd, HoleM2, G), 1e-12 * expected);
    }
}
