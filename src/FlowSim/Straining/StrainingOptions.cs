namespace FlowSim.Straining;

/// <summary>How a run is computed and reported. None of it changes what happens in the run.</summary>
public sealed record StrainingOptions
{
    /// <summary>Relative tolerance of the integration. 1e-12 to 1e-3. Default 1e-8.</summary>
    public double RelativeTolerance { get; init; } = 1e-8;

    /// <summary>Number of evenly spaced points in the series, ends included; events add their own. 0 for no series, at most 100 000. Default 241.</summary>
    public int SeriesPoints { get; init; } = 241;

    internal void Require()
    {
        EquipmentCheck.Within(RelativeTolerance, 1e-12, 1e-3, "", nameof(RelativeTolerance));
        EquipmentCheck.Within(SeriesPoints, 0, 100_000, "", nameof(SeriesPoints));
    }
}
