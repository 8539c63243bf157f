using FlowSim.Bottling;
using FsCheck.Xunit;

namespace FlowSim.Tests.Bottling;

/// <summary>The stream between gate and jar against closed forms, its own balance of momentum, and a program in another language.</summary>
public class FallingThreadTests
{
    private const double DensityKgPerM3 = 1400;
    private const double BoreM = 0.038;
    private const double FallM = 0.3;

    private static double SpeedMPerS(double flowM3PerS) => flowM3PerS / (Math.PI / 4 * BoreM * BoreM);

    /// <summary>
    /// 38 mm bore, 0.30 m fall, 63 mL/s: the longer of free fall and a thread without inertia, worked out for this project beforehand: 21 g in the air at
    /// 3 Pa·s, 39 g at 30, to the gram.
    /// </summary>
    [Theory]
    [InlineData(3, 21)]
    [InlineData(30, 39)]
    public void Longer_of_the_two_limits(double viscosityPaS, double grams)
    {
        const double flow = 63e-6;
        double longer = Math.Max(FallingThread.FreeFallS(SpeedMPerS(flow), FallM), FallingThread.ViscousS(viscosityPaS / DensityKgPerM3, SpeedMPerS(flow), FallM));
        Assert.Equal(grams, 1000 * DensityKgPerM3 * flow * longer, 0.5);
    }

    /// <summary>
    /// The whole equation for the same case and for 20 mL/s, by a program in Python (30 000 Runge-Kutta steps from the jar upwards, halving), to the digits
    /// it printed: time, and what the scale does not show, in grams. So the longer of the two limits is up to 45 % short.
    /// </summary>
    [Theory]
    [InlineData(63, 0.3, 0.2743, 2.6)]
    [InlineData(63, 1, 0.3059, 5.8)]
    [InlineData(63, 3, 0.3576, 11.1)]
    [InlineData(63, 10, 0.4576, 21.7)]
    [InlineData(63, 30, 0.6154, 39.1)]
    [InlineData(63, 100, 0.9297, 73.3)]
    [InlineData(20, 0.3, 0.3191, 2.1)]
    [InlineData(20, 3, 0.4865, 7.2)]
    [InlineData(20, 100, 1.6298, 43.1)]
    public void Against_another_program(double flowMlPerS, double viscosityPaS, double seconds, double grams)
    {
        double flow = 1e-6 * flowMlPerS, speed = SpeedMPerS(flow);
        SteadyStream stream = FallingThread.SteadyTrouton1906(viscosityPaS / DensityKgPerM3, speed, FallM);
        Assert.Equal(seconds, stream.TransitS, 1e-4);
        Assert.Equal(grams, 1000 * DensityKgPerM3 * flow * (stream.PullMPerS - speed) / 9.80665, 0.06);
    }

    /// <summary>Momentum of the whole stream: pull on the gate = weight − what it gains in speed, ρ Q (V_H − V₀).</summary>
    [Property(Arbitrary = [typeof(Generators)], MaxTest = 40)]
    public void Pull_is_weight_less_gain_of_momentum(Share viscosity, Share speed, Share fall)
    {
        double nu = viscosity.LogBetween(3e-4, 0.2), start = speed.LogBetween(0.005, 0.3), height = fall.Between(0.05, 0.6);
        SteadyStream stream = FallingThread.SteadyTrouton1906(nu, start, height);
        Assert.Equal(9.80665 * stream.TransitS - (stream.LandingMPerS - start), stream.PullMPerS, 2e-4 * 9.80665 * stream.TransitS);
    }

