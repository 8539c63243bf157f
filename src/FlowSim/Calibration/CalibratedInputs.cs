using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What was learnt of a honey and a kit, to be kept and used by every later question.</summary>
public sealed record CalibratedInputs
{
    /// <summary>The inputs, each with what is now known of it. Normal or log-normal where anything was learnt, else as before.</summary>
    public required IReadOnlyList<UncertainInput> Inputs { get; init; }

    /// <summary>Which of them go together.</summary>
    public required IReadOnlyList<InputCorrelation> Correlations { get; init; }

    /// <summary>The runs it rests on, oldest first.</summary>
    public required IReadOnlyList<RunOnRecord> Runs { get; init; }

    /// <summary>The setup with every input at its median.</summary>
    /// <param name="setup">Setup.</param>
    public StrainingSetup ApplyTo(StrainingSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return Inputs.Where(input => input.Input.AppliesTo(setup)).Aggregate(setup, (s, input) => input.Input.With(s, input.Spread.Median));
    }

    /// <summary>The common spreads of a setup, with these in their place.</summary>
    /// <param name="setup">The setup, as <see cref="ApplyTo"/> gives it.</param>
    public IReadOnlyList<UncertainInput> SpreadsFor(StrainingSetup setup)
    {
        UncertainInput[] mine = [.. Inputs.Where(input => input.Input.AppliesTo(setup))];
        HashSet<StrainingInput> named = [.. mine.Select(input => input.Input)];
        return [.. mine, .. DefaultSpreads.For(setup).Where(common => !named.Contains(common.Input))];
    }
}

/// <summary>A run that a calibration rests on.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Date">The day it was made; null when that is not known.</param>
/// <param name="Fingerprint">Its <see cref="TimedRun.Fingerprint"/>.</param>
public sealed record RunOnRecord(string Name, DateOnly? Date, string Fingerprint);
