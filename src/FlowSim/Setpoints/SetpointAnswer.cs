using FlowSim.HeatDamage;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>The setpoint that gets the job done soonest, and what stands against going faster.</summary>
public sealed record SetpointAnswer
{
    /// <summary>The question.</summary>
    public required SetpointQuestion Question { get; init; }

    /// <summary>Whether any setpoint meets the limits.</summary>
    public required SetpointStatus Status { get; init; }

    /// <summary>The plan chosen, simulated as a whole; null when none meets the limits.</summary>
    public required SetpointPlan? Choice { get; init; }

    /// <summary>The next best plan, at least 1 K away in setpoint or 2 K in straining temperature; null when there is none.</summary>
    public required SetpointPlan? RunnerUp { get; init; }

    /// <summary>The limit without which the job could be done soonest; null when none of them stands in the way.</summary>
    public required PlanLimit? BindingLimit { get; init; }

    /// <summary>Warming by the choice as a best estimate between its bounds; null when there is no choice.</summary>
    public required WarmingBounds? Bounds { get; init; }

    /// <summary>How much sooner the job would be done one degree higher, limits aside; negative if later. Null when there is no choice.</summary>
    public required Duration? TimeADegreeBuys { get; init; }

    /// <summary>Best plan at each setpoint tried, by rising setpoint, limits aside where none is within them.</summary>
    public required IReadOnlyList<CurvePoint> Curve { get; init; }

    /// <summary>When none meets the limits: the plan that misses by least.</summary>
    public required NearestMiss? NearestMiss { get; init; }

    /// <summary>What the user should know.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Warming runs made.</summary>
    public required int WarmingRuns { get; init; }
}

/// <summary>Whether a setpoint was found.</summary>
public enum SetpointStatus
{
    /// <summary>A plan meets the limits.</summary>
    Found,

    /// <summary>None of the setpoints tried meets them.</summary>
    NoneMeetsTheLimits,
}

/// <summary>Limits that may stand in the way of a plan.</summary>
public enum PlanLimit
{
    /// <summary>The ceiling on the setpoint and on the honey anywhere.</summary>
    Ceiling,

    /// <summary>HMF after the job.</summary>
    Hmf,

    /// <summary>Diastase after the job.</summary>
    Diastase,

    /// <summary>The hottest surface that touches honey.</summary>
    Wall,

    /// <summary>Wax firm at the strainer.</summary>
    WaxAtStrainer,

    /// <summary>Honey not too hot for hands.</summary>
    Burn,

    /// <summary>The strainer does not run over.</summary>
    Overflow,

    /// <summary>Straining is done within its own longest time.</summary>
    StrainingTime,

    /// <summary>The job is done within the longest time.</summary>
    Time,
}

/// <summary>A way to do the whole job, simulated: warm at a setpoint until the mean is warm enough, then strain.</summary>
public sealed record SetpointPlan
{
    /// <summary>The setpoint, the last of the schedule.</summary>
    public required Temperature Setpoint { get; init; }

    /// <summary>Mean temperature of the honey when straining begins.</summary>
    public required Temperature StrainAt { get; init; }

    /// <summary>Opening of the gate.</summary>
    public required Ratio Opening { get; init; }

    /// <summary>Time of warming.</summary>
    public required Duration WarmTime { get; init; }

    /// <summary>Time of straining: to 95 % of what can drain.</summary>
    public required Duration StrainTime { get; init; }

    /// <summary>Both together.</summary>
    public Duration Total => WarmTime + StrainTime;

    /// <summary>Damage by warming and straining, on the average over the honey.</summary>
    public required HoneyHeatDamage Damage { get; init; }

    /// <summary>The honey afterwards; null when it is not known before.</summary>
    public required HeatedHoney? After { get; init; }

    /// <summary>How it stands against the heat limit; null when it is not known before.</summary>
    public required LimitCheck? HeatCheck { get; init; }

    /// <summary>Hottest honey anywhere.</summary>
    public required Temperature HottestHoney { get; init; }

    /// <summary>Hottest surface that touched honey.</summary>
    public required Temperature HottestWall { get; init; }

    /// <summary>Heat given by the heater, all vessels together.</summary>
    public required Energy Heater { get; init; }

    /// <summary>Limits that the plan breaks; empty for a choice.</summary>
    public required IReadOnlyList<PlanLimit> Broken { get; init; }

    /// <summary>The warming run; null in a point of the curve.</summary>
    public WarmingResult? Warming { get; init; }

    /// <summary>The straining run; null in a point of the curve.</summary>
    public StrainingResult? Straining { get; init; }
}

/// <summary>The best plan at one setpoint.</summary>
/// <param name="Setpoint">Setpoint.</param>
/// <param name="Plan">Its best plan within the limits, or if there is none the soonest without them; null when the honey never gets warm enough to strain.</param>
/// <param name="Allowed">Whether the plan is within the limits.</param>
/// <param name="Broken">Limits that the plan breaks.</param>
public sealed record CurvePoint(Temperature Setpoint, SetpointPlan? Plan, bool Allowed, IReadOnlyList<PlanLimit> Broken);

/// <summary>The plan that misses the limits by least.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Misses">Each limit it breaks, and by how much, in words.</param>
public sealed record NearestMiss(SetpointPlan Plan, IReadOnlyList<(PlanLimit Limit, string ByHowMuch)> Misses);
