using static System.FormattableString;

namespace FlowSim.Bottling;

/// <summary>The reminders that go with filling jars.</summary>
internal static class FillingCautions
{
    /// <summary>Temperature from which cold glass is warned of, °C (common practice).</summary>
    public const double GlassFromC = 40;

    private static readonly Caution s_weights = new(
        "weights",
        "Local weights-and-measures law decides what a label may say and how a lot is checked; a chance within the limit you set is no proof. Weigh on a scale that is tested for trade, and weigh jars through the day.",
        Cautions.Trade);

    private static readonly Caution s_glass = new(
        "glass",
        "Cold glass cracks with hot honey: warm the jars first, look for chips, and throw away what was in a jar that breaks.",
        Cautions.Trade);

    public static IReadOnlyList<Caution> For(FillingSetup setup, FillingParameters p, TargetFill target)
    {
        double caseKg = setup.JarsPerCase * target.Target.Kilograms;
        return
        [
            .. Given(Cautions.Scald(p.StartK, "Keep hands out of the stream.", "Gloves, sleeves, and no bare hands near gate and jars.")),
            .. Given(p.StartK - Physical.ZeroCelsiusK >= GlassFromC ? s_glass : null),
            .. Given(Cautions.Lift(p.StartKg, "The tank holds")),
            .. Given(Cautions.Lift(caseKg, Invariant($"A case of {setup.JarsPerCase} holds"), " of honey, and the jars")),
            Cautions.Slip,
            s_weights,
            Cautions.Infants,
            Cautions.LocalRules,
        ];
    }

    private static IEnumerable<Caution> Given(Caution? caution) => caution is null ? [] : [caution];
}
