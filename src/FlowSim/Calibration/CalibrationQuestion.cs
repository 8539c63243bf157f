using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What do timed runs and measurements say about this honey and this kit?</summary>
public sealed record CalibrationQuestion
{
    /// <summary>Most timed runs, and most viscosities, of a question.</summary>
    public const int MostRuns = 50;

    /// <summary>The setup that the calibration is for: honey and kit. Predictions and advice are about it.</summary>
    public required StrainingSetup Setup { get; init; }

    /// <summary>Timed runs; together with <see cref="Viscosities"/> at least one.</summary>
    public IReadOnlyList<TimedRun> Runs { get; init; } = [];

    /// <summary>Viscosities measured by themselves.</summary>
    public IReadOnlyList<ViscositySpot> Viscosities { get; init; } = [];

    /// <summary>
    /// What was known before of honey and kit, and how far a run's own level, temperature and opening may be off; null for
    /// <see cref="CalibrationPriors.For"/>. The spreads of a run's own inputs are carried to that run's values.
    /// </summary>
    public IReadOnlyList<UncertainInput>? Priors { get; init; }

    /// <summary>Which of them went together before, as in a calibration that is carried on.</summary>
    public IReadOnlyList<InputCorrelation> Correlations { get; init; } = [];

    /// <summary>The calibration that is carried on: its inputs, correlations and runs; null for none. Its inputs take the place of those of <see cref="Priors"/>.</summary>
    public CalibratedInputs? Earlier { get; init; }

    /// <summary>Whether the sampler checks the intervals. Default true; it takes nine tenths of the time.</summary>
    public bool Sample { get; init; } = true;

    /// <summary>Number that the draws come from. The same seed gives the same answer.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Threads at work; null for one per processor. The answer does not depend on it.</summary>
    public int? Threads { get; init; }
}
