namespace FlowSim.Properties;

/// <summary>Viscosity of liquid honey by an Arrhenius law with a log-linear moisture term. Simpler and rougher than <see cref="VogelViscosity"/>.</summary>
public sealed class ArrheniusViscosity : ViscosityCorrelation
{
    private const double LogViscosityAtReference = 2.1201;
    private const double TemperatureSlopeK = 9595.2;
    private const double ReferenceTemperatureK = 298.15;
    private const double MoistureSlopePerPercent = -0.4296;
    private const double ReferenceMoisturePercent = 17;

    /// <inheritdoc/>
    public override string Name => "arrhenius";

    /// <inheritdoc/>
    public override Source Source { get; } = new(
        "Least-squares fit of this project to the same 25 figures as the vogel correlation",
        Standing.Derived);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("arrhenius viscosity", "moisture", "%", 14, 21, 13.5, 21.5);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; } = new("arrhenius viscosity", "temperature", "°C", 12, 60, 10, 70);

    /// <inheritdoc/>
    public override double LogResidual => 0.18;

    /// <inheritdoc/>
    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK) =>
        ArrheniusFit(moisturePercent, temperatureK);

    /// <inheritdoc/>
    internal override VogelForm? FormAt(double moisturePercent) => new VogelForm(
        LogViscosityAtReference - TemperatureSlopeK / ReferenceTemperatureK + MoistureSlopePerPercent * (moisturePercent - ReferenceMoisturePercent),
        TemperatureSlopeK,
        0);

    /// <summary>Viscosity of liquid, crystal-free, Newtonian honey, Pa·s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ln μ = 2.1201 + 9595.2 (1/T − 1/298.15) − 0.4296 (w − 17); μ in Pa·s, T in K, w in % by mass.
    /// The temperature slope is an activation energy of 79.8 kJ/mol.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: root-mean-square residual of ln μ 0.18 (<see cref="LogResidual"/>). Honey curves in these
    /// coordinates: the law reads low below 20 °C and above 60 °C and high between. Its moisture slope is the same at all
    /// temperatures, which a table at 45 °C contradicts by a factor 1.5 between 16.6 and 20 %.</para>
    /// <para><b>Source</b>: fitted for this project; see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WhiteHandbook335Tests.cs, BeekeepingDictionary45CTests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    /// <param name="temperatureK">Temperature T, K.</param>
    internal static double ArrheniusFit(double moisturePercent, double temperatureK) => Math.Exp(
        LogViscosityAtReference
        + TemperatureSlopeK * (1 / temperatureK - 1 / ReferenceTemperatureK)
        + MoistureSlopePerPercent * (moisturePercent - ReferenceMoisturePercent));
}
