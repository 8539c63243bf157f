namespace FlowSim.Properties;

/// <summary>Thermal conductivity measured on honey itself by Helvey 1954, as far as copies of two of the figures go. 1.6 times <see cref="RiedelConductivity"/>.</summary>
public sealed class HelveyConductivity : ConductivityCorrelation
{
    private const double LowTemperatureC = 21;
    private const double HighTemperatureC = 71;
    private const double AtLowWPerMK = 0.536;
    private const double AtHighWPerMK = 0.595;

    /// <inheritdoc/>
    public override string Name => "helvey";

    /// <inheritdoc/>
    public override Source Source { get; } = new(
        "Helvey 1954, Food Research 19:282 (attribution from memory); the two figures at 17 % moisture as given in a trade specification sheet",
        Standing.SecondaryCopy);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("helvey conductivity", "moisture", "%", 16, 18, 12, 23);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; } = new("helvey conductivity", "temperature", "°C", LowTemperatureC, HighTemperatureC, 0, 80);

    /// <inheritdoc/>
    protected internal override double ConductivityWPerMK(double moisturePercent, double temperatureK) => Helvey1954(temperatureK);

    /// <summary>Thermal conductivity of honey near 17 % moisture, W/(m·K).</summary>
    /// <remarks>
    /// <para><b>Equation</b>: straight line through 0.536 W/(m·K) at 21 °C and 0.595 at 71 °C. Copies that name other
    /// moistures put the effect at about −0.003 per %, which is left out.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: ± 0.02 between copies; but 1.6 times what sugar solutions of the same moisture conduct, and the
    /// conflict is not settled.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>; the paper and its table were not opened.</para>
    /// <para><b>Checked by</b>: Helvey1954Tests.cs.</para>
    /// </remarks>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double Helvey1954(double temperatureK)
    {
        double share = (temperatureK - Physical.ZeroCelsiusK - LowTemperatureC) / (HighTemperatureC - LowTemperatureC);
        return AtLowWPerMK + share * (AtHighWPerMK - AtLowWPerMK);
    }
}
