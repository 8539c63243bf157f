using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>How long honey must be held at a temperature to kill the yeasts that ferment it.</summary>
public static class YeastKill
{
    /// <summary>Temperature °F and minutes, coldest first, as printed.</summary>
    private static readonly (double Fahrenheit, double Minutes)[] s_townsend1939 =
    [
        (125, 470), (130, 170), (135, 60), (140, 22), (145, 7.5), (150, 2.8), (155, 1.0),
    ];

    /// <summary>Range of the temperature, °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("yeast kill time", "temperature", "°C", (125 - 32) / 1.8, (155 - 32) / 1.8, 51.6, 68.4);

    /// <summary>Where the times come from.</summary>
    public static Source Source { get; } = new("Townsend 1939, J. Econ. Entomol. 32:650, times at which no yeast in honey survived", Standing.FromMemory);

    /// <summary>The published points, coldest first.</summary>
    public static IReadOnlyList<(Temperature Temperature, Duration Time)> Points { get; } =
        [.. s_townsend1939.Select(p => (Temperature.FromDegreesFahrenheit(p.Fahrenheit), Duration.FromMinutes(p.Minutes)))];

    /// <summary>Holding time at a temperature.</summary>
    /// <param name="temperature">Temperature within <see cref="TemperatureRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside the range.</exception>
    public static Duration TimeAt(Temperature temperature)
    {
        TemperatureRange.Require(temperature.DegreesCelsius, nameof(temperature));
        return Duration.FromMinutes(Townsend1939Minutes(temperature.Kelvins));
    }

    /// <summary>Holding time that kills the yeasts of honey, min.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ln t straight in temperature between the published points.</para>
    /// <para><b>Range</b>: <see cref="TemperatureRange"/>; out to its outer limits, which are there for rounding, the value of its end.</para>
    /// <para><b>Error</b>: not known. The seven points lie on one line in ln t to 6 %, one decade for 11 °F (6 K). Wetter honey needs less.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: Townsend1939Tests.cs.</para>
    /// </remarks>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double Townsend1939Minutes(double temperatureK)
    {
        double fahrenheit = (temperatureK - Physical.ZeroCelsiusK) * 1.8 + 32;
        int upper = 1;
        while (upper < s_townsend1939.Length - 1 && fahrenheit > s_townsend1939[upper].Fahrenheit)
            upper++;

        (double f0, double t0) = s_townsend1939[upper - 1];
        (double f1, double t1) = s_townsend1939[upper];
        double share = Math.Clamp((fahrenheit - f0) / (f1 - f0), 0, 1);
        return t0 * Math.Pow(t1 / t0, share);
    }
}
