namespace FlowSim.FieldMeasurements;

/// <summary>Reminders for those who measure.</summary>
internal static class MeasurementCautions
{
    /// <summary>Of every measurement on warm honey.</summary>
    /// <param name="sample">The honey.</param>
    public static IEnumerable<Caution> Of(HoneySample sample)
    {
        if (FlowSim.Cautions.Scald(sample.Temperature.Kelvins, "Keep the sample small and hands out of it.", "Wear gloves and long sleeves, and keep the sample small.") is { } scald)
            yield return scald;
    }

    /// <summary>Glass with warm honey in it.</summary>
    public static Caution Glass { get; } = new(
        "glass",
        "Glass cracks when it is warmed or cooled in a hurry: warm it slowly, stand it in a pan, and throw the honey away if it breaks.",
        FlowSim.Cautions.Trade);

    /// <summary>Balls in honey.</summary>
    public static Caution ForeignBody { get; } = new(
        "foreign-body",
        "Count the balls in and out: one that stays in the honey is a foreign body. Keep what was measured apart from what is sold, unless ball and jar are meant for food and clean.",
        FlowSim.Cautions.Trade);

    /// <summary>Cups made for paint.</summary>
    public static Caution PaintCup { get; } = new(
        "paint-cup",
        "A cup or tube that has held paint is not for food: throw the honey away after measuring.",
        FlowSim.Cautions.Trade);
}
