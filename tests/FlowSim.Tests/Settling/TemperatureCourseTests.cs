using FlowSim.Settling;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>A history read as a function of time: 290 K until 100 s, up to 300 K at 200 s, down to 280 K at 400 s, and so it stays.</summary>
public class TemperatureCourseTests
{
    private static readonly TemperatureCourse Course = new(new TemperatureHistory([(Seconds(100), Kelvins(290)), (Seconds(200), Kelvins(300)), (Seconds(400), Kelvins(280))]));

    private static Duration Seconds(double value) => Duration.FromSeconds(value);

    private static Temperature Kelvins(double value) => Temperature.FromKelvins(value);

    [Theory]
    [InlineData(-50, 290, 0, 100)]
    [InlineData(0, 290, 0, 100)]
    [InlineData(99, 290, 0, 100)]
    [InlineData(100, 290, 0.1, 200)]
    [InlineData(110, 291, 0.1, 200)]
    [InlineData(170, 297, 0.1, 200)]
    [InlineData(200, 300, -0.1, 400)]
    [InlineData(250, 295, -0.1, 400)]
    [InlineData(390, 281, -0.1, 400)]
    [InlineData(400, 280, 0, double.PositiveInfinity)]
    [InlineData(9000, 280, 0, double.PositiveInfinity)]
    public void Value_slope_and_next_bend(double timeS, double kelvins, double slope, double bendS)
    {
        Assert.Equal(kelvins, Course.AtK(timeS), 1e-9);
        Assert.Equal(slope, Course.SlopeKPerS(timeS), 1e-12);
        Assert.Equal(bendS, Course.NextBendS(timeS));
    }

    [Theory]
    [InlineData(0, 50, 290, 290)]
    [InlineData(0, 150, 290, 295)]
    [InlineData(150, 250, 295, 300)]
    [InlineData(210, 300, 290, 299)]
    [InlineData(0, 1000, 280, 300)]
    [InlineData(150, 200, 295, 300)]
    [InlineData(200, 250, 295, 300)]
    [InlineData(350, 400, 280, 285)]
    [InlineData(500, 600, 280, 280)]
    [InlineData(190, 390, 281, 300)]
    public void Coldest_and_hottest_between_two_times(double fromS, double toS, double coldest, double hottest)
    {
        (double coldestK, double hottestK) = Course.Extremes(fromS, toS);
        Assert.Equal(coldest, coldestK, 1e-9);
        Assert.Equal(hottest, hottestK, 1e-9);
    }

    [Fact]
    public void Part_between_two_times_keeps_the_bends_within()
    {
        Check(150, 300, [150, 200, 300], [295, 300, 290]);
        Check(0, 500, [0, 100, 200, 400, 500], [290, 290, 300, 280, 280]);
        Check(100, 200, [100, 200], [290, 300]);
        Check(10, 20, [10, 20], [290, 290]);

        static void Check(double fromS, double toS, double[] times, double[] kelvins)
        {
            TemperatureHistory part = Course.Between(fromS, toS);
            Assert.Equal(times, part.TimesS.ToArray());
            Assert.Equal(kelvins, part.TemperaturesK.ToArray().Select(k => Math.Round(k, 9)));
        }
    }

    [Fact]
    public void Warmer_moves_every_point_and_nothing_else()
    {
        SettlingSetup setup = Plain() with { Temperature = new TemperatureHistory([(Seconds(100), Kelvins(290)), (Seconds(200), Kelvins(300)), (Seconds(400), Kelvins(280))]) };
        SettlingSetup warmer = setup.Warmer(TemperatureDelta.FromKelvins(2.5));
        Assert.Equal([100, 200, 400], warmer.Temperature.TimesS.ToArray());
        Assert.Equal([292.5, 302.5, 282.5], warmer.Temperature.TemperaturesK.ToArray());
        Assert.Equal(setup, warmer with { Temperature = setup.Temperature });
        Assert.Equal([289, 299, 279], setup.Warmer(TemperatureDelta.FromKelvins(-1)).Temperature.TemperaturesK.ToArray());

        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => SettlingVariants.Warmer(null!, TemperatureDelta.Zero)).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => (setup with { Temperature = null! }).Warmer(TemperatureDelta.Zero)).ParamName);
        Assert.Throws<ArgumentOutOfRangeException>(() => setup.Warmer(TemperatureDelta.FromKelvins(124)));
    }
}
