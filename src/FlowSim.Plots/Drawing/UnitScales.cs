using System.Globalization;

namespace FlowSim.Plots.Drawing;

/// <summary>A unit as drawn: its name and how many of it make one SI unit.</summary>
internal sealed record Scale(string Unit, double PerSi)
{
    public double Of(double si) => si * PerSi;
}

/// <summary>The units of each kind of quantity.</summary>
internal static class UnitScales
{
    // International pound and inch (exact by definition).
    private const double KilogramsPerPound = 0.45359237;
    private const double MetersPerInch = 0.0254;

    // Engineering choice: below it, a flow per minute would be read in decimals.
    private const double SlowestPerMinuteKgPerS = 0.5 / 60;

    public static Scale Length(DisplayUnits units) => units == DisplayUnits.UsCustomary ? new("in", 1 / MetersPerInch) : new("cm", 100);

    public static Scale MassFlow(DisplayUnits units, double peakKgPerS)
    {
        double perTime = peakKgPerS > 0 && peakKgPerS < SlowestPerMinuteKgPerS ? 3600 : 60;
        string time = perTime == 60 ? "min" : "h";
        return units == DisplayUnits.UsCustomary ? new("lb/" + time, perTime / KilogramsPerPound) : new("kg/" + time, perTime);
    }

    public static string Mass(DisplayUnits units, double massKg)
    {
        double value = units == DisplayUnits.UsCustomary ? massKg / KilogramsPerPound : massKg;
        string format = value < 0.995 ? "0.00" : value < 9.95 ? "0.0" : "0";
        return value.ToString(format, CultureInfo.InvariantCulture) + (units == DisplayUnits.UsCustomary ? " lb" : " kg");
    }

    public static double Temperature(DisplayUnits units, double celsius) =>
        units == DisplayUnits.UsCustomary ? celsius * 1.8 + 32 : celsius;

    public static string TemperatureUnit(DisplayUnits units) => units == DisplayUnits.UsCustomary ? "°F" : "°C";
}
