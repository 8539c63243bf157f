using FlowSim.Numerics.Sampling;

namespace FlowSim.Commands.Quantities;

/// <summary>Ways of writing how far a value may lie from what is said.</summary>
internal enum SpreadKind
{
    /// <summary>Mean and standard deviation.</summary>
    Normal,

    /// <summary>Median and factor; the standard deviation of the logarithm is ln of the factor.</summary>
    LogNormal,

    /// <summary>Low and high end.</summary>
    Uniform,

    /// <summary>Low end, most likely value, high end.</summary>
    Triangular,

    /// <summary>Values that were measured.</summary>
    Empirical,
}

/// <summary>A spread as it was read.</summary>
/// <param name="Kind">Kind.</param>
/// <param name="Values">Its numbers, SI, in the order of <see cref="SpreadKind"/>; a factor is a plain number.</param>
/// <param name="Echo">What was read into a unit, to be shown to the writer; null when nothing was.</param>
/// <param name="Unit">Unit it was written in; null for a plain number.</param>
internal sealed record Spread(SpreadKind Kind, IReadOnlyList<double> Values, string? Echo = null, Unit? Unit = null)
{
    /// <summary>Whether it says that the value is known exactly, as "17.8 ± 0 %" does.</summary>
    public bool IsExact => Kind switch
    {
        SpreadKind.Normal => Values[1] == 0,
        SpreadKind.LogNormal => Values[1] == 1,
        _ => Values[0] == Values[^1] && Values.All(value => value == Values[0]),
    };

    /// <summary>The median: the value where one is needed.</summary>
    public double Middle => Kind is SpreadKind.Normal or SpreadKind.LogNormal || IsExact ? Values[0] : ToDistribution().Median;

    /// <summary>The distribution; a spread that is exact has none.</summary>
    public Distribution ToDistribution() => Kind switch
    {
        SpreadKind.Normal => new NormalDistribution(Values[0], Values[1]),
        SpreadKind.LogNormal => new LogNormalDistribution(Values[0], Math.Log(Values[1])),
        SpreadKind.Uniform => new UniformDistribution(Values[0], Values[1]),
        SpreadKind.Triangular => new TriangularDistribution(Values[0], Values[1], Values[2]),
        _ => new EmpiricalDistribution(Values),
    };

    /// <summary>The same spread in another measure, as of a mass that is to be a volume.</summary>
    /// <param name="factor">What one of the old measure is in the new one.</param>
    public Spread Times(double factor) =>
        this with { Values = [.. Values.Select((value, i) => Kind == SpreadKind.LogNormal && i == 1 ? value : value * factor)] };
}
