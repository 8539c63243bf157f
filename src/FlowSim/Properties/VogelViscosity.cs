namespace FlowSim.Properties;

/// <summary>Viscosity of liquid honey by a Vogel law whose ideal-glass temperature moves with the moisture. The library's default.</summary>
public sealed class VogelViscosity : ViscosityCorrelation
{
    private const double A = -11.0449;
    private const double BKelvin = 1449.73;
    private const double T0AtReferenceK = 187.31;
    private const double T0SlopeKPerPercent = -3.7019;
    private const double ReferenceMoisturePercent = 17;

    /// <inheritdoc/>
    public override string Name => "vogel";

    /// <inheritdoc/>
    public override Source Source { get; } = new(
        "Least-squares fit of this project to 25 figures: White, Honey, in USDA Agriculture Handbook 335 (22 figures, from memory), and the rosemary honey in the abstract of Pol. J. Food Nutr. Sci. 2018, 68(3):217-222 (3 figures); the two series without a stated moisture each had it as an unknown",
        Standing.Derived);

    /// <inheritdoc/>
    public override ValidityRange MoistureRange { get; } = new("vogel viscosity", "moisture", "%", 14, 21, 13.5, 21.5);

    /// <inheritdoc/>
    public override ValidityRange TemperatureRange { get; } = new("vogel viscosity", "temperature", "°C", 12, 60, 10, 70);

    /// <inheritdoc/>
    public override double LogResidual => 0.120;

    /// <inheritdoc/>
    protected internal override double ViscosityPaS(double moisturePercent, double temperatureK) =>
        VogelFit(moisturePercent, temperatureK);

    /// <summary>Viscosity of liquid, crystal-free, Newtonian honey, Pa·s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ln μ = A + B/(T − T0), T0 = 187.31 − 3.7019 (w − 17); μ in Pa·s, T and T0 in K, w in % by mass;
    /// A = −11.0449, B = 1449.73 K (Vogel 1921, Fulcher 1925, Tammann and Hesse 1926).</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="TemperatureRange"/>. The data form a cross: moisture was
    /// varied at 25 °C, temperature at about 16 %.</para>
    /// <para><b>Error</b>: root-mean-square residual of ln μ 0.120 (<see cref="LogResidual"/>); a factor 1.5 to 1.8 in the
    /// corners away from the cross, though in the warm ones a table that was not fitted (45 °C, 16.6 to 22 %) runs parallel
    /// within 3 % from a level 22 % lower; above 50 °C two sources disagree on the slope by 15 to 20 %. Other honeys of the
    /// same moisture differ by the lot factor (<see cref="LotFactorSpread"/>).</para>
    /// <para><b>Source</b>: fitted for this project; see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WhiteHandbook335Tests.cs, BeekeepingDictionary45CTests.cs, PolishHoneys2006Tests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w, % by mass.</param>
    /// <param name="temperatureK">Temperature T, K, above T0.</param>
    internal static double VogelFit(double moisturePercent, double temperatureK)
    {
        double t0K = T0Kelvin(moisturePercent);
        return Math.Exp(A + BKelvin / (temperatureK - t0K));
    }

    /// <inheritdoc/>
    internal override VogelForm? FormAt(double moisturePercent) => new VogelForm(A, BKelvin, T0Kelvin(moisturePercent));

    private static double T0Kelvin(double moisturePercent) => T0AtReferenceK + T0SlopeKPerPercent * (moisturePercent - ReferenceMoisturePercent);
}
