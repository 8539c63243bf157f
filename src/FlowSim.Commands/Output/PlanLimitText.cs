using FlowSim.Commands.Input;
using FlowSim.Setpoints;

namespace FlowSim.Commands.Output;

/// <summary>The limits of a search in words.</summary>
internal static class PlanLimitText
{
    /// <summary>A limit with its value.</summary>
    /// <param name="limit">Limit.</param>
    /// <param name="limits">Values.</param>
    /// <param name="display">Units.</param>
    public static string Of(PlanLimit limit, SetpointLimits limits, Display display) => limit switch
    {
        PlanLimit.Ceiling => $"the ceiling of {display.Temperature(limits.Ceiling.Kelvins)}",
        PlanLimit.Hmf when limits.Heat.HmfAtMost is { } most => $"HMF of at most {Display.Plain(most.MilligramsPerKilogram)} mg/kg",
        PlanLimit.Hmf => "HMF",
        PlanLimit.Diastase when limits.Heat.DiastaseAtLeast is { } least => $"a diastase number of at least {Display.Plain(least)}",
        PlanLimit.Diastase => "diastase",
        PlanLimit.Wall => $"the wall at no more than {display.Temperature(limits.WallLimit.Kelvins)}",
        PlanLimit.WaxAtStrainer => $"the strainer at no more than {display.Temperature(limits.WarmestAtStrainer.Kelvins)}, so that wax stays firm",
        PlanLimit.Burn when limits.WarmestForHands is { } hands => $"honey at no more than {display.Temperature(hands.Kelvins)} for hands",
        PlanLimit.Burn => "honey not too hot for hands",
        PlanLimit.Overflow when limits.Overflow != OverflowLimit.Nominal => "the strainer runs over with no more than the chance you set",
        PlanLimit.Overflow => "the strainer must not run over",
        PlanLimit.StrainingTime when limits.LongestStraining is { } most => $"strained within {Display.Time(most.Seconds)}",
        PlanLimit.StrainingTime => "straining done in time",
        _ => $"done within {Display.Time(limits.Longest.Seconds)}",
    };

    /// <summary>A limit in one word, for tables.</summary>
    /// <param name="limit">Limit.</param>
    public static string Short(PlanLimit limit) => limit switch
    {
        PlanLimit.Hmf => "HMF",
        PlanLimit.WaxAtStrainer => "wax",
        PlanLimit.StrainingTime => "straining",
        _ => Words.Of(limit),
    };

    /// <summary>What sets a limit.</summary>
    /// <param name="limit">Limit.</param>
    /// <param name="limits">Values.</param>
    public static string Key(PlanLimit limit, SetpointLimits limits) => limit switch
    {
        PlanLimit.Ceiling => Keys.Limits.Ceiling.ToString(),
        PlanLimit.Hmf when limits.Heat.IsOfTheHouse => Keys.Limits.Hmf.ToString(),
        PlanLimit.Diastase when limits.Heat.IsOfTheHouse => Keys.Limits.Diastase.ToString(),
        PlanLimit.Hmf or PlanLimit.Diastase => Keys.Limits.Heat.ToString(),
        PlanLimit.Wall => Keys.Limits.Wall.ToString(),
        PlanLimit.WaxAtStrainer => Keys.Limits.AtStrainer.ToString(),
        PlanLimit.Burn => Keys.Limits.ForHands.ToString(),
        PlanLimit.Overflow when limits.Overflow != OverflowLimit.Nominal => Keys.Limits.OverflowTolerance.ToString(),
        PlanLimit.Overflow => $"the strainer in [{Keys.Screen.Form.Section}]",
        PlanLimit.StrainingTime => Keys.Limits.LongestStraining.ToString(),
        _ => Keys.Limits.Longest.ToString(),
    };
}
