using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>Checks a question once, at the edge. What is warmed and strained is checked by their runs.</summary>
internal static class SetpointCheck
{
    /// <summary>Throws when something is out of its range.</summary>
    /// <param name="question">Question to check.</param>
    public static void Require(SetpointQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        EquipmentCheck.Present(question.Warming);
        EquipmentCheck.Present(question.Straining);
        EquipmentCheck.Present(question.Options);
        SetpointLimits limits = EquipmentCheck.Present(question.Limits);
        EquipmentCheck.Present(limits.Heat);
        EquipmentCheck.Present(limits.Overflow);
        EquipmentCheck.Defined(limits.Confidence, nameof(SetpointLimits.Confidence));
        if (limits.Confidence == LimitConfidence.Broken)
            throw EquipmentCheck.OutOfRange(nameof(SetpointLimits.Confidence), limits.Confidence, "A limit that may be broken is no limit: ask for OnlyAtTheKindEnd, AtTheBestEstimate or OverTheWholeBand.");

        double ceilingC = Celsius(limits.Ceiling, 20, 95, nameof(SetpointLimits.Ceiling));
        if (limits.HottestWall is { } wall)
            Celsius(wall, 20, 150, nameof(SetpointLimits.HottestWall));
        Celsius(limits.WarmestAtStrainer, 20, 95, nameof(SetpointLimits.WarmestAtStrainer));
        if (limits.WarmestForHands is { } hands)
            Celsius(hands, 20, 95, nameof(SetpointLimits.WarmestForHands));
        EquipmentCheck.Within(limits.Longest.Hours, 1, 60 * 24, "h", nameof(SetpointLimits.Longest));
        if (limits.LongestStraining is { } straining)
            EquipmentCheck.Within(straining.Minutes, 1, 30 * 24 * 60, "min", nameof(SetpointLimits.LongestStraining));
        Celsius(question.Lowest, 15, ceilingC, nameof(SetpointQuestion.Lowest));
        Celsius(question.ColdestStraining, 10, 90, nameof(SetpointQuestion.ColdestStraining));
    }

    private static double Celsius(Temperature value, double low, double high, string name) =>
        EquipmentCheck.Within(value.DegreesCelsius, low, high, "°C", name);
}
