namespace FlowSim.ShelfLife;

/// <summary>How soon a honey is expected to granulate.</summary>
public enum GranulationTendency
{
    /// <summary>The glucose is not known; a floral name does not tell.</summary>
    Unknown,

    /// <summary>Stays liquid for a long time.</summary>
    Slow,

    /// <summary>Between the two.</summary>
    Between,

    /// <summary>Granulates soon.</summary>
    Fast,
}

/// <summary>Glucose over water as a sign of how soon a honey granulates.</summary>
public static class Granulation
{
    /// <summary>Ratio below which it stays liquid for long, and above which it granulates soon.</summary>
    public const double SlowBelow = 1.7, FastAbove = 2.1;

    /// <summary>Where the figures come from.</summary>
    public static Source Source { get; } = new(
        "Glucose/water below 1.7 liquid for long, above 2.1 soon granulated: White 1962, USDA TB 1261, as a public page gives it; a review of 1999 names the same ratio",
        Standing.SecondaryCopy);

    /// <summary>Range of the glucose, % by mass.</summary>
    public static ValidityRange GlucoseRange { get; } = new("granulation", "glucose", "%", 20, 45, 10, 60);

    /// <summary>The tendency of a ratio.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: slow below 1.7, fast above 2.1, between the two otherwise.</para>
    /// <para><b>Range</b>: <see cref="GlucoseRange"/>.</para>
    /// <para><b>Error</b>: a tendency over many honeys: seed crystals, heating, straining and the temperature of the store move single honeys across classes.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: WhiteGranulation1962Tests.cs.</para>
    /// </remarks>
    /// <param name="glucoseOverWater">Glucose over water, both by mass.</param>
    internal static GranulationTendency OfRatioWhite1962(double glucoseOverWater) =>
        glucoseOverWater < SlowBelow ? GranulationTendency.Slow
        : glucoseOverWater > FastAbove ? GranulationTendency.Fast
        : GranulationTendency.Between;
}
