using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Honey to be warmed, held or cooled: everything a run needs. Change a copy with <c>with</c>.</summary>
public sealed record WarmingSetup
{
    /// <summary>The honey, described as it will be once liquid.</summary>
    public required Honey Honey { get; init; }

    /// <summary>Glucose crystals in it at the start; null for liquid honey.</summary>
    public Crystals? Crystals { get; init; }

    /// <summary>Temperature of the honey at the start, the same throughout. −20 to 80 °C.</summary>
    public required Temperature StartTemperature { get; init; }

    /// <summary>The vessel it stands in.</summary>
    public required WarmedVessel Vessel { get; init; }

    /// <summary>Vessels alike that share the heater, all filled alike. 1 to 1000. Default 1; more than 1 only where the kit warms air or a bath.</summary>
    public int Vessels { get; init; } = 1;

    /// <summary>What warms or cools it.</summary>
    public required HeatingKit Heating { get; init; }

    /// <summary>Temperature of the room outside the kit. −30 to 60 °C. Default 20 °C.</summary>
    public Temperature RoomTemperature { get; init; } = Temperature.FromDegreesCelsius(20);

    /// <summary>What is to be reached. The run ends when all are, after <see cref="HoldAfter"/>; without any it ends at <see cref="Longest"/>.</summary>
    public IReadOnlyList<WarmingTarget> Targets { get; init; } = [];

    /// <summary>How long the run goes on after the targets are reached. 0 to 60 days. Default 0.</summary>
    public Duration HoldAfter { get; init; } = Duration.Zero;

    /// <summary>Longest time simulated. 1 min to 60 days. Default 7 days.</summary>
    public Duration Longest { get; init; } = Duration.FromDays(7);

    /// <summary>How this honey responds to heat.</summary>
    public HeatResponse Response { get; init; } = new();

    /// <summary>HMF and diastase at the start; null when they are not known.</summary>
    public HoneyBeforeHeat? Before { get; init; }
}
