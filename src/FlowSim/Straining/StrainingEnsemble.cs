namespace FlowSim.Straining;

/// <summary>Many runs of one setup whose inputs vary.</summary>
/// <remarks>
/// Run i depends on its own values alone: not on the threads, the lanes or the other runs. An instance serves one caller at a
/// time; buffers are made once, so that a batch allocates nothing per run.
/// </remarks>
public sealed class StrainingEnsemble
{
    private static readonly StrainingObservable[] s_pondDepth = [StrainingObservable.PondDepth];

    private readonly StrainingParameters _base;
    private readonly StrainingNumbers _numbers;
    private readonly EnsembleOptions _options;
    private readonly (double Low, double High)[] _ranges;
    private readonly List<EnsembleWorker> _workers = [];

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
        _ranges = [.. Varied.Select(input => input.RangeIn(setup))];
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
        Run(values, samples, default(EnsembleTrace), progress, cancellation);

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
        if (depthsM.Length != (long)samples.Length * timesS.Length)
            throw new ArgumentException($"{samples.Length} runs read at {timesS.Length} times give {(long)samples.Length * timesS.Length} depths; there is room for {depthsM.Length}.", nameof(depthsM));
        Run(values, samples, new EnsembleTrace { TimesS = timesS, Quantities = s_pondDepth, Values = depthsM }, progress, cancellation);
    }

    /// <summary>Runs a batch and reads quantities at given times.</summary>
    /// <param name="values">Values of the varied inputs, as in the other overloads.</param>
    /// <param name="samples">Takes what happened in each run.</param>
    /// <param name="trace">What is read.</param>
    /// <param name="progress">Told how many runs are done.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    internal void Run(ReadOnlyMemory<double> values, Memory<StrainingSample> samples, EnsembleTrace trace, IProgress<long>? progress = null, CancellationToken cancellation = default)
    {
        int count = samples.Length;
        if (values.Length != (long)count * Varied.Count)
            throw new ArgumentException($"{count} runs of {Varied.Count} inputs take {(long)count * Varied.Count} values; there are {values.Length}.", nameof(values));
        RequireValues(values.Span);
        var batch = new EnsembleBatch(_numbers, Varied, values, samples, trace, _options.RelativeTolerance, progress, cancellation);
        int threads = Math.Clamp(Math.Min(_options.Threads ?? Environment.ProcessorCount, (count + 7) / 8), 1, 1024);
        if (threads == 1)
        {
            Worker(0).Work(batch);
            return;
        }

        // Workers are made here, once; a thread takes one each.
        for (int i = 0; i < threads; i++)
            Worker(i);
        try
        {
            Parallel.For(0, threads, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancellation }, i => _workers[i].Work(batch));
        }
        catch (AggregateException several)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(several.InnerExceptions[0]);
        }
    }

    private EnsembleWorker Worker(int index)
    {
        if (index == _workers.Count)
            _workers.Add(EnsembleWorker.Of(_options, _base.Another()));
        return _workers[index];
    }

    private void RequireValues(ReadOnlySpan<double> values)
    {
        for (int i = 0; i < values.Length; i++)
        {
            int input = i % Varied.Count;
            (double low, double high) = _ranges[input];
            if (!EquipmentCheck.IsWithin(values[i], low, high))
                throw new ArgumentOutOfRangeException(nameof(values), values[i], FormattableString.Invariant($"{Varied[input].Name} of run {i / Varied.Count} is {values[i]:G6} {Varied[input].Unit}; it must be within {low:G6} to {high:G6}."));
        }
    }
}
