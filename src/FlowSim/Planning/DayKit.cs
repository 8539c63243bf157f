using UnitsNet;

namespace FlowSim.Planning;

/// <summary>A place where vessels are warmed: a cabinet, a bath, a jacketed tank.</summary>
public sealed record WarmingPlace
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Vessels that it takes at a time. 1 to 100. Default 1.</summary>
    public int Vessels { get; init; } = 1;

    /// <summary>Whether each vessel there has heat and a timer of its own, so that it may stand there cold until it is switched on. If not, a vessel is put there while somebody is in the house. Default false.</summary>
    public bool HasTimer { get; init; }

    /// <summary>Whether the honey is strained from where it stands, so that the place is taken until that is done. Default false: the vessel is carried to the strainer.</summary>
    public bool DrainedInPlace { get; init; }
}

/// <summary>A strainer.</summary>
/// <param name="Name">Its name.</param>
public sealed record PlannedStrainer(string Name);

/// <summary>A tank that honey is strained into and filled from.</summary>
public sealed record BottlingTank
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What it holds to the brim. 0.1 L to 100 m³.</summary>
    public required Volume Capacity { get; init; }

    /// <summary>What has to stay free below the brim. 0 to the capacity. Default none.</summary>
    public Volume KeptFree { get; init; } = Volume.Zero;
}

/// <summary>A span of time.</summary>
/// <param name="From">Its begin.</param>
/// <param name="To">Its end, later.</param>
public sealed record WorkSpan(Duration From, Duration To);

/// <summary>Somebody at work: watches one open gate at a time, or fills, or cleans.</summary>
public sealed record Worker
{
    /// <summary>Name or letter.</summary>
    public required string Name { get; init; }

    /// <summary>When this person is there, in order, not overlapping, one to a hundred spans. A break is the time between two.</summary>
    public required IReadOnlyList<WorkSpan> Hours { get; init; }
}

/// <summary>Cleaning, by one person without a pause.</summary>
public sealed record Cleaning
{
    /// <summary>Time to clean a strainer. 0 to 24 h; 0: it is not counted. Default 20 min (engineering choice).</summary>
    public Duration Strainer { get; init; } = Duration.FromMinutes(20);

    /// <summary>Time to clean a bottling tank. 0 to 24 h; 0: it is not counted. Default 30 min (engineering choice).</summary>
    public Duration Tank { get; init; } = Duration.FromMinutes(30);

    /// <summary>Whether everything used is cleaned at the end too. Default true.</summary>
    public bool AtTheEnd { get; init; } = true;
}
