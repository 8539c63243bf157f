namespace FlowSim.Settling;

/// <summary>The reminders that go with honey that stands warm and is skimmed.</summary>
internal static class SettlingCautions
{
    private static readonly Caution s_cover = new(
        "cover",
        "Cover honey that stands: it draws water from damp air, and wet honey ferments. A lid also keeps insects and dust out.",
        Cautions.Trade);

    public static IReadOnlyList<Caution> For(SettlingParameters p) =>
    [
        .. Given(Cautions.Scald(p.WhileItStands.HottestK, "Skim with a long tool.", "Skim with a long tool; gloves, sleeves, no bare hands near it.")),
        .. Given(Cautions.Lift(p.Setup.HoneyMass?.Kilograms ?? 0, "The layer weighs")),
        s_cover,
        Cautions.Slip,
        Cautions.Infants,
        Cautions.LocalRules,
    ];

    private static IEnumerable<Caution> Given(Caution? caution) => caution is null ? [] : [caution];
}
