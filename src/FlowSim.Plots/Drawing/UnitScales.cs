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
    // International pound and inch, US gallon of 231 cubic inches (exact by definition).
    private const double KilogramsPerPound = 0.45359237;
    private const double MetersPerInch = 0.0254;
    private const double CubicMetersPerUsGallon = 231 * MetersPerInch * MetersPerInch * MetersPerInch;
    private const double ZeroCelsiusK = 273.15;

    // Engineering choice: below it, a flow per minute would be read in decimals.
    private const double SlowestPerMinuteKgPerS = 0.5 / 60;

    public static Scale Length(DisplayUnits units) => units == DisplayUnits.UsCustomary ? new("in", 1 / MetersPerInch) : new("cm", 100);

    public static Scale Mass(DisplayUnits units) => units == DisplayUnits.UsCustomary ? new("lb", 1 / KilogramsPerPound) : new("kg", 1);

    public static Scale Volume(DisplayUnits units) => units == DisplayUnits.UsCustomary ? new("US gal", 1 / CubicMetersPerUsGallon) : new("L", 1000);

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

    public static double TemperatureOfK(DisplayUnits units, double kelvin) => Temperature(units, kelvin - ZeroCelsiusK);

    /// <summary>A temperature with its unit, to a tenth: <c>38.2 °C</c>.</summary>
    public static string TemperatureText(DisplayUnits units, UnitsNet.Temperature temperature) =>
        Temperature(units, temperature.DegreesCelsius).ToString("0.#", CultureInfo.InvariantCulture) + " " + TemperatureUnit(units);

    /// <summary>A difference of temperatures with its unit, to a tenth: <c>2.5 K</c>, <c>4.5 °F</c>.</summary>
    public static string DifferenceText(DisplayUnits units, UnitsNet.TemperatureDelta difference) =>
        units == DisplayUnits.UsCustomary
            ? (difference.Kelvins * 1.8).ToString("0.#", CultureInfo.InvariantCulture) + " °F"
            : difference.Kelvins.ToString("0.#", CultureInfo.InvariantCulture) + " K";

    /// <summary>Heat with its unit: <c>3.2 kWh</c>.</summary>
    public static string Heat(UnitsNet.Energy heat)
    {
        double kilowattHours = heat.KilowattHours;
        string format = Math.Abs(kilowattHours) < 0.0995 ? "0.000" : Math.Abs(kilowattHours) < 9.95 ? "0.0#" : "0";
        return kilowattHours.ToString(format, CultureInfo.InvariantCulture) + " kWh";
    }

    /// <summary>The unit of a heater's power, the same everywhere.</summary>
    public static Scale Power(double peakW) => peakW < 1000 ? new("W", 1) : new("kW", 0.001);

    /// <summary>The unit of HMF, the same everywhere: mg/kg unless all is tiny. Its SI here is mg/kg.</summary>
    public static Scale Hmf(double highestMgPerKg) => highestMgPerKg is > 0 and < 0.09 ? new("µg/kg", 1000) : new("mg/kg", 1);

    /// <summary>The least that an axis of temperatures spans: ticks are then whole degrees or halves.</summary>
    public static double LeastTemperatureSpan(DisplayUnits units) => units == DisplayUnits.UsCustomary ? 8 : 4;

    public static string TemperatureUnit(DisplayUnits units) => units == DisplayUnits.UsCustomary ? "°F" : "°C";
}
