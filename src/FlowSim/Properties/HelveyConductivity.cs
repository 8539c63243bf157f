namespace FlowSim.Properties;

/// <summary>Thermal conductivity of honey after the measurements of Helvey 1954: one value, for honey near 17 % and 20 °C.</summary>
public sealed class HelveyConductivity : ConductivityCorrelation
{
    private const double MeasuredWPerMK = 0.54;

    /// <inheritdoc/>
    public override string Name => "helvey";

    /// <inheritdoc/>
    public override Source Source { get; } = new("Helvey 1954, Food Research 19:282", Standing.SecondaryCopy);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("helvey conductivity", "moisture", "%", 16, 18, 13, 23);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; } = new("helvey conductivity", "temperature", "°C", 15, 25, 0, 80);

    /// <inheritdoc/>
    protected internal override double ConductivityWPerMK(double moisturePercent, double temperatureK) => MeasuredWPerMK;
}
