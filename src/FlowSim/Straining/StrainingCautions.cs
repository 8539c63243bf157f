using static System.FormattableString;

namespace FlowSim.Straining;

/// <summary>The reminders that go with straining warm honey.</summary>
internal static class StrainingCautions
{
    /// <summary>Temperature from which a scald is warned of, °C (engineering choice from published times to a serious burn by hot water: about 10 min at 49 °C).</summary>
    public const double ScaldFromC = 48;

    /// <summary>Temperature from which it is warned of strongly, °C (same source: about 30 s at 55 °C).</summary>
    public const double StrongScaldFromC = 54;

    /// <summary>Weight above which lifting by one person is warned of, kg: the load constant of the revised NIOSH lifting equation.</summary>
    public const double LiftFromKg = 23;

    private static readonly Source Hospitals = new("public hospital pages on scalds: time to a serious burn by water", Standing.SecondaryCopy);
    private static readonly Source Niosh = new("NIOSH 94-110, revised lifting equation, load constant 23 kg", Standing.FromMemory);
    private static readonly Source Trade = new("common practice, no source", Standing.CommonPractice);
    private static readonly Source Infants = new("public-health advice on infant botulism", Standing.FromMemory);

    public static IReadOnlyList<Caution> For(StrainingParameters p)
    {
        var cautions = new List<Caution>(6);
        double celsius = p.StartTankK - Physical.ZeroCelsiusK;
        if (celsius >= StrongScaldFromC)
            cautions.Add(new Caution("scald", Invariant($"Honey at {celsius:0} °C burns within seconds and clings. Gloves, sleeves, no bare hands near the gate."), Hospitals));
        else if (celsius >= ScaldFromC)
            cautions.Add(new Caution("scald", Invariant($"Honey at {celsius:0} °C can burn in minutes, and it clings. Keep hands out of the pond."), Hospitals));
        if (p.StartTankKg > LiftFromKg)
            cautions.Add(new Caution("lift", Invariant($"The tank holds {p.StartTankKg:0.0} kg: more than the {LiftFromKg:0} kg that one person should lift at best. Move it by hoist, pump or gravity."), Niosh));
        cautions.Add(new Caution("open-gate", "An open gate makes no sound. Stay with it, or shut it before you leave.", Trade));
        cautions.Add(new Caution("slip", "Warm honey on the floor is slippery and spreads. Wipe it up at once.", Trade));
        cautions.Add(new Caution("infants", "Honey is not for infants under 12 months; warming and straining do not change that.", Infants));
        cautions.Add(new Caution("local-rules", "Local food law, electrical and labelling rules, and licensed practice come first.", Trade));
        return cautions;
    }
}
