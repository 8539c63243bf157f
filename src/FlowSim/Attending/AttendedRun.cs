using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Attending;

/// <summary>A straining run that goes on: the plan, and what was read and done so far. Nothing in it knows the time of day.</summary>
public sealed record AttendedRun
{
    /// <summary>The setup as it is planned. What is noted in <see cref="Steps"/> takes the place of its openings and scrapes.</summary>
    public required StrainingSetup Setup { get; init; }

    /// <summary>What was read so far, each quantity in one series of one reading or more; empty before the first reading. Times since the opening of the gate, not falling.</summary>
    public IReadOnlyList<TimedSeries> Series { get; init; } = [];

    /// <summary>What was done at the gate and the cloth so far, by time.</summary>
    public IReadOnlyList<NotedStep> Steps { get; init; } = [];

    /// <summary>What was known before the run; null for <see cref="CalibrationPriors.For"/>.</summary>
    public IReadOnlyList<UncertainInput>? Priors { get; init; }

    /// <summary>Which of it goes together; inputs of honey and kit only.</summary>
    public IReadOnlyList<InputCorrelation> Correlations { get; init; } = [];

    /// <summary>What earlier runs said of honey and kit; null for none.</summary>
    public CalibratedInputs? Earlier { get; init; }

    /// <summary>Chance of honey over the rim or a full receiver, between two looks, that is put up with. 1e-6 to 50 %. Default 1 %.</summary>
    public Ratio Tolerance { get; init; } = Ratio.FromPercent(1);

    /// <summary>Number that the draws come from. The same seed gives the same answer.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Threads at work; null for one per processor. The answer does not depend on it.</summary>
    public int? Threads { get; init; }

    /// <summary>When something was read or done last: somebody was at the gate then. Zero, the opening of the gate, before anything was.</summary>
    public Duration LastEntry => Latest(LastReading ?? Duration.Zero, Steps.Count > 0 ? Steps[^1].At : Duration.Zero);

    /// <summary>When something was read last; null before the first reading.</summary>
    public Duration? LastReading => Series.Any(series => series.Readings.Count > 0) ? Series.Where(series => series.Readings.Count > 0).Max(series => series.Readings[^1].At) : null;

    /// <summary>The run as it was known before the last reading: without the readings of that moment; steps noted later are left out too.</summary>
    internal AttendedRun BeforeLastReading()
    {
        if (LastReading is not { } last)
            return this;
        return this with
        {
            Series = [.. Series.Select(series => series with { Readings = [.. series.Readings.Where(reading => reading.At < last)] }).Where(series => series.Readings.Count > 0)],
            Steps = [.. Steps.Where(step => step.At <= last)],
        };
    }

    /// <summary>Whether another run says the same.</summary>
    /// <param name="other">Run.</param>
    internal bool SaysTheSameAs(AttendedRun other) =>
        Setup == other.Setup && ReferenceEquals(Priors, other.Priors) && ReferenceEquals(Earlier, other.Earlier) && ReferenceEquals(Correlations, other.Correlations)
        && Tolerance.DecimalFractions.Equals(other.Tolerance.DecimalFractions) && Seed == other.Seed
        && Steps.SequenceEqual(other.Steps) && Series.Count == other.Series.Count
        && Series.Zip(other.Series).All(pair => pair.First with { Readings = pair.Second.Readings } == pair.Second && pair.First.Readings.SequenceEqual(pair.Second.Readings));

    private static Duration Latest(Duration one, Duration other) => one > other ? one : other;
}
