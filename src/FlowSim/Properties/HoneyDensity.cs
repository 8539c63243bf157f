namespace FlowSim.Properties;

/// <summary>Density of liquid honey against moisture and temperature.</summary>
public static class HoneyDensity
{
    // Density of air-free water at 20 °C, kg/m3, to the four figures the specific gravities deserve (from memory: 998.2).
    private const double WaterAt20CKgPerM3 = 998.2;

    private const double SlopeAt20CKgPerM3K = -0.538;
    private const double CurvatureKgPerM3K2 = -0.00094;

    /// <summary>
    /// Spread of the slope, and with it of the thermal expansion. Engineering choice: the slope is that of sucrose, and honey
    /// is mostly glucose and fructose.
    /// </summary>
    internal static readonly PropertySpread SlopeSpread = new(SpreadKind.Percent, 20);

    /// <summary>Range of the moisture, % by mass.</summary>
    public static ValidityRange MoistureRange { get; } = new("density", "moisture", "%", 13, 21, 12, 23);

    /// <summary>Range of the temperature, °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("density", "temperature", "°C", 10, 60, 0, 80);

    /// <summary>Where the specific gravities come from.</summary>
    public static Source Source { get; } = new(
        "Parabola of this project through the table in White, Honey, USDA Agriculture Handbook 335, after Wedmore 1955, Bee World 36:197 (table from memory, two entries seen in copies)",
        Standing.FromMemory);

    /// <summary>Where the change with temperature comes from.</summary>
    public static Source SlopeSource { get; } = new(
        "Parabola of this project through the ICUMSA equation for sucrose solutions of the same solids, as given in two public programs, one after Llano 2005",
        Standing.SecondaryCopy);

    /// <summary>Specific gravity of honey, 20 °C against water at 20 °C.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: SG = 1.42347 − 0.0063017 (w − 17) − 0.00020097 (w − 17)²; w in % by mass.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>.</para>
    /// <para><b>Error</b>: within 0.0003 of every entry of the table.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: Wedmore1955Tests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    internal static double Wedmore1955SpecificGravity(double moisturePercent)
    {
        double x = moisturePercent - 17;
        return 1.42347 - x * (0.0063017 + 0.00020097 * x);
    }

    /// <summary>Spread of the density: that of the table at 20 °C (engineering choice ± 1 kg/m³), plus that of the slope.</summary>
    /// <param name="temperatureC">Temperature, °C.</param>
    internal static PropertySpread SpreadAt(double temperatureC) =>
        new(SpreadKind.Absolute, 1 + SlopeSpread.Amount / 100 * Math.Abs(ChangeFrom20CKgPerM3(temperatureC)));

    /// <summary>Density, kg/m³.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ρ = 998.2 SG(w) − 0.538 (t − 20) − 0.00094 (t − 20)²; t in °C.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: 0.3 kg/m³ from the table at 20 °C; the change with temperature is within 0.35 kg/m³ of the ICUMSA
    /// equation for sucrose at 0 to 80 °C, and for honey good to ± 20 % (<see cref="SlopeSpread"/>), so ± 5 kg/m³ at 60 °C.</para>
    /// <para><b>Source</b>: see <see cref="Source"/> and <see cref="SlopeSource"/>.</para>
    /// <para><b>Checked by</b>: Wedmore1955Tests.cs, IcumsaSucroseDensityTests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double DensityKgPerM3(double moisturePercent, double temperatureK) =>
        WaterAt20CKgPerM3 * Wedmore1955SpecificGravity(moisturePercent)
        + ChangeFrom20CKgPerM3(temperatureK - Physical.ZeroCelsiusK);

    /// <summary>Slope of the density against temperature, kg/(m³·K): the derivative of <see cref="DensityKgPerM3"/>.</summary>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double SlopeKgPerM3K(double temperatureK) =>
        SlopeAt20CKgPerM3K + 2 * CurvatureKgPerM3K2 * (temperatureK - Physical.ZeroCelsiusK - 20);

    /// <summary>The three coefficients of <see cref="DensityKgPerM3"/> in <c>x = T − 293.15 K</c>: at 20 °C, per K, per K².</summary>
    /// <param name="moisturePercent">Moisture, %.</param>
    internal static (double At20C, double PerK, double PerK2) CoefficientsAt(double moisturePercent) =>
        (WaterAt20CKgPerM3 * Wedmore1955SpecificGravity(moisturePercent), SlopeAt20CKgPerM3K, CurvatureKgPerM3K2);

    private static double ChangeFrom20CKgPerM3(double temperatureC)
    {
        double x = temperatureC - 20;
        return x * (SlopeAt20CKgPerM3K + CurvatureKgPerM3K2 * x);
    }
}
