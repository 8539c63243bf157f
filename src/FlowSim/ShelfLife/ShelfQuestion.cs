using UnitsNet;

namespace FlowSim.ShelfLife;

/// <summary>What is known of a honey that is to stand on a shelf.</summary>
public sealed record ShelfQuestion
{
    /// <summary>Moisture of the whole honey, share of mass. 12 to 23 %.</summary>
    public required Ratio Moisture { get; init; }

    /// <summary>Living yeasts in a gram; null when nobody counted. 0 to 1000000000.</summary>
    public double? YeastsPerGram { get; init; }

    /// <summary>Glucose, share of mass; null when nobody measured it. 10 to 60 %.</summary>
    public Ratio? Glucose { get; init; }

    /// <summary>Crystals in it already, as glucose monohydrate, share of mass. 0 to 40 %. Default none.</summary>
    public Ratio Crystals { get; init; } = Ratio.Zero;

    /// <summary>Throws when a value is out of its range.</summary>
    internal void Require()
    {
        EquipmentCheck.Within(Moisture.Percent, 12, 23, "%", nameof(Moisture));
        if (YeastsPerGram is { } yeasts)
            EquipmentCheck.Within(yeasts, 0, 1e9, "1/g", nameof(YeastsPerGram));
        if (Glucose is { } glucose)
            EquipmentCheck.Within(glucose.Percent, Granulation.GlucoseRange.OuterLow, Granulation.GlucoseRange.OuterHigh, "%", nameof(Glucose));
        EquipmentCheck.Within(Crystals.Percent, 0, 40, "%", nameof(Crystals));
    }
}
