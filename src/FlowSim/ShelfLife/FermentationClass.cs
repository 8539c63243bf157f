namespace FlowSim.ShelfLife;

/// <summary>One class of moistures by how few yeasts keep a honey from fermenting within a year.</summary>
/// <param name="UpToPercent">Highest moisture of the class, %, as printed; infinite for the last.</param>
/// <param name="YeastsBelowPerGram">Yeasts per gram below which it did not ferment; infinite when it did not at any count, 0 when it may at any.</param>
public sealed record FermentationClass(double UpToPercent, double YeastsBelowPerGram);

/// <summary>Moisture and yeasts against fermentation within a year.</summary>
public static class FermentationClasses
{
    /// <summary>Where they come from.</summary>
    public static Source Source { get; } = new(
        "Lochhead 1933, Zentralbl. Bakteriol. II 88:296, as given in White, Honey, USDA Agriculture Handbook 335, and on a page of a manual of beekeeping",
        Standing.SecondaryCopy);

    /// <summary>Range of the moisture, % by mass.</summary>
    public static ValidityRange MoistureRange { get; } = new("fermentation classes", "moisture", "%", 13, 25, 10, 30);

    /// <summary>
    /// Driest first. The source prints "less than 17.1", "17.1 to 18.0", "18.1 to 19.0", "19.1 to 20.0", "above 20.0"; what lies between two printed figures
    /// belongs to the wetter class, the cautious side.
    /// </summary>
    public static IReadOnlyList<FermentationClass> All { get; } =
    [
        new(17.1, double.PositiveInfinity),
        new(18.0, 1000),
        new(19.0, 10),
        new(20.0, 1),
        new(double.PositiveInfinity, 0),
    ];

    /// <summary>The class of a moisture.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: a table of five rows, <see cref="All"/>.</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>.</para>
    /// <para><b>Error</b>: not known; drawn from 319 Canadian honeys of one age (from memory), stored warm enough for yeasts to grow.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: Lochhead1933Tests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture, % by mass.</param>
    internal static FermentationClass OfMoistureLochhead1933(double moisturePercent)
    {
        // The first class ends before its figure, the others with theirs; a moisture from a conversion may be a last digit beyond.
        double moisture = Math.Round(moisturePercent, 9);
        return moisture < All[0].UpToPercent ? All[0] : All.Skip(1).First(row => moisture <= row.UpToPercent);
    }

    /// <summary>What the class says of a count of yeasts.</summary>
    /// <param name="row">The class.</param>
    /// <param name="yeastsPerGram">Yeasts per gram; null when nobody counted.</param>
    internal static FermentationRisk RiskOf(FermentationClass row, double? yeastsPerGram) =>
        double.IsPositiveInfinity(row.YeastsBelowPerGram) ? FermentationRisk.NotExpected
        : row.YeastsBelowPerGram <= 0 ? FermentationRisk.Likely
        : yeastsPerGram is not { } count ? FermentationRisk.DependsOnYeasts
        : count < row.YeastsBelowPerGram ? FermentationRisk.NotExpected
        : FermentationRisk.Likely;
}

/// <summary>Whether a honey is expected to ferment within a year.</summary>
public enum FermentationRisk
{
    /// <summary>Honeys like it did not.</summary>
    NotExpected,

    /// <summary>It depends on the number of yeasts, which nobody counted.</summary>
    DependsOnYeasts,

    /// <summary>Honeys like it were liable to.</summary>
    Likely,
}
