namespace FlowSim.Properties;

/// <summary>Thermal conductivity of honey taken as that of a sugar solution of the same moisture. The library's default.</summary>
public sealed class RiedelConductivity : ConductivityCorrelation
{
    /// <inheritdoc/>
    public override string Name => "riedel";

    /// <inheritdoc/>
    public override Source Source { get; } = new("Riedel 1949, Chem.-Ing.-Tech. 21:340, sugar solutions", Standing.FromMemory);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("riedel conductivity", "moisture", "%", 13, 23, 10, 30);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; } = new("riedel conductivity", "temperature", "°C", 10, 70, 0, 80);

    /// <inheritdoc/>
    protected internal override double ConductivityWPerMK(double moisturePercent, double temperatureK) =>
        Riedel1949(moisturePercent, temperatureK);

    /// <summary>Thermal conductivity of a sugar solution, W/(m·K).</summary>
    /// <remarks>
    /// <para><b>Equation</b>: λ = 1.73·10⁻³ (326.58 + 1.0412 t − 0.00337 t²)(0.46 + 0.54 w/100); t in °C, w in % by mass.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>; for honey the limits are an
    /// engineering choice: the formula is for sugar solutions and honey is at their thick end.</para>
    /// <para><b>Error</b>: within 2 % of another equation for sucrose solutions at 79 to 87 % and 10 to 70 °C; but measurements on
    /// honey itself read 1.6 times higher (see <see cref="HelveyConductivity"/>).</para>
    /// <para><b>Source</b>: Riedel 1949, Chem.-Ing.-Tech. 21:340, from memory.</para>
    /// <para><b>Checked by</b>: Riedel1949Tests.cs, Llano2005Tests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    /// <param name="temperatureK">Temperature, K.</param>
    internal static double Riedel1949(double moisturePercent, double temperatureK)
    {
        double t = temperatureK - Physical.ZeroCelsiusK;
        return 1.73e-3 * (326.58 + t * (1.0412 - 0.00337 * t)) * (0.46 + 0.54 * moisturePercent / 100);
    }
}
