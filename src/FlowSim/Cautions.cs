using static System.FormattableString;

namespace FlowSim;

/// <summary>Reminders that every process with warm honey gives: the one home of their thresholds and sources.</summary>
internal static class Cautions
{
    /// <summary>Temperature from which a scald is warned of, °C (engineering choice from published times to a serious burn by hot water: about 10 min at 49 °C).</summary>
    public const double ScaldFromC = 48;

    /// <summary>Temperature from which it is warned of strongly, °C (same sources: about 30 s at 54 to 55 °C).</summary>
    public const double StrongScaldFromC = 54;

    /// <summary>Weight above which lifting by one person is warned of, kg: the load constant of the revised NIOSH lifting equation.</summary>
    public const double LiftFromKg = 23;

    /// <summary>Times to a serious burn.</summary>
    public static Source Scalds { get; } = new(
        "Pages of a children's hospital and of a maker of mixing valves on scalds by water: 10 min or less at 49 °C, 30 s at 54 to 55 °C, under 5 s at 60 °C",
        Standing.SecondaryCopy);

    /// <summary>Common practice.</summary>
    public static Source Trade { get; } = new("common practice, no source", Standing.CommonPractice);

    private static readonly Source s_niosh = new(
        "NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation, load constant 23 kg: as given by the Canadian Centre for Occupational Health and Safety",
        Standing.SecondaryCopy);

    private static readonly Source s_infants = new(
        "Institut national de santé publique du Québec, \"Honey — never for babies under age 1\"",
        Standing.Opened);

    /// <summary>Hot honey; null below <see cref="ScaldFromC"/>.</summary>
    /// <param name="honeyK">Temperature of the honey, K.</param>
    /// <param name="advice">What to do about it.</param>
    /// <param name="strongAdvice">What to do from <see cref="StrongScaldFromC"/>.</param>
    public static Caution? Scald(double honeyK, string advice, string strongAdvice)
    {
        double celsius = honeyK - Physical.ZeroCelsiusK;
        if (EquipmentCheck.IsWithin(celsius, StrongScaldFromC, double.PositiveInfinity))
            return new Caution("scald", Invariant($"Honey at {celsius:0} °C burns within seconds and clings. {strongAdvice}"), Scalds);
        if (EquipmentCheck.IsWithin(celsius, ScaldFromC, double.PositiveInfinity))
            return new Caution("scald", Invariant($"Honey at {celsius:0} °C can burn in minutes, and it clings. {advice}"), Scalds);
        return null;
    }

    /// <summary>A weight that one person should not lift; null up to <see cref="LiftFromKg"/>.</summary>
    /// <param name="kilograms">The weight, kg.</param>
    /// <param name="holds">What weighs as much, up to the number.</param>
    /// <param name="besides">What comes on top of the number; empty for nothing.</param>
    public static Caution? Lift(double kilograms, string holds, string besides = "") => kilograms > LiftFromKg
        ? new Caution("lift", Invariant($"{holds} {kilograms:0.0} kg{besides}: more than the {LiftFromKg:0} kg that one person should lift at best. Move it by hoist, pump or gravity."), s_niosh)
        : null;

    /// <summary>An open gate.</summary>
    public static Caution OpenGate { get; } = new("open-gate", "An open gate makes no sound. Stay with it, or shut it before you leave.", Trade);

    /// <summary>Honey on the floor.</summary>
    public static Caution Slip { get; } = new("slip", "Warm honey on the floor is slippery and spreads. Wipe it up at once.", Trade);

    /// <summary>Who must not eat it.</summary>
    public static Caution Infants { get; } = new("infants", "Honey is not for infants under 12 months; warming and straining do not change that.", s_infants);

    /// <summary>What comes first.</summary>
    public static Caution LocalRules { get; } = new("local-rules", "Local food law, electrical and labelling rules, and licensed practice come first.", Trade);
}
