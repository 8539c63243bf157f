using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>What a shut gate loses past a loose blade under the level at the start.</summary>
/// <remarks>The gap is taken as even all round the bore. A leak goes with its third power, so a figure is as good as the gap is known.</remarks>
public sealed record GateLeak
{
    /// <summary>Gap between blade and seat.</summary>
    public required Length Clearance { get; init; }

    /// <summary>Lost in an hour.</summary>
    public required Mass PerHour { get; init; }

    /// <summary>Lost over the night, or however long it stands.</summary>
    public required Mass OverNight { get; init; }

    /// <summary>Over the night with half the gap: an eighth.</summary>
    public Mass OverNightTightened => OverNight / 8;

    /// <summary>Over the night with honey 5 K warmer; null beyond the range of the viscosity.</summary>
    public required Mass? OverNightWarmer { get; init; }
}
