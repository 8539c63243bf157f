using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>The rates of a crowd of bubbles and wax while the honey cools: written out, and their slopes against differences.</summary>
public class SettlingSystemTests
{
    private static readonly SettlingSetup Setup = Plain() with
    {
        Temperature = new TemperatureHistory([(Duration.Zero, Celsius(42)), (Duration.FromHours(10), Celsius(26))]),
        Bubbles = new Bubbles { Load = Ratio.FromPercent(9), MedianSize = Length.FromMillimeters(0.4), SizeSpread = 0.5 },
        Debris = new Debris { Load = Ratio.FromPercent(2), MedianSize = Length.FromMillimeters(0.6), SizeSpread = 0.7 },
        StandsFor = Duration.FromHours(1),
        Longest = Duration.FromHours(1),
    };

    private static SettlingSystem System()
    {
        var parameters = new SettlingParameters(Setup);
        return new SettlingSystem(parameters, SettlingCourse.Of(parameters, 1e-6, CancellationToken.None));
    }

    private static double[] Rates(double timeS, params double[] progress)
    {
        double[] rates = new double[2];
        System().Derivative(timeS, progress, rates);
        return rates;
    }

    /// <summary>A load is mass of debris per mass of honey, however many bubbles there are besides: what of the layer is neither bubble nor debris is honey.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(10)]
    public void A_load_is_per_honey_whatever_else_is_in_it(double bubblePercent)
    {
        var parameters = new SettlingParameters(Setup with { Bubbles = Setup.Bubbles! with { Load = Ratio.FromPercent(bubblePercent) } });
        double bubbles = parameters.Matter[0].VolumeShare, debris = parameters.Matter[1].VolumeShare;
        Assert.Equal(bubblePercent / 100, bubbles, 1e-15);
        Assert.Equal(0.02, debris * 960 / ((1 - bubbles - debris) * parameters.StartDensityKgPerM3), 1e-14);
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(2, 0.3, 0.2)]
    [InlineData(5, 2, 1.5)]
    public void Progress_of_a_kind_is_the_way_of_its_median_over_the_depth(double hours, double bubbles, double debris)
    {
        double celsius = 42 - (1.6 * hours), wax = new SettlingParameters(Setup).Matter[1].VolumeShare;
        double slowed = Math.Pow(1 - (0.09 * SizeShares.Left(bubbles, 0.5)) - (wax * SizeShares.Left(debris, 0.7)), 4.65);
        double[] rates = Rates(3600 * hours, bubbles, debris);
        double air = FreeSpeed(Setup.Honey, celsius, 0.4, 1.2) / 0.298 * slowed, bits = FreeSpeed(Setup.Honey, celsius, 0.6, 960) / 0.298 * slowed;
        Assert.Equal(air, rates[0], 1e-11 * air);
        Assert.Equal(bits, rates[1], 1e-11 * bits);
    }

    [Theory]
    [InlineData(1, 0.05, 0.03)]
    [InlineData(3, 0.4, 0.6)]
    [InlineData(7, 2, 1)]
    public void Slopes_of_the_rates_against_differences(double hours, double bubbles, double debris)
    {
        double time = 3600 * hours;
        double[] y = [bubbles, debris], rates = Rates(time, y), jacobian = new double[4], perTime = new double[2];
        System().Jacobian(time, y, rates, jacobian, perTime, []);
        for (int j = 0; j < 2; j++)
        {
            double h = 1e-5 * y[j];
            double[] more = [.. y], less = [.. y];
            more[j] += h;
            less[j] -= h;
            double[] above = Rates(time, more), below = Rates(time, less);
            for (int k = 0; k < 2; k++)
            {
                double expected = (above[k] - below[k]) / (2 * h);
                Assert.True(expected > 0, "what has left slows the rest no longer");
                Assert.Equal(expected, jacobian[(2 * k) + j], 1e-5 * expected);
            }
        }

        double[] later = Rates(time + 10, y), earlier = Rates(time - 10, y);
        for (int k = 0; k < 2; k++)
        {
            double expected = (later[k] - earlier[k]) / 20;
            Assert.True(expected < 0, "it cools");
            Assert.Equal(expected, perTime[k], 1e-4 * -expected);
        }
    }

    /// <summary>Where the course of the temperature bends, the integration stops and starts anew.</summary>
    [Fact]
    public void The_next_stop_is_the_next_bend()
    {
        Assert.Equal(36000, System().NextStop(10));
        Assert.Equal(double.PositiveInfinity, System().NextStop(36000));
    }
}
