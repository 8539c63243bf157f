using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Tests.Settling;

/// <summary>Invented layers.</summary>
internal static class Layers
{
    public static readonly SettlingOptions Brief = new() { SeriesPoints = 0, ProfileTimes = [] };

    public static Temperature Celsius(double value) => Temperature.FromDegreesCelsius(value);

    public static TemperatureHistory Hold(double celsius) => TemperatureHistory.Hold(Celsius(celsius), Duration.FromHours(1));

    public static SettlingSetup Plain() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        Depth = Length.FromMillimeters(298),
        Temperature = Hold(35),
    };

    public const double Gravity = 9.80665;

    /// <summary>Next to no bubbles, so that none slows another.</summary>
    public static Bubbles Few(double millimetres, double spread = 0.6) =>
        new() { Load = Ratio.FromDecimalFractions(1e-12), MedianSize = Length.FromMillimeters(millimetres), SizeSpread = spread };

    /// <summary>Honey of 10 Pa·s at 35 °C, as somebody measured it.</summary>
    public static Honey Measured(double pascalSeconds = 10) => new()
    {
        Moisture = Ratio.FromPercent(17.8),
        Viscosity = new MeasuredViscosity((Celsius(35), DynamicViscosity.FromPascalSeconds(pascalSeconds))),
    };

    /// <summary>g Δρ d²/(18 μ) with the honey's own viscosity and density, written out.</summary>
    public static double FreeSpeed(Honey honey, double celsius, double millimetres, double density)
    {
        HoneyProperties at = HoneyProperties.Of(honey);
        double d = millimetres / 1000;
        return Gravity * d * d * Math.Abs(at.DensityAt(Celsius(celsius)).KilogramsPerCubicMeter - density) / (18 * at.ViscosityAt(Celsius(celsius)).PascalSeconds);
    }

    /// <summary>Any setup within the limits, from a seed.</summary>
    public static SettlingSetup Any(int seed)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + (random.NextDouble() * (high - low));
        double LogBetween(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        double hours = 0;
        var points = new (Duration, Temperature)[random.Next(2, 6)];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = (Duration.FromHours(hours), Celsius(Between(15, 50)));
            hours += LogBetween(0.01, 100);
        }

        double[] densities = [500, 960, 1200, 1390, 1600, 2600];
        bool bubbles = random.Next(4) > 0;
        return new SettlingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(Between(14, 20)), LotFactor = LogBetween(0.5, 2) },
            Depth = Length.FromMillimeters(LogBetween(5, 3000)),
            Temperature = new TemperatureHistory(points),
            StandsFor = Duration.FromHours(LogBetween(0.1, 1000)),
            Bubbles = bubbles ? new Bubbles { Load = Ratio.FromPercent(LogBetween(0.001, 10)), MedianSize = Length.FromMillimeters(LogBetween(0.02, 5)), SizeSpread = Between(0.05, 2) } : null,
            Debris = bubbles && random.Next(3) == 0 ? null : new Debris
            {
                Load = Ratio.FromPercent(LogBetween(0.001, 2)),
                MedianSize = Length.FromMillimeters(LogBetween(0.02, 5)),
                SizeSpread = Between(0.05, 2),
                Density = Density.FromKilogramsPerCubicMeter(densities[random.Next(densities.Length)]),
            },
            ClearTo = random.Next(2) == 0 ? Clarity.OfShare(Ratio.FromPercent(LogBetween(0.01, 50))) : Clarity.OfSize(Length.FromMillimeters(LogBetween(0.02, 2))),
            Packing = Ratio.FromPercent(Between(30, 74)),
            HoneyMass = random.Next(2) == 0 ? Mass.FromKilograms(LogBetween(1, 1000)) : null,
        };
    }
}
