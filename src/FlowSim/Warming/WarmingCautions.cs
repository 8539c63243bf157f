using static System.FormattableString;

namespace FlowSim.Warming;

/// <summary>The reminders that go with warming honey.</summary>
internal static class WarmingCautions
{
    /// <summary>Temperature of a surface from which it is said to burn at a touch, °C (bare metal, contact of 1 s: 65 to 70 °C by ISO 13732-1).</summary>
    public const double BurnsAtATouchFromC = 65;

    /// <summary>Setpoint from which a kit is taken to heat rather than to cool, °C (engineering choice).</summary>
    public const double HeatsFromC = 25;

    private static readonly Source s_touch = new("ISO 13732-1, burn threshold of bare metal, contact of 1 s: 65 to 70 °C", Standing.FromMemory);

    private static readonly Source s_expansion = new("Density of honey against temperature, as this library gives it: 1.0 % between 20 and 45 °C", Standing.Derived);

    private static readonly Caution s_looseLid = new(
        "do-not-seal",
        "Do not seal a vessel that is being warmed. Honey expands, about 1 % from 20 to 45 °C: leave the lid loose and room above the honey.",
        s_expansion);

    private static readonly Caution s_cutOut = new(
        "cut-out",
        "This plan has no over-temperature cut-out. A thermostat that sticks heats on: do not leave the heater alone without one.",
        Cautions.Trade);

    /// <summary>Cautions of a run.</summary>
    /// <param name="hottestSurfaceK">Hottest surface that touched honey, K.</param>
    /// <param name="hottestHoneyK">Hottest honey, K.</param>
    /// <param name="vesselKg">Honey in one vessel, kg. What the vessel itself weighs is not known.</param>
    /// <param name="kit">Kit.</param>
    public static IReadOnlyList<Caution> For(double hottestSurfaceK, double hottestHoneyK, double vesselKg, HeatingKit kit)
    {
        var cautions = new List<Caution>(9);
        if (Cautions.Scald(hottestHoneyK, "Keep hands out of it.", "Gloves, sleeves, no bare hands near it.") is { } scald)
            cautions.Add(scald);
        if (HotSurface(hottestSurfaceK) is { } surface)
            cautions.Add(surface);
        if (Cautions.Lift(vesselKg, "The honey of one vessel weighs", ", and the vessel, whose weight is not known here, comes on top") is { } lift)
            cautions.Add(lift);
        if (Heats(kit))
        {
            cautions.Add(new Caution("electricity", Electricity(kit), Cautions.Trade));
            cautions.Add(s_looseLid);
            if (kit.Thermostat.CutOut is null)
                cautions.Add(s_cutOut);
        }

        cautions.Add(Cautions.Slip);
        cautions.Add(Cautions.Infants);
        cautions.Add(Cautions.LocalRules);
        return cautions;
    }

    private static Caution? HotSurface(double surfaceK)
    {
        double celsius = surfaceK - Physical.ZeroCelsiusK;
        if (EquipmentCheck.IsWithin(celsius, BurnsAtATouchFromC, double.PositiveInfinity))
            return new Caution("hot-surface", Invariant($"Wall or element reach {celsius:0} °C: hot metal burns at a touch, and for a while after the heater is off."), s_touch);
        if (EquipmentCheck.IsWithin(celsius, Cautions.ScaldFromC, double.PositiveInfinity))
            return new Caution("hot-surface", Invariant($"Wall or element reach {celsius:0} °C: do not hold or lean on them, and let them cool before you clean."), Cautions.Scalds);
        return null;
    }

    private static bool Heats(HeatingKit kit) => kit.Thermostat.Schedule.Any(step => step.Setpoint.DegreesCelsius >= HeatsFromC);

    private static string Electricity(HeatingKit kit) => kit switch
    {
        HeatedBath => "Electricity near water: a circuit with a residual-current device (RCD, GFCI), plugs high and dry, power off before a hand goes in." + Work,
        HeatedJacket => "Electricity near water: a circuit with a residual-current device (RCD, GFCI), and power off before you fill, drain or open the jacket." + Work,
        BandHeater => "A band on a sticky vessel: a circuit with a residual-current device (RCD, GFCI), and only a band made for this size and wall; plastic softens." + Work,
        ImmersionHeater => "An element in honey: a circuit with a residual-current device (RCD, GFCI), made for food, off before the honey falls below it or it is lifted out." + Work,
        _ => "An electric heater in a room or cabinet: a circuit with a residual-current device (RCD, GFCI), clear of drips and of all that burns." + Work,
    };

    private const string Work = " Follow its maker; wiring is licensed work.";
}
