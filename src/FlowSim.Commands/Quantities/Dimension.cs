namespace FlowSim.Commands.Quantities;

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
/// <param name="ColumnUnit">SI unit as the names of columns write it.</param>
internal sealed record DimensionFacts(string Name, string Example, double LeastSi, string LeastText, string ColumnUnit)
{
    private static readonly DimensionFacts[] s_all =
    [
        new("a temperature", "35 °C", 0, "0 K = -273.15 °C = -459.67 °F", "K"),
        new("a length", "38 mm", 0, "0 mm", "m"),
        new("a volume", "19 L", 0, "0 L", "m3"),
        new("a mass", "60 lb", 0, "0 kg", "kg"),
        new("a time", "12 min", 0, "0 s", "s"),
        new("a viscosity", "3 Pa.s", 0, "0 Pa.s", "Pa_s"),
        new("a share", "17.8 %", 0, "0 %", "share"),
        new("a density", "960 kg/m3", 0, "0 kg/m3", "kg_per_m3"),
        new("a heat-transfer coefficient", "6 W/m2K", 0, "0 W/m2K", "W_per_m2K"),
        new("a difference of temperatures", "2 K", 0, "0 K", "K"),
        new("a power", "1500 W", 0, "0 W", "W"),
        new("a heat capacity", "30 kJ/K", 0, "0 kJ/K", "J_per_K"),
        new("an area", "6 m2", 0, "0 m2", "m2"),
        new("a speed", "0.5 m/s", 0, "0 m/s", "m_per_s"),
        new("a content", "5 mg/kg", 0, "0 mg/kg", "share"),
    ];

    public static DimensionFacts Of(Dimension dimension) => s_all[(int)dimension];
}