    /// <summary>Longer than either limit alone, shorter than a plug that keeps the speed of the gate; both limits one after the other are within a factor 1.5.</summary>
    [Property(Arbitrary = [typeof(Generators)], MaxTest = 40)]
    public void Between_its_bounds(Share viscosity, Share speed, Share fall)
    {
        double nu = viscosity.LogBetween(3e-4, 0.2), start = speed.LogBetween(0.005, 0.3), height = fall.Between(0.05, 0.6);
        double free = FallingThread.FreeFallS(start, height), viscous = FallingThread.ViscousS(nu, start, height);
        double time = FallingThread.SteadyTrouton1906(nu, start, height).TransitS;
        Assert.InRange(time, Math.Max(free, viscous), height / start * (1 + 1e-9));
        Assert.InRange((free + viscous) / time, 0.7, 1.5);
    }

    /// <summary>Honey so thick that inertia is nothing: V = g cos²(k(H − z))/(6νk²), which solves V (V′/V)′ = −g/(3ν) with no pull at the jar; t = (6νk/g) tan kH.</summary>
    [Fact]
    public void Thick_limit_without_pull_at_the_jar()
    {
        const double nu = 20, start = 0.005, height = 0.3, g = 9.80665;
        double low = 1e-6, high = Math.PI / 2 / height * (1 - 1e-9);
        for (int i = 0; i < 200; i++)
        {
            double k = 0.5 * (low + high), cosine = Math.Cos(k * height);
            if (g * cosine * cosine / (6 * nu * k * k) > start)
                low = k;
            else
                high = k;
        }

        double expected = 6 * nu * low / g * Math.Tan(low * height);
        Assert.Equal(expected, FallingThread.SteadyTrouton1906(nu, start, height).TransitS, 2e-4 * expected);
    }

    /// <summary>Free fall from rest: √(2H/g).</summary>
    [Fact]
    public void Free_fall_from_rest() => Assert.Equal(Math.Sqrt(2 * 0.3 / 9.80665), FallingThread.FreeFallS(0, 0.3), 1e-15);

    /// <summary>Thinner and thinner, the stream falls freely; where the equation is no longer integrated the two limits one after the other take its place without a jump.</summary>
    [Theory]
    [InlineData(1e-5, 0.06)]
    [InlineData(1e-7, 0.01)]
    public void Thin_limit(double nu, double within)
    {
        double free = FallingThread.FreeFallS(0.05, 0.3);
        Assert.Equal(free, FallingThread.SteadyTrouton1906(nu, 0.05, 0.3).TransitS, within * free);
    }

    /// <summary>(6ν/g) (1/z₀ − 1/(z₀ + H)) with z₀ = √(6νV₀/g): where 6νV₀ = g · (0.1 m)², a fall of 0.3 m takes (6ν/g)(10 − 2.5) s/m.</summary>
    [Fact]
    public void Without_inertia_by_hand()
    {
        const double nu = 0.02;
        Assert.Equal(6 * nu / 9.80665 * 7.5, FallingThread.ViscousS(nu, 9.80665 * 0.01 / (6 * nu), 0.3), 1e-14);
    }

    /// <summary>
    /// Where the equation would want 40 000 steps the two limits follow one another: for thin honey from 2H V_H/(3ν) on (0.3 m at 12 mm²/s), for a stream like a hair from 20 H/z₀ on
    /// (3 m, z₀ = 1 mm). It lands as if it had fallen freely, and what pulls at the gate is 3ν times the slope 2/z₀ there.
    /// </summary>
    [Theory]
    [InlineData(1.2e-5, 0.05, 0.3)]
    [InlineData(1e-3, 9.80665e-6 / 6e-3, 3)]
    public void Limits_one_after_the_other(double nu, double start, double height)
    {
        const double g = 9.80665;
        double z0 = Math.Sqrt(6 * nu * start / g), landing = Math.Sqrt(start * start + 2 * g * height);
        SteadyStream stream = FallingThread.SteadyTrouton1906(nu, start, height);
        Assert.Equal((landing - start) / g + 6 * nu / g * (1 / z0 - 1 / (z0 + height)), stream.TransitS, 1e-12 * stream.TransitS);
        Assert.Equal(landing, stream.LandingMPerS, 1e-12);
        Assert.Equal(6 * nu / z0, stream.PullMPerS, 1e-12);
    }
}
