namespace FlowSim.Console.Quantities;

/// <summary>What a quantity measures.</summary>
internal enum Dimension
{
    Temperature,
    Length,
    Volume,
    Mass,
    Duration,
    Viscosity,
    Share,
    Density,
    HeatTransfer,
    TemperatureDifference,
    Power,
    HeatCapacity,
    Area,
    Speed,
    Content,
}

/// <summary>What messages say about a dimension, and the least value nature allows.</summary>
/// <param name="Name">Name with its article, as in "a length".</param>
/// <param name="Example">One way of writing it.</param>
/// <param name="LeastSi">Least possible value, in the SI unit of <see cref="Units"/>.</param>
/// <param name="LeastText">That value as people write it.</param>
internal sealed record DimensionFacts(string Name, string Example, double LeastSi, string LeastText)
{
    private static readonly DimensionFacts[] s_all =
    [
        new("a temperature", "35 °C", 0, "0 K = -273.15 °C = -459.67 °F"),
        new("a length", "38 mm", 0, "0 mm"),
        new("a volume", "19 L", 0, "0 L"),
        new("a mass", "60 lb", 0, "0 kg"),
        new("a time", "12 min", 0, "0 s"),
        new("a viscosity", "3 Pa.s", 0, "0 Pa.s"),
        new("a share", "17.8 %", 0, "0 %"),
        new("a density", "960 kg/m3", 0, "0 kg/m3"),
        new("a heat-transfer coefficient", "6 W/m2K", 0, "0 W/m2K"),
        new("a difference of temperatures", "2 K", 0, "0 K"),
        new("a power", "1500 W", 0, "0 W"),
        new("a heat capacity", "30 kJ/K", 0, "0 kJ/K"),
        new("an area", "6 m2", 0, "0 m2"),
        new("a speed", "0.5 m/s", 0, "0 m/s"),
        new("a content", "5 mg/kg", 0, "0 mg/kg"),
    ];

    public static DimensionFacts Of(Dimension dimension) => s_all[(int)dimension];
}
