namespace FlowSim.Straining;

/// <summary>Many runs of one setup whose inputs vary.</summary>
/// <remarks>
/// Run i depends on its own values alone: not on the threads, the lanes or the other runs. An instance serves one caller at a
/// time; buffers are made once, so that a batch allocates nothing per run.
/// </remarks>
public sealed class StrainingEnsemble
{
    private readonly StrainingParameters _base;
    private readonly StrainingNumbers _numbers;
    private readonly EnsembleOptions _options;

    /// <summary>Prepares an ensemble.</summary>
    /// <param name="setup">The setup; what does not vary is as it stands there.</param>
    /// <param name="varied">Inputs that vary, in the order in which their values will come.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range, or an input is named twice.</exception>
    public StrainingEnsemble(StrainingSetup setup, IReadOnlyList<StrainingInput> varied, EnsembleOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(varied);
        _options = options ?? new EnsembleOptions();
        _options.Require();
        _base = new StrainingParameters(setup);
        _numbers = StrainingNumbers.Of(setup);
        Varied = [.. varied];
        if (Varied.GroupBy(input => input.Name, StringComparer.Ordinal).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw new ArgumentException($"The input {twice.Key} is named twice.", nameof(varied));
    }

    /// <summary>The inputs that vary.</summary>
    public IReadOnlyList<StrainingInput> Varied { get; }

    /// <summary>Runs a batch.</summary>
    /// <param name="values">Values of the varied inputs, SI, run by run: count × <see cref="Varied"/>. Each within <see cref="StrainingInput.RangeIn"/>.</param>
    /// <param name="samples">Takes what happened in each run.</param>
    /// <param name="progress">Told how many runs are done.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">The lengths do not fit.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number or outside what its input may be in this setup.</exception>
    /// <exception cref="SimulationException">A run could not be resolved; the message names it.</exception>
    public void Run(ReadOnlyMemory<double> values, Memory<StrainingSample> samples, IProgress<long>? progress = null, CancellationToken cancellation = default) =>
        Run(values, samples, default, default, progress, cancellation);

    /// <summary>Runs a batch and reads the depth of the pond at given times.</summary>
    /// <param name="values">Values of the varied inputs, as in the other overload.</param>
    /// <param name="samples">Takes what happened in each run.</param>
    /// <param name="timesS">Times, s, from 0, increasing.</param>
    /// <param name="depthsM">Takes the depth of the pond at those times, m, run by run: count × times; NaN after a run's end.</param>
    /// <param name="progress">Told how many runs are done.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    public void Run(
        ReadOnlyMemory<double> values,
        Memory<StrainingSample> samples,
        ReadOnlyMemory<double> timesS,
        Memory<double> depthsM,
        IProgress<long>? progress = null,
        CancellationToken cancellation = default)
    {
        int count = samples.Length;
        if (values.Length != (long)count * Varied.Count)
            throw new ArgumentException($"{count} runs of {Varied.Count} inputs take {(long)count * Varied.Count} values; there are {values.Length}.", nameof(values));
        if (depthsM.Length != (long)count * timesS.Length)
            throw new ArgumentException($"{count} runs read at {timesS.Length} times give {(long)count * timesS.Length} depths; there is room for {depthsM.Length}.", nameof(depthsM));

        StrainingParameters parameters = _base.Another();
        var integration = new StrainingIntegration(parameters, _options.RelativeTolerance);
        for (int run = 0; run < count; run++)
        {
            cancellation.ThrowIfCancellationRequested();
            StrainingNumbers numbers = _numbers;
            for (int i = 0; i < Varied.Count; i++)
                Varied[i].Set(ref numbers, values.Span[(run * Varied.Count) + i]);
            parameters.Fill(numbers);
            PondTrace? trace = timesS.IsEmpty ? null : new PondTrace(parameters, timesS, depthsM.Slice(run * timesS.Length, timesS.Length));
            samples.Span[run] = StrainingReport.Sample(parameters, integration.Run(series: null, cancellation, trace));
            progress?.Report(run + 1);
        }
    }
}
