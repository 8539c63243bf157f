namespace FlowSim.Properties;

/// <summary>Specific heat capacity of liquid honey.</summary>
public static class HoneyHeatCapacity
{
    /// <summary>Range of the moisture, % by mass.</summary>
    public static ValidityRange MoistureRange { get; } = new("heat capacity", "moisture", "%", 13, 23, 10, 30);

    /// <summary>Range of the temperature, °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("heat capacity", "temperature", "°C", 10, 70, 0, 80);

    /// <summary>Spread: published values for honey itself reach 8 % above the formula.</summary>
    internal static readonly PropertySpread Spread = new(SpreadKind.Percent, 8);

    /// <summary>Where the coefficients come from.</summary>
    public static Source Source { get; } = new("Bubník, Kadlec, Urban & Bruhns 1995, Sugar Technologists Manual, at purity 100 % (from memory; the same coefficients seen in a copy that cites Llano 2005, Modeling and Simulation of Vertical Continuous Cooling Crystallizers for the Sugar Industry)", Standing.SecondaryCopy);

    /// <summary>Specific heat capacity of a pure sugar solution, J/(kg·K).</summary>
    /// <remarks>
    /// <para><b>Equation</b>: c = 4186.8 − 25.1 B + 0.075 B t; B = 100 − w, the dissolved solids in % by mass, t in °C.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>; the limits for honey are an engineering choice.</para>
    /// <para><b>Error</b>: ± 8 %: within 2 % of one published value for honey, 7 % below another
    /// (2.26 and 2.39 kJ/(kg·K) near 17 % and 20 °C).</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: Bubnik1995Tests.cs, Llano2005Tests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double Bubnik1995(double moisturePercent, double temperatureK)
    {
        (double at0C, double perK) = CoefficientsAt(moisturePercent);
        return at0C + perK * (temperatureK - Physical.ZeroCelsiusK);
    }

    /// <summary>The two coefficients of <see cref="Bubnik1995"/> against °C: at 0 °C, J/(kg·K), and per K.</summary>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    internal static (double At0C, double PerK) CoefficientsAt(double moisturePercent)
    {
        double solidsPercent = 100 - moisturePercent;
        return (4186.8 - 25.1 * solidsPercent, 0.075 * solidsPercent);
    }
}
