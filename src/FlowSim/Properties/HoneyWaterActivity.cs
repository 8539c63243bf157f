namespace FlowSim.Properties;

/// <summary>Water activity of liquid honey near 25 °C.</summary>
public static class HoneyWaterActivity
{
    /// <summary>Spread between honeys and laboratories, absolute.</summary>
    internal static readonly PropertySpread Spread = new(SpreadKind.Absolute, 0.07);

    /// <summary>Range of the moisture, % by mass. Supported limits as the abstract of the source gives them.</summary>
    public static ValidityRange MoistureRange { get; } = new("water activity", "moisture", "%", 15, 21, 12, 23);

    /// <summary>Range of the temperature, °C. Engineering choice: the measurements are near 25 °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("water activity", "temperature", "°C", 20, 30, 0, 80);

    /// <summary>Where it comes from.</summary>
    public static Source Source { get; } = new(
        "Chirife, Zamora & Motto 2006, J. Food Eng. 72:287-292: straight line over 15 to 21 % in the abstract, coefficients from memory",
        Standing.FromMemory);

    /// <summary>Water activity, 0 to 1.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: a = 0.262 + 0.0179 w; w in % by mass.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: ± 0.03 within the source (from memory); ± 0.07 once the ranges in the abstracts of three other
    /// surveys are to be covered. Granulated honey reads higher than the same honey melted.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WaterActivitySurveysTests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    internal static double Chirife2006(double moisturePercent) => 0.262 + 0.0179 * moisturePercent;
}
