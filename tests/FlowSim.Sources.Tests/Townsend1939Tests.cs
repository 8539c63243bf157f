using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Time and temperature that kill the yeasts of honey.</summary>
[Publication("Townsend 1939", "J. Econ. Entomol. 32:650", Standing.FromMemory)]
public class Townsend1939Tests
{
    [Theory]
    [InlineData(125, 470)]
    [InlineData(130, 170)]
    [InlineData(135, 60)]
    [InlineData(140, 22)]
    [InlineData(145, 7.5)]
    [InlineData(150, 2.8)]
    [InlineData(155, 1.0)]
    public void Points_are_met(double fahrenheit, double minutes) =>
        Published.Agrees(
            minutes, YeastKill.TimeAt(Temperature.FromDegreesFahrenheit(fahrenheit)).Minutes, Within.Rounding(1e-6 * minutes), $"time at {fahrenheit} °F", "min");

    [Fact]
    public void The_points_lie_on_one_line_to_six_percent()
    {
        // A thermal death time falls by one decade over a constant step (Bigelow 1921, from memory); a slip of a digit would show.
        (double T, double LnT)[] points = [.. YeastKill.Points.Select(p => (p.Temperature.DegreesFahrenheit, Math.Log(p.Time.Minutes)))];
        (double intercept, double slope) = MathNet.Numerics.Fit.Line([.. points.Select(p => p.T)], [.. points.Select(p => p.LnT)]);
        Assert.All(points, p => Assert.InRange(p.LnT - intercept - slope * p.T, -0.06, 0.06));
    }

    [Fact]
    public void Hotter_is_never_slower()
    {
        double[] minutes = [.. Enumerable.Range(0, 160).Select(i => YeastKill.Townsend1939Minutes(324.9 + i * 0.1))];
        Assert.All(minutes.Zip(minutes.Skip(1)), pair => Assert.True(pair.Second < pair.First));
    }

    [Theory]
    [InlineData(51)]
    [InlineData(69)]
    public void Beyond_the_points_it_is_refused(double celsius) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => YeastKill.TimeAt(Temperature.FromDegreesCelsius(celsius)));
}
