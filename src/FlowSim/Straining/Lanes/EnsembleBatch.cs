namespace FlowSim.Straining;

/// <summary>A batch of runs that threads take from and give back to.</summary>
internal sealed class EnsembleBatch(
    StrainingNumbers numbers,
    IReadOnlyList<StrainingInput> varied,
    ReadOnlyMemory<double> values,
    Memory<StrainingSample> samples,
    EnsembleTrace trace,
    double relativeTolerance,
    IProgress<long>? progress,
    CancellationToken cancellation)
{
    private const int RunsPerReport = 256;

    private int _next;
    private int _done;

    /// <summary>What is read off every run.</summary>
    public EnsembleTrace Trace => trace;

    public CancellationToken Cancellation => cancellation;

    /// <summary>Takes the next run.</summary>
    /// <param name="parameters">Filled with its numbers.</param>
    /// <param name="run">Its number in the batch.</param>
    /// <returns>False when there is none left.</returns>
    public bool TryTake(StrainingParameters parameters, out int run)
    {
        run = Interlocked.Increment(ref _next) - 1;
        if (run >= samples.Length)
            return false;
        Fill(parameters, run);
        return true;
    }

    /// <summary>Gives a run back.</summary>
    public void Give(int run, in StrainingSample sample)
    {
        samples.Span[run] = sample;
        int done = Interlocked.Increment(ref _done);
        if (progress is not null && (done % RunsPerReport == 0 || done == samples.Length))
            progress.Report(done);
    }

    /// <summary>Makes a run with the integrator of single runs and gives it back.</summary>
    /// <param name="parameters">Parameters to fill.</param>
    /// <param name="run">Run.</param>
    public void RunAlone(StrainingParameters parameters, int run)
    {
        Fill(parameters, run);
        RunTrace? mine = trace.IsEmpty ? null : new RunTrace(parameters, trace, run);
        StrainingOutcome outcome = new StrainingIntegration(parameters, relativeTolerance).Run(series: null, cancellation, mine);
        StrainingSample sample = StrainingReport.Sample(parameters, outcome);
        if (!double.IsFinite(sample.EndSeconds + sample.StrainedKg + sample.PeakPondShare))
            throw new SimulationException(FormattableString.Invariant($"Run {run} of the batch ended with a figure that is not a number. {SimulationException.OwnPartsMayBeTheCause}"));
        Give(run, sample);
    }

    /// <summary>Fills parameters with the numbers of a run.</summary>
    /// <param name="parameters">Parameters.</param>
    /// <param name="run">Run.</param>
    public void Fill(StrainingParameters parameters, int run)
    {
        StrainingNumbers mine = numbers;
        ReadOnlySpan<double> row = values.Span.Slice(run * varied.Count, varied.Count);
        for (int i = 0; i < row.Length; i++)
            varied[i].Set(ref mine, row[i]);
        parameters.Fill(mine);
    }
}
