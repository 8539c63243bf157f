using FlowSim.Vessels;
using MathNet.Numerics;

namespace FlowSim.Sources.Tests;

/// <summary>The draining of a vertical plate.</summary>
[Publication("Jeffreys 1930", "Proc. Cambridge Phil. Soc. 26:204", Standing.AbstractOnly)]
public class Jeffreys1930Tests
{
    /// <summary>
    /// What clings to the wall of a pail of 285 mm with 298 mm laid bare, at 1400 kg/m³ and g = 9.81 m/s².
    /// </summary>
    [Theory]
    [Publication("a working apart from this code", "δ̄ = ⅔ √(μ z/(ρ g t)), to the gram", Standing.Derived)]
    [InlineData(3, 60, 259)]
    [InlineData(3, 300, 116)]
    [InlineData(30, 60, 820)]
    [InlineData(30, 300, 367)]
    public void Pail_holds_back(double viscosityPaS, double timeS, double grams)
    {
        double volume = WallFilm.VolumeM3(viscosityPaS / 1400, 0.298, 9.81, timeS, Math.PI * 0.285 * 0.298);
        Published.Agrees(grams, volume * 1400 * 1000, Within.HalfDigit(0.5), $"honey of {viscosityPaS} Pa·s on the wall after {timeS} s", "g");
    }

    /// <summary>The film satisfies the equation it comes from, ∂δ/∂t + (g δ²/ν) ∂δ/∂z = 0, by central differences.</summary>
    [Fact]
    public void Film_satisfies_the_drainage_equation()
    {
        const double nu = 2e-3, g = 9.80665, z = 0.2, t = 100, step = 1e-4;
        double Film(double zz, double tt) => WallFilm.BottomThicknessJeffreys1930M(nu, zz, g, tt);
        double inTime = (Film(z, t * (1 + step)) - Film(z, t * (1 - step))) / (2 * t * step);
        double inDepth = (Film(z * (1 + step), t) - Film(z * (1 - step), t)) / (2 * z * step);
        double speed = g * Film(z, t) * Film(z, t) / nu;
        Assert.Equal(-inTime, speed * inDepth, 1e-7 * -inTime);
    }

    /// <summary>Mean over the depth, by quadrature of z = u².</summary>
    [Fact]
    public void Mean_is_the_integral_over_the_depth()
    {
        const double nu = 2e-3, g = 9.80665, z = 0.3, t = 60;
        double mean = Integrate.GaussLegendre(u => 2 * u * WallFilm.BottomThicknessJeffreys1930M(nu, u * u, g, t), 0, Math.Sqrt(z), 32) / z;
        Assert.Equal(mean, WallFilm.MeanThicknessJeffreys1930M(nu, z, g, t), 1e-13 * mean);
    }

    [Theory]
    [InlineData(0, 60)]
    [InlineData(-0.1, 60)]
    [InlineData(0.3, 0)]
    [InlineData(0.3, -1)]
    public void No_film_before_the_level_falls(double z, double t) => Assert.Equal(0, WallFilm.MeanThicknessJeffreys1930M(2e-3, z, 9.80665, t));
}
