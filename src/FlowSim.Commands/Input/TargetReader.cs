using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads what a warming run is to reach.</summary>
internal static class TargetReader
{
    /// <summary>Reads <c>[until]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="from">Temperature of the honey at the start; null when it could not be read.</param>
    /// <param name="strainAt">Temperature with which straining begins; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static (IReadOnlyList<WarmingTarget> Targets, Duration? Hold, Duration? Longest) Read(Section section, Temperature? from, Temperature? strainAt, Journal journal)
    {
        List<WarmingTarget> targets = [];
        if (section.Quantity(Keys.Until.Mean) is { } meanK)
            targets.Add(WarmingTarget.Mean(Temperature.FromKelvins(meanK)));
        if (section.Quantity(Keys.Until.Coldest) is { } coldestK)
            targets.Add(WarmingTarget.Coldest(Temperature.FromKelvins(coldestK)));
        if (section.Quantity(Keys.Until.Thin) is { } thin)
            targets.Add(WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(thin)));
        if (section.Flag(Keys.Until.NoCrystals) == true)
            targets.Add(WarmingTarget.NoCrystals);
        if (section.Quantity(Keys.Until.CooledTo) is { } cooledK)
            targets.Add(WarmingTarget.CooledTo(Temperature.FromKelvins(cooledK)));
        if (section.Quantity(Keys.Until.Thick) is { } thick)
            targets.Add(WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(thick)));
        double? holdS = section.Quantity(Keys.Until.Hold);
        double? longestS = section.Quantity(Keys.Until.Longest);
        section.RefuseStrangers();

        bool asked = new[] { Keys.Until.Mean, Keys.Until.Coldest, Keys.Until.Thin, Keys.Until.CooledTo, Keys.Until.Thick }.Any(section.Has) || targets.Count > 0;
        if (!asked && from is { } start && strainAt is { } wanted)
            AddFallback(targets, start, wanted, journal);
        return (targets, holdS is { } hold ? Duration.FromSeconds(hold) : null, longestS is { } longest ? Duration.FromSeconds(longest) : null);
    }

    /// <summary>Nobody said what is wanted: the temperature with which the same file strains.</summary>
    private static void AddFallback(List<WarmingTarget> targets, Temperature from, Temperature wanted, Journal journal)
    {
        bool cooling = wanted < from;
        string text = FormattableString.Invariant($"{wanted.DegreesCelsius:0.#} °C, the temperature in [honey] with which straining begins");
        targets.Add(cooling ? WarmingTarget.CooledTo(wanted) : WarmingTarget.Mean(wanted));
        journal.Assume(
            (cooling ? Keys.Until.CooledTo : Keys.Until.Mean).ToString(),
            (cooling ? "until the mean is down to " : "until the mean is at ") + text,
            Standing.EngineeringChoice);
    }
}
