using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Limits as they were read.</summary>
/// <param name="Limits">The limits.</param>
/// <param name="CeilingIsGiven">Whether somebody set the ceiling, which is then said.</param>
/// <param name="Lowest">Lowest setpoint tried; null for the library's.</param>
/// <param name="ColdestStraining">Coldest mean at which straining is tried; null for the library's.</param>
/// <param name="OverflowTolerance">Chance of an overflow that is put up with; null when every figure is taken as exact.</param>
internal sealed record LimitInput(SetpointLimits Limits, bool CeilingIsGiven, Temperature? Lowest, Temperature? ColdestStraining, Ratio? OverflowTolerance = null);

/// <summary>Reads how the honey takes heat, and the limits on it.</summary>
internal static class HeatReader
{
    /// <summary>Reads <c>[heat]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static (HeatResponse Response, HoneyBeforeHeat? Before) Read(Section section, Journal journal)
    {
        double? hmf = section.Quantity(Keys.Heat.Hmf);
        double? diastase = section.Number(Keys.Heat.Diastase);
        string? law = section.Word(Keys.Heat.Law, [.. HmfRateLaws.All.Select(l => l.Name)], "rate law of HMF");
        double? multiplier = section.Number(Keys.Heat.FloralMultiplier);
        bool? spread = section.Flag(Keys.Heat.FloralSpread);
        section.RefuseStrangers();
        if (section.Has(Keys.Heat.Diastase) && !section.Has(Keys.Heat.Hmf))
            section.Missing(Keys.Heat.Hmf, "\"5 mg/kg\" beside the diastase number");

        HeatResponse response = new();
        if (law is not null)
            response = response with { Law = HmfRateLaws.ByName(law) };
        else
            journal.Assume(Keys.Heat.Law.ToString(), $"HMF by the rate law {response.Law.Name}", response.Law.Source.Standing);
        if (multiplier is { } factor)
            response = response with { FloralMultiplier = factor };
        else
            journal.Assume(Keys.Heat.FloralMultiplier.ToString(), FormattableString.Invariant($"floral multiplier {response.FloralMultiplier:0.##}; floral types differ by 12 times and more"), HeatResponse.FloralSource.Standing);
        if (spread is { } wide)
            response = response with { IncludeFloralSpread = wide };
        if (hmf is null)
        {
            if (!section.Has(Keys.Heat.Hmf))
                journal.Assume(Keys.Heat.Hmf.ToString(), "HMF and diastase at the start are not known: only what the heat adds can be told", Standing.EngineeringChoice);
            return (response, null);
        }

        return (response, new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(hmf.Value * 1e6), DiastaseNumber = diastase });
    }

    /// <summary>Reads <c>[limits]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static LimitInput ReadLimits(Section section, Journal journal)
    {
        section.Clash(Keys.Limits.Hmf, Keys.Limits.Heat);
        section.Clash(Keys.Limits.Diastase, Keys.Limits.Heat);
        string? name = section.Word(Keys.Limits.Heat, [.. HeatLimits.All.Select(limit => limit.Name)], "published limit");
        double? hmf = section.Quantity(Keys.Limits.Hmf);
        double? diastase = section.Number(Keys.Limits.Diastase);
        string? confidence = section.Word(Keys.Limits.Confidence, [.. Words.All<LimitConfidence>().Where(word => word != Words.Of(LimitConfidence.Broken))], "confidence");
        double? ceilingK = section.Quantity(Keys.Limits.Ceiling);
        double? wallK = section.Quantity(Keys.Limits.Wall);
        double? strainerK = section.Quantity(Keys.Limits.AtStrainer);
        double? handsK = section.Quantity(Keys.Limits.ForHands);
        double? strainingS = section.Quantity(Keys.Limits.LongestStraining);
        double? longestS = section.Quantity(Keys.Limits.Longest);
        double? lowestK = section.Quantity(Keys.Limits.LowestSetpoint);
        double? coldestK = section.Quantity(Keys.Limits.ColdestStraining);
        double? tolerance = section.Quantity(Keys.Limits.OverflowTolerance);
        section.RefuseStrangers();

        SetpointLimits limits = new();
        if (name is not null)
            limits = limits with { Heat = HeatLimits.ByName(name) };
        else if (hmf is not null || diastase is not null)
            limits = limits with { Heat = HeatLimit.House(hmf is { } most ? MassFraction.FromMilligramsPerKilogram(most * 1e6) : null, diastase) };
        else if (!section.Has(Keys.Limits.Hmf) && !section.Has(Keys.Limits.Diastase))
            journal.Assume(Keys.Limits.Heat.ToString(), $"limits of {limits.Heat.Authority}: {limits.Heat.AppliesTo}", limits.Heat.Source.Standing);
        if (confidence is not null)
            limits = limits with { Confidence = Words.Value<LimitConfidence>(confidence) };
        if (ceilingK is { } ceiling)
            limits = limits with { Ceiling = Temperature.FromKelvins(ceiling) };
        if (wallK is { } wall)
            limits = limits with { HottestWall = Temperature.FromKelvins(wall) };
        if (strainerK is { } strainer)
            limits = limits with { WarmestAtStrainer = Temperature.FromKelvins(strainer) };
        if (handsK is { } hands)
            limits = limits with { WarmestForHands = Temperature.FromKelvins(hands) };
        if (strainingS is { } straining)
            limits = limits with { LongestStraining = Duration.FromSeconds(straining) };
        if (longestS is { } longest)
            limits = limits with { Longest = Duration.FromSeconds(longest) };
        return new LimitInput(limits, ceilingK is not null, Kelvins(lowestK), Kelvins(coldestK), tolerance is { } chance ? Ratio.FromDecimalFractions(chance) : null);
    }

    private static Temperature? Kelvins(double? k) => k is { } given ? Temperature.FromKelvins(given) : null;
}
