using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>What a plan must keep.</summary>
public sealed record SetpointLimits
{
    /// <summary>Ceiling on the setpoint and on the honey anywhere unless the user sets another.</summary>
    public static Temperature DefaultCeiling { get; } = Temperature.FromDegreesCelsius(50);

    /// <summary>Limit on HMF and diastase after warming and straining, on the average over the honey. Default the EU's for honey in general.</summary>
    public HeatLimit Heat { get; init; } = HeatLimits.ByName("eu");

    /// <summary>How surely the heat limit is to be kept. Default over the whole band.</summary>
    public LimitConfidence Confidence { get; init; } = LimitConfidence.OverTheWholeBand;

    /// <summary>Highest setpoint, and hottest honey anywhere. 20 to 95 °C. Default <see cref="DefaultCeiling"/>.</summary>
    public Temperature Ceiling { get; init; } = DefaultCeiling;

    /// <summary>Hottest surface that touches honey; null for the ceiling plus 5 K (engineering choice). 20 to 150 °C.</summary>
    public Temperature? HottestWall { get; init; }

    /// <summary><see cref="HottestWall"/>, or what stands in for it.</summary>
    public Temperature WallLimit => HottestWall ?? Ceiling + TemperatureDelta.FromKelvins(5);

    /// <summary>Warmest honey on the strainer, so that wax stays firm. 20 to 95 °C. Default 50 °C (engineering choice; beeswax melts at 62 to 64 °C).</summary>
    public Temperature WarmestAtStrainer { get; init; } = Temperature.FromDegreesCelsius(50);

    /// <summary>Warmest honey that people strain, so that it does not burn; null when gloves and care are relied on. 20 to 95 °C. Default null: cautions are given from 48 °C.</summary>
    public Temperature? WarmestForHands { get; init; }

    /// <summary>How the strainer is kept from running over.</summary>
    public OverflowLimit Overflow { get; init; } = OverflowLimit.Nominal;

    /// <summary>Longest time of straining, while somebody stands by. 1 min to 30 days; null for no limit. Default null.</summary>
    public Duration? LongestStraining { get; init; }

    /// <summary>Longest time for warming and straining together. 1 h to 60 days. Default 14 days.</summary>
    public Duration Longest { get; init; } = Duration.FromDays(14);
}
