using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Glucose crystals in granulated honey, and the temperatures between which they melt.</summary>
/// <remarks>They melt evenly over the range and do not come back within a run: what is left follows the highest temperature that the honey has had.</remarks>
public sealed record Crystals
{
    /// <summary>Source of the melting ranges.</summary>
    public static Source MeltingSource { get; } = new(
        "Lupano 1997, \"DSC study of honey granulation stored at various temperatures\", Food Res. Int. 30(9):683-688: coarse crystals grown at 20 °C melted between 45 and 65 °C, the fine ones of honey kept at −20 °C between 25 and 45 °C",
        Standing.AbstractOnly);

    /// <summary>Standing of the default amount.</summary>
    public static Source AmountSource { get; } = new("Crystals of a set honey: about 15 % of its mass, between 10 and 20 %", Standing.FromMemory);

    /// <summary>Crystals (glucose monohydrate), share of mass. 0 to 40 %. Default 15 %: see <see cref="AmountSource"/>.</summary>
    public Ratio Share { get; init; } = Ratio.FromPercent(15);

    /// <summary>Temperature at which the first melt. 10 to 90 °C.</summary>
    public required Temperature MeltFrom { get; init; }

    /// <summary>Temperature at which the last are gone: at least 0.5 K above <see cref="MeltFrom"/>, at most 95 °C.</summary>
    public required Temperature MeltTo { get; init; }

    /// <summary>Fine, creamy granulation: 25 to 45 °C.</summary>
    /// <param name="share">Share of mass; null takes the default.</param>
    public static Crystals Fine(Ratio? share = null) => Of(25, 45, share);

    /// <summary>Coarse granulation: 45 to 65 °C.</summary>
    /// <param name="share">Share of mass; null takes the default.</param>
    public static Crystals Coarse(Ratio? share = null) => Of(45, 65, share);

    private static Crystals Of(double fromC, double toC, Ratio? share)
    {
        var crystals = new Crystals { MeltFrom = Temperature.FromDegreesCelsius(fromC), MeltTo = Temperature.FromDegreesCelsius(toC) };
        return share is { } given ? crystals with { Share = given } : crystals;
    }
}
