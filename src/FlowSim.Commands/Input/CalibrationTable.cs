using FlowSim.Calibration;
using FlowSim.Commands.Quantities;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Input;

/// <summary>What is taken of a calibration.</summary>
internal enum CalibrationUse
{
    /// <summary>Everything.</summary>
    All,

    /// <summary>What is not of the honey: for another lot on the same kit.</summary>
    Kit,

    /// <summary>Nothing.</summary>
    None,
}

/// <summary>The <c>[calibration]</c> of a file.</summary>
/// <param name="Date">The day of the fit.</param>
/// <param name="Use">What is taken of it.</param>
/// <param name="Runs">The runs it rests on.</param>
/// <param name="Entries">What was learnt.</param>
/// <param name="Correlations">What of it goes together.</param>
internal sealed record CalibrationTable(
    DateOnly Date, CalibrationUse Use, IReadOnlyList<RunOnRecord> Runs, IReadOnlyList<CalibrationEntry> Entries, IReadOnlyList<InputCorrelation> Correlations)
{
    /// <summary>The same with fewer entries; what went together with the others is dropped.</summary>
    /// <param name="keep">Which are kept.</param>
    public CalibrationTable Only(Func<CalibrationEntry, bool> keep)
    {
        CalibrationEntry[] kept = [.. Entries.Where(keep)];
        HashSet<string> names = [.. kept.Select(entry => entry.Input.Name)];
        return this with { Entries = kept, Correlations = [.. Correlations.Where(pair => names.Contains(pair.One) && names.Contains(pair.Other))] };
    }

    /// <summary>As the library takes it, to be carried on; null when nothing is left of it.</summary>
    public CalibratedInputs? ToInputs() => Entries.Count == 0 ? null : new CalibratedInputs
    {
        Inputs = [.. Entries.Select(entry => new UncertainInput(entry.Input, entry.Spread.ToDistribution(), Source))],
        Correlations = Correlations,
        Runs = Runs,
    };

    /// <summary>Where it comes from.</summary>
    public Source Source => new($"the {Words}", Standing.GivenByUser);

    /// <summary>What it is, in words.</summary>
    public string Words => FormattableString.Invariant($"calibration of {Date:yyyy-MM-dd} from {(Runs.Count == 0 ? "measurements" : Runs.Count == 1 ? "1 run" : $"{Runs.Count} runs")}");

    /// <summary>Whether an input is of the honey and not of the kit.</summary>
    /// <param name="input">Input.</param>
    public static bool IsOfHoney(StrainingInput input) =>
        input.Name.StartsWith("honey.", StringComparison.Ordinal) || input.Name.StartsWith("debris.", StringComparison.Ordinal);
}

/// <summary>An input that was learnt.</summary>
/// <param name="Input">Input.</param>
/// <param name="Spread">What is known of it.</param>
/// <param name="Entry">As it stands in the file.</param>
internal sealed record CalibrationEntry(StrainingInput Input, Spread Spread, InputEntry Entry);
