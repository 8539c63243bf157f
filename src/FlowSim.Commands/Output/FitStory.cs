using FlowSim.Calibration;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a fit.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Echoes">How the runs were read where that is not plain.</param>
/// <param name="Name">Name of the batch.</param>
internal sealed record FitStory(CalibrationAnswer Answer, Journal Journal, IReadOnlyList<string> Echoes, string Name)
{
    /// <summary>File that what was learnt was written to; null for none.</summary>
    public string? Saved { get; init; }

    /// <summary>What was learnt, as it may stand in a file; null when no fit was found.</summary>
    public string? Table { get; init; }

    /// <summary>Readings of all series.</summary>
    public int Readings => Answer.Series.Sum(series => series.Readings.Count);
}
