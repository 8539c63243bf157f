using UnitsNet;

namespace FlowSim.Settling;

/// <summary>How a run is computed and reported. None of it changes what happens in the run.</summary>
public sealed record SettlingOptions
{
    /// <summary>Relative tolerance of the integration. 1e-12 to 1e-3. Default 1e-9.</summary>
    public double RelativeTolerance { get; init; } = 1e-9;

    /// <summary>Number of evenly spaced points in the series, ends included. 0 for no series, at most 100 000. Default 241.</summary>
    public int SeriesPoints { get; init; } = 241;

    /// <summary>Times of the profiles over the depth, at most 1000, none beyond <see cref="SettlingSetup.Longest"/> and <see cref="SettlingSetup.StandsFor"/>; null for a sixteenth, a quarter and all of the time it stands.</summary>
    public IReadOnlyList<Duration>? ProfileTimes { get; init; }

    /// <summary>Number of evenly spaced heights in a profile, floor and surface included. 2 to 100 000. Default 101.</summary>
    public int ProfilePoints { get; init; } = 101;

    internal void Require(double endS)
    {
        EquipmentCheck.Within(RelativeTolerance, 1e-12, 1e-3, "", nameof(RelativeTolerance));
        EquipmentCheck.Within(SeriesPoints, 0, 100_000, "", nameof(SeriesPoints));
        EquipmentCheck.Within(ProfilePoints, 2, 100_000, "", nameof(ProfilePoints));
        EquipmentCheck.Within(ProfileTimes?.Count ?? 0, 0, 1000, "", nameof(ProfileTimes));
        foreach (Duration time in ProfileTimes ?? [])
            EquipmentCheck.Within(time.Seconds, 0, endS, "s", nameof(ProfileTimes));
    }
}
