namespace FlowSim.Properties;

/// <summary>Surface tension of honey against air: one value with a wide spread.</summary>
public static class HoneySurfaceTension
{
    /// <summary>The value, N/m.</summary>
    internal const double NewtonPerM = 0.055;

    /// <summary>Spread of the value, N/m.</summary>
    internal static readonly PropertySpread Spread = new(SpreadKind.Absolute, 0.006);

    /// <summary>Range of the moisture, % by mass.</summary>
    public static ValidityRange MoistureRange { get; } = new("surface tension", "moisture", "%", 13, 21, 12, 23);

    /// <summary>Range of the temperature, °C.</summary>
    public static ValidityRange TemperatureRange { get; } = new("surface tension", "temperature", "°C", 15, 50, 0, 80);

    /// <summary>Where it comes from.</summary>
    public static Source Source { get; } = new("Usual figure for honeys; it falls slowly as temperature rises", Standing.FromMemory);
}
