using UnitsNet;

namespace FlowSim.Warming;

/// <summary>How a run is computed and reported.</summary>
public sealed record WarmingOptions
{
    /// <summary>How heat moves inside the honey. Default <see cref="InsideHeat.BestEstimate"/>.</summary>
    public InsideHeat Inside { get; init; } = InsideHeat.BestEstimate;

    /// <summary>Cells from axis to wall. 2 to 400. Default 20.</summary>
    public int RadialCells { get; init; } = 20;

    /// <summary>Cells from floor to surface. 2 to 400. Default 30.</summary>
    public int AxialCells { get; init; } = 30;

    /// <summary>Error allowed in a step, K. 1e-7 to 1. Default 0.01.</summary>
    public TemperatureDelta Tolerance { get; init; } = TemperatureDelta.FromKelvins(0.01);

    /// <summary>Number of evenly spaced points in the series, ends included. 0 for no series, at most 100 000; 1 counts as 2. Default 241.</summary>
    public int SeriesPoints { get; init; } = 241;

    /// <summary>Times at which the vessel is mapped, increasing, at most 100; those after the end are left out. Default none.</summary>
    public IReadOnlyList<Duration> MapTimes { get; init; } = [];
}

/// <summary>How heat moves inside the honey.</summary>
public enum InsideHeat
{
    /// <summary>By conduction where it is granulated or thick, helped by free convection where it is liquid.</summary>
    BestEstimate,

    /// <summary>By conduction alone: the slow bound.</summary>
    ConductionOnly,

    /// <summary>Without resistance, as if it were stirred: the fast bound.</summary>
    WellMixed,
}
