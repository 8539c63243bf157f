using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>A run of the user's own that was watched with a clock.</summary>
public sealed record TimedRun
{
    /// <summary>Name, such as that of its file; at most 100 characters.</summary>
    public required string Name { get; init; }

    /// <summary>The day it was made; null when that is not known.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>
    /// The setup as it was run, with the openings and scrapes as they were noted. Honey and kit are the same in all runs of a calibration; level,
    /// temperature, opening and scraping are each run's own.
    /// </summary>
    public required StrainingSetup Setup { get; init; }

    /// <summary>What was read, at least one series.</summary>
    public required IReadOnlyList<TimedSeries> Series { get; init; }

    /// <summary>A number that tells one set of readings from another, so that no run counts twice: 16 hexadecimal digits.</summary>
    public string Fingerprint => RunFingerprint.Of(this);
}
