using FlowSim.Numerics.Sampling;
using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>A setup whose uncertain inputs are set from draws: many runs at once.</summary>
internal sealed class StrainingBatch : IBatchModel
{
    /// <summary>1 in a run that runs over, else 0.</summary>
    public const int OverflowOutput = 0;

    /// <summary>ln of the time to 95 % strained, s; of the longest time for a run that never gets there.</summary>
    public const int StrainTimeOutput = 1;

    /// <summary>How near a run comes to running over, continuous: the deepest pond's share of the rim below 1, from <see cref="RunsOver"/> on 1 and the kilograms that ran over.</summary>
    public const int SeverityOutput = 2;

    /// <summary>Severity from which a run runs over.</summary>
    public const double RunsOver = 1;

    /// <summary>Runs that are prepared at a time: enough to keep every processor busy, few enough to stay in the cache.</summary>
    private const int Chunk = 4096;

    /// <summary>Shortest time whose logarithm is taken, s.</summary>
    private const double LeastSeconds = 1e-3;

    private readonly SpreadInputs _inputs;
    private readonly StrainingEnsemble _ensemble;
    private readonly int[] _columns;
    private readonly Distribution[] _spreads;
    private readonly double _longestLn;
    private readonly double[] _values;
    private readonly double[] _points;
    private readonly StrainingSample[] _samples = new StrainingSample[Chunk];

    /// <summary>A variant of a setup under the spreads of the question.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="inputs">Inputs. One that does nothing in this setup, as the depth to ride where nobody rides, is left out; its draws are then idle.</param>
    /// <param name="options">How it is computed.</param>
    /// <param name="moved">Inputs whose spread is carried to the value in this setup.</param>
    public StrainingBatch(StrainingSetup setup, SpreadInputs inputs, EnsembleOptions options, params ReadOnlySpan<StrainingInput> moved)
    {
        _inputs = inputs;
        Setup = setup;
        var columns = new List<int>();
        var spreads = new List<Distribution>();
        for (int i = 0; i < inputs.Count; i++)
        {
            UncertainInput given = inputs.Given[i];
            if (!given.Input.AppliesTo(setup))
                continue;
            Distribution spread = moved.Contains(given.Input) ? MovedDistribution.To(given.Spread, given.Input.ValueIn(setup)) : given.Spread;
            columns.Add(i);
            spreads.Add(SpreadInputs.Cut(given, spread, setup, out _));
        }

        _columns = [.. columns];
        _spreads = [.. spreads];
        _ensemble = new StrainingEnsemble(setup, [.. columns.Select(i => inputs.Given[i].Input)], options);
        _longestLn = Math.Log(setup.Longest.Seconds);
        _values = new double[Chunk * _columns.Length];
        _points = new double[Chunk * inputs.Count];
    }

    /// <summary>The setup.</summary>
    public StrainingSetup Setup { get; }

    /// <summary>Runs made so far.</summary>
    public long Runs { get; private set; }

    /// <inheritdoc/>
    public int Dimensions => _inputs.Count;

    /// <inheritdoc/>
    public int Outputs => 3;

    /// <inheritdoc/>
    public void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
    {
        int count = points.Length / Dimensions;
        for (int done = 0; done < count; done += Chunk)
        {
            int take = Math.Min(Chunk, count - done);
            RunChunk(points.Slice(done * Dimensions, take * Dimensions), _samples.AsMemory(0, take), default, default, cancellation);
            for (int i = 0; i < take; i++)
            {
                ref readonly StrainingSample sample = ref _samples[i];
                Span<double> row = outputs.Slice((done + i) * Outputs, Outputs);
                row[OverflowOutput] = sample.RanOver ? 1 : 0;
                row[StrainTimeOutput] = double.IsNaN(sample.StrainSeconds) ? _longestLn : Math.Log(Math.Max(LeastSeconds, sample.StrainSeconds));
                row[SeverityOutput] = sample.RanOver ? RunsOver + sample.OverRimKg : Math.Min(sample.PeakPondShare, Math.BitDecrement(RunsOver));
            }
        }
    }

    /// <summary>Runs a number of draws.</summary>
    /// <param name="points">Coordinates, run by run.</param>
    /// <param name="samples">Takes what happened.</param>
    /// <param name="cancellation">Ends early.</param>
    public void Run(ReadOnlySpan<double> points, Memory<StrainingSample> samples, CancellationToken cancellation) =>
        Run(points, samples, default, default, cancellation);

    /// <summary>Runs a number of draws and reads the pond's depth.</summary>
    /// <param name="points">Coordinates, run by run.</param>
    /// <param name="samples">Takes what happened.</param>
    /// <param name="timesS">Times to read at, s.</param>
    /// <param name="depthsM">Takes the depths, m, run by run.</param>
    /// <param name="cancellation">Ends early.</param>
    public void Run(ReadOnlySpan<double> points, Memory<StrainingSample> samples, ReadOnlyMemory<double> timesS, Memory<double> depthsM, CancellationToken cancellation)
    {
        for (int done = 0; done < samples.Length; done += Chunk)
        {
            int take = Math.Min(Chunk, samples.Length - done);
            RunChunk(
                points.Slice(done * Dimensions, take * Dimensions),
                samples.Slice(done, take),
                timesS,
                depthsM.Slice(done * timesS.Length, take * timesS.Length),
                cancellation);
        }
    }

    private void RunChunk(ReadOnlySpan<double> points, Memory<StrainingSample> samples, ReadOnlyMemory<double> timesS, Memory<double> depthsM, CancellationToken cancellation)
    {
        Span<double> tied = _points.AsSpan(0, points.Length);
        points.CopyTo(tied);
        _inputs.Correlate(tied);
        int width = _columns.Length, count = samples.Length;
        for (int j = 0; j < width; j++)
        {
            Distribution spread = _spreads[j];
            for (int i = 0; i < count; i++)
                _values[(i * width) + j] = spread.Quantile(tied[(i * Dimensions) + _columns[j]]);
        }

        _ensemble.Run(_values.AsMemory(0, count * width), samples, timesS, depthsM, progress: null, cancellation);
        Runs += count;
    }
}
