using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>What happened in a warming run.</summary>
public sealed record WarmingResult
{
    /// <summary>The setup that was run.</summary>
    public required WarmingSetup Setup { get; init; }

    /// <summary>How heat moved inside the honey.</summary>
    public required InsideHeat Inside { get; init; }

    /// <summary>How the run ended.</summary>
    public required WarmingStatus Status { get; init; }

    /// <summary>Time simulated.</summary>
    public required Duration Elapsed { get; init; }

    /// <summary>When all targets were reached; null if they never were, or there are none.</summary>
    public required Duration? TimeToTarget { get; init; }

    /// <summary>When each target of the setup was first reached, in its order; null for those that never were.</summary>
    public required IReadOnlyList<Duration?> TargetTimes { get; init; }

    /// <summary>Temperatures at the end.</summary>
    public required HoneyTemperatures End { get; init; }

    /// <summary>Where the coldest honey is at the end: distance from the axis and height above the floor.</summary>
    public required (Length Radius, Length Height) ColdestPlace { get; init; }

    /// <summary>The hottest surface that touched honey during the run, wall or element, and when.</summary>
    public required (Temperature Temperature, Duration At) HottestWall { get; init; }

    /// <summary>The hottest honey during the run.</summary>
    public required Temperature HottestHoney { get; init; }

    /// <summary>The most by which the hottest wall was above the probe during the run; negative if it never was.</summary>
    public required TemperatureDelta WallAboveProbe { get; init; }

    /// <summary>Crystals left at the end, share of the honey's mass.</summary>
    public required Ratio CrystalsLeft { get; init; }

    /// <summary>Viscosity of the liquid at the mean temperature at the end, lot factor included; what crystals are left makes it thicker.</summary>
    public required DynamicViscosity Viscosity { get; init; }

    /// <summary>Honey in each vessel.</summary>
    public required Mass HoneyPerVessel { get; init; }

    /// <summary>Where the heat went, all vessels together.</summary>
    public required EnergyAccount Energy { get; init; }

    /// <summary>When the cut-out took the heater off; null if it did not.</summary>
    public required Duration? CutOutAt { get; init; }

    /// <summary>Times the heater was switched on or off.</summary>
    public required int Switchings { get; init; }

    /// <summary>Damage on the average over the honey: what a mixed sample would show.</summary>
    public required HoneyHeatDamage Damage { get; init; }

    /// <summary>Damage of the honey that had it worst.</summary>
    public required HoneyHeatDamage WorstDamage { get; init; }

    /// <summary>Temperatures, heater and damage over time.</summary>
    public required WarmingSeries Series { get; init; }

    /// <summary>Maps of the vessel at the times asked for.</summary>
    public required IReadOnlyList<VesselMap> Maps { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Accepted steps, rejected ones included.</summary>
    public required int Steps { get; init; }
}

/// <summary>How a warming run ended.</summary>
public enum WarmingStatus
{
    /// <summary>All targets were reached.</summary>
    Reached,

    /// <summary>The longest time was reached first, or there was no target.</summary>
    TimeLimit,

    /// <summary>The cut-out took the heater off and the targets were not reached.</summary>
    CutOut,

    /// <summary>Something got hotter than 150 °C: the run was ended there.</summary>
    Overheated,
}

/// <summary>Temperatures of honey and surroundings at a moment.</summary>
/// <param name="Coldest">Coldest honey.</param>
/// <param name="Mean">Mean of the honey by mass.</param>
/// <param name="Hottest">Hottest honey.</param>
/// <param name="Wall">Hottest surface that touches honey.</param>
/// <param name="Probe">The thermostat's probe.</param>
/// <param name="Body">Air, water or element.</param>
public sealed record HoneyTemperatures(Temperature Coldest, Temperature Mean, Temperature Hottest, Temperature Wall, Temperature Probe, Temperature Body);

/// <summary>Where the heat went, all vessels together. Heater = honey + body + room, within <see cref="BalanceRelative"/>.</summary>
public sealed record EnergyAccount
{
    /// <summary>Given by the heater; what cooling takes out counts as negative.</summary>
    public required Energy Heater { get; init; }

    /// <summary>Gone into the honey, melting included.</summary>
    public required Energy IntoHoney { get; init; }

    /// <summary>Of that, gone into melting crystals.</summary>
    public required Energy Melting { get; init; }

    /// <summary>Gone into the body.</summary>
    public required Energy IntoBody { get; init; }

    /// <summary>Lost to the room, by the body and by the vessels.</summary>
    public required Energy ToRoom { get; init; }

    /// <summary>Heater less the three others, measured from the temperatures at the end, over the heat that was turned over.</summary>
    public required double BalanceRelative { get; init; }
}

/// <summary>A map of the honey in a vessel.</summary>
/// <param name="At">When.</param>
/// <param name="Radius">Radius of the honey.</param>
/// <param name="Level">Height of the honey.</param>
/// <param name="RadialCells">Cells from axis to wall.</param>
/// <param name="AxialCells">Cells from floor to surface.</param>
/// <param name="TemperatureK">Temperatures of the cells, K: rows from floor to surface, within a row from axis to wall.</param>
/// <param name="CrystalsLeft">Share of the crystals left in the cells, 0 to 1, in the same order.</param>
public sealed record VesselMap(
    Duration At,
    Length Radius,
    Length Level,
    int RadialCells,
    int AxialCells,
    IReadOnlyList<double> TemperatureK,
    IReadOnlyList<double> CrystalsLeft);
