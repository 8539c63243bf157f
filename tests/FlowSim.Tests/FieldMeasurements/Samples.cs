using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

/// <summary>Invented honeys and measurements.</summary>
internal static class Samples
{
    public static HoneySample Honey(double moisturePercent = 17.8, double celsius = 35) => new()
    {
        Moisture = Ratio.FromPercent(moisturePercent),
        Temperature = Temperature.FromDegreesCelsius(celsius),
    };

    /// <summary>A 3 mm steel ball in a 50 mm jar over 100 mm.</summary>
    public static FallingBall Ball(params double[] seconds) => new()
    {
        Sample = Honey(),
        BallDiameter = Length.FromMillimeters(3),
        JarDiameter = Length.FromMillimeters(50),
        Distance = Length.FromMillimeters(100),
        Times = Seconds(seconds),
    };

    public static Duration[] Seconds(params double[] seconds) => [.. seconds.Select(s => Duration.FromSeconds(s))];
}
