namespace FlowSim.Properties;

/// <summary>How far honeys of equal moisture and temperature differ in viscosity.</summary>
/// <remarks>
/// The natural logarithm of the lot factor is taken as normal about 0 with <see cref="LogStandardDeviation"/>. Engineering
/// choice from seven published values; the true upper tail is heavier (one packer's figure lies at +0.83). Timing a drain of
/// the honey at hand narrows it to the error of the timing.
/// </remarks>
public static class LotFactorSpread
{
    /// <summary>Standard deviation of the natural logarithm of the lot factor.</summary>
    public const double LogStandardDeviation = 0.30;

    /// <summary>Range a lot factor may be given in.</summary>
    public static ValidityRange Range { get; } = new("viscosity", "lot factor", "", 0.05, 20);

    /// <summary>Standing of <see cref="LogStandardDeviation"/>.</summary>
    public static Source Source { get; } = new("Spread of seven published viscosities about the vogel correlation", Standing.EngineeringChoice);
}
