using FlowSim.HeatDamage;

namespace FlowSim.Commands.Output;

/// <summary>Heat damage and limits as text.</summary>
internal static class DamageText
{
    /// <summary>Gain of HMF as a band.</summary>
    /// <param name="damage">Damage.</param>
    public static string Hmf(HoneyHeatDamage damage) =>
        $"{Display.Hmf(damage.HmfGain.MilligramsPerKilogram)} mg/kg ({Display.Hmf(damage.HmfGainLow.MilligramsPerKilogram)} to {Display.Hmf(damage.HmfGainHigh.MilligramsPerKilogram)})";

    /// <summary>Diastase left as a band.</summary>
    /// <param name="damage">Damage.</param>
    public static string Diastase(HoneyHeatDamage damage) =>
        $"{Display.Share(damage.DiastaseLeft.DecimalFractions)} ({Bare(damage.DiastaseLeftLow)} to {Bare(damage.DiastaseLeftHigh)})";

    /// <summary>Days at 20 °C that cost as much.</summary>
    /// <param name="damage">Damage.</param>
    public static string Days(HoneyHeatDamage damage) =>
        $"{Display.Days(damage.EquivalentDaysAt20C.ByHmf)} by HMF, {Display.Days(damage.EquivalentDaysAt20C.ByDiastase)} by diastase";

    /// <summary>Days at 20 °C that cost as much, as a sentence.</summary>
    /// <param name="damage">Damage.</param>
    /// <param name="display">Units.</param>
    public static string DaysSentence(HoneyHeatDamage damage, Display display) =>
        $"The heat costs the honey as much as {DaysOf(damage.EquivalentDaysAt20C.ByHmf)} at {display.Temperature(293.15)} would by HMF, {DaysOf(damage.EquivalentDaysAt20C.ByDiastase)} by diastase.";

    /// <summary>Writes the limit, where it stands, and whether that was read.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="limit">Limit.</param>
    /// <param name="check">The check; null when the honey is not known before.</param>
    /// <param name="howToKnow">What to give so that it can be checked.</param>
    public static void WriteLimit(IPage page, HeatLimit limit, LimitCheck? check, string howToKnow)
    {
        page.Heading("Limit on HMF and diastase");
        if (check is null)
            page.Item("- ", $"Not checked: HMF and diastase at the start are not known. Measure them and give {howToKnow}.");
        page.Item("- ", $"{limit.Name}: {Values(limit)}, for {limit.AppliesTo}. {limit.Source.Citation} [{StandingText.Of(limit.Source.Standing)}]");
        page.Blank();
    }

    private static string DaysOf(double days) => Display.Days(days) is var text && text == "1" ? "1 day" : text + " days";

    private static string Values(HeatLimit limit) => string.Join(", ", new[]
    {
        limit.HmfAtMost is { } most ? $"HMF at most {Display.Plain(most.MilligramsPerKilogram)} mg/kg" : null,
        limit.DiastaseAtLeast is { } least ? $"diastase number at least {Display.Plain(least)}" : null,
    }.OfType<string>());

    private static string Bare(UnitsNet.Ratio share) => Display.Share(share.DecimalFractions).Split(' ')[0];
}
