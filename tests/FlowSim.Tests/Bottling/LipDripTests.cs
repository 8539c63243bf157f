using FlowSim.Bottling;

namespace FlowSim.Tests.Bottling;

public class LipDripTests
{
    /// <summary>The time and the volume are each other's inverse, and four times the time leaves half.</summary>
    [Theory]
    [InlineData(2e-3, 0.01, 0.019, 5e-7)]
    [InlineData(2e-2, 0.02, 0.0125, 1e-6)]
    public void Time_is_the_inverse_of_what_is_left(double nu, double lip, double radius, double volume)
    {
        double time = LipDrip.TimeUntilLeftJeffreys1930S(nu, lip, radius, volume);
        Assert.Equal(volume, LipDrip.LeftM3(nu, lip, radius, time), 1e-12 * volume);
        Assert.Equal(volume / 2, LipDrip.LeftM3(nu, lip, radius, 4 * time), 1e-12 * volume);
    }

    /// <summary>The dripping falls as t^(−3/2): by central differences at two times.</summary>
    [Fact]
    public void Dripping_falls_with_the_power_of_minus_three_halves()
    {
        double Rate(double t) => (LipDrip.LeftM3(2e-3, 0.01, 0.019, t * 0.999) - LipDrip.LeftM3(2e-3, 0.01, 0.019, t * 1.001)) / (0.002 * t);
        Assert.Equal(Math.Pow(10, -1.5), Rate(100) / Rate(10), 1e-5);
    }

    [Fact]
    public void Never_more_than_the_rim_holds()
    {
        double full = Math.PI * 0.019 * 0.019 * 0.01;
        Assert.Equal(full, LipDrip.LeftM3(0.2, 0.01, 0.019, 0));
        Assert.Equal(full, LipDrip.LeftM3(0.2, 0.01, 0.019, 1e-9));
        Assert.Equal(0, LipDrip.TimeUntilLeftJeffreys1930S(0.2, 0.01, 0.019, full));
        Assert.Equal(0, LipDrip.LeftM3(0.2, 0, 0.019, 1));
    }
}
