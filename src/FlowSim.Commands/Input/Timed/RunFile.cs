using FlowSim.Calibration;
using FlowSim.Straining;

namespace FlowSim.Commands.Input.Timed;

/// <summary>A table of timed readings as it stands in its file, before anybody knows the kit it was made with.</summary>
internal sealed record RunFile
{
    /// <summary>Path as the user gave it.</summary>
    public required string Path { get; init; }

    /// <summary>Name of the file, without its folder.</summary>
    public string Name => System.IO.Path.GetFileName(Path) is { Length: > 0 } name ? name : Path;

    /// <summary>The day it was made; null when the file does not say.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>Keys that are this run's own.</summary>
    public IReadOnlyList<RunSetting> Settings { get; init; } = [];

    /// <summary>What was read, by column.</summary>
    public IReadOnlyList<RunColumn> Columns { get; init; } = [];

    /// <summary>What was done and noted, by time.</summary>
    public IReadOnlyList<RunNote> Notes { get; init; } = [];

    /// <summary>How the file was read where that is not plain.</summary>
    public IReadOnlyList<string> Echoes { get; init; } = [];
}

/// <summary>A key of the batch that a run sets for itself.</summary>
/// <param name="Key">Section and name.</param>
/// <param name="Setting">As <c>--set</c> takes it.</param>
/// <param name="Spot">Where it was written.</param>
internal sealed record RunSetting(string Key, string Setting, Spot Spot);

/// <summary>A column of readings.</summary>
/// <param name="Heading">Heading as written, fit to print.</param>
/// <param name="Quantity">What was read.</param>
/// <param name="Unit">Unit it was read in.</param>
/// <param name="Readings">Readings, SI.</param>
/// <param name="Spots">Where each of them stands.</param>
internal sealed record RunColumn(string Heading, StrainingObservable Quantity, Quantities.Unit Unit, IReadOnlyList<TimedReading> Readings, IReadOnlyList<Spot> Spots);

/// <summary>Something that was done and noted.</summary>
/// <param name="TimeS">When, s.</param>
/// <param name="Opening">Opening of the gate from then on, share of the bore; null for a scrape.</param>
/// <param name="Spot">Where it was written.</param>
internal readonly record struct RunNote(double TimeS, double? Opening, Spot Spot);
