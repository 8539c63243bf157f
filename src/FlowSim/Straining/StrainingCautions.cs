namespace FlowSim.Straining;

/// <summary>The reminders that go with straining warm honey.</summary>
internal static class StrainingCautions
{
    public static IReadOnlyList<Caution> For(StrainingParameters p) =>
    [
        .. Given(Cautions.Scald(p.StartTankK, "Keep hands out of the pond.", "Gloves, sleeves, no bare hands near the gate.")),
        .. Given(Cautions.Lift(p.StartTankKg, "The tank holds")),
        Cautions.OpenGate,
        Cautions.Slip,
        Cautions.Infants,
        Cautions.LocalRules,
    ];

    private static IEnumerable<Caution> Given(Caution? caution) => caution is null ? [] : [caution];
}
