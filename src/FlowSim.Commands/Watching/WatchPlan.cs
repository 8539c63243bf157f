using FlowSim.Attending;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Watching;

/// <summary>The plan of a run that is watched, read once.</summary>
internal sealed class WatchPlan
{
    private readonly AttendedRun _empty;

    private WatchPlan(AttendedRun empty, ScaleFacts scales, Loaded loaded) => (_empty, Scales, Loaded) = (empty, scales, loaded);

    /// <summary>What is known of clock and scales.</summary>
    public ScaleFacts Scales { get; }

    /// <summary>The batch.</summary>
    public Loaded Loaded { get; }

    /// <summary>The setup as it is planned.</summary>
    public StrainingSetup Setup => _empty.Setup;

    /// <summary>Reads a plan.</summary>
    /// <param name="batch">Batch.</param>
    /// <param name="log">The log, for the keys that it sets for itself.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static WatchPlan Read(BatchSource batch, RunFile log)
    {
        Loaded loaded = TimedRunReader.LoadOwn(log, batch);
        StrainingSetup setup = Loader.ReadRun(loaded).Setup;
        ScaleFacts? scales = null;
        CalibrationTable? earlier = loaded.Journal.Calibration is { Use: not CalibrationUse.None } table ? table : null;
        AttendedRun run = Loader.Guard(loaded, () =>
        {
            // Its checks come before the spreads, which take a sound setup for granted.
            StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 0 });
            scales = TimedRunReader.ScalesOf(loaded);
            Priors priors = RiskReader.ReadPriors(setup, loaded.Document, loaded.Problems, loaded.Journal);
            AttendedRun read = new() { Setup = setup, Priors = priors.Inputs, Correlations = FitInputReader.AskedOf(priors, earlier), Earlier = earlier?.ToInputs() };
            if (priors.Tolerance is { } tolerance)
                read = read with { Tolerance = Ratio.FromDecimalFractions(tolerance) };
            return priors.Seed is { } seed ? read with { Seed = seed } : read;
        });
        return new WatchPlan(run, scales!, loaded);
    }

    /// <summary>The run so far.</summary>
    /// <param name="log">The log.</param>
    /// <param name="untilS">What comes later is left out, s.</param>
    public AttendedRun RunOf(RunFile log, double untilS = double.PositiveInfinity)
    {
        Problems problems = new();
        IReadOnlyList<NotedStep> steps = TimedRunReader.StepsOf([.. log.Notes.Where(note => note.TimeS <= untilS)], problems);
        if (problems.Any)
            throw new BadInputException(problems);
        IEnumerable<RunColumn> columns = log.Columns
            .Select(column => column with { Readings = [.. column.Readings.Where(reading => reading.At.Seconds <= untilS)] })
            .Where(column => column.Readings.Count > 0);
        return _empty with { Series = [.. columns.Select(Scales.SeriesOf)], Steps = steps };
    }
}
