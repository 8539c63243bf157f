using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What a timed run's readings should be, for many sets of numbers at once.</summary>
internal sealed class RunModel
{
    /// <summary>Tolerance of the integrator: what is left of it must be small beside the differences that derivatives are made from.</summary>
    private const double RelativeTolerance = 1e-8;

    private readonly StrainingEnsemble _ensemble;
    private readonly (int Number, double Low, double High)[] _varied;
    private readonly TimedSeries[] _series;
    private readonly int[] _clocks;
    private readonly double[][] _timesS;
    private readonly double[] _gridS;
    private readonly StrainingObservable[] _quantities;
    private double[] _values = [];
    private double[] _trace = [];
    private StrainingSample[] _samples = [];

    /// <summary>Prepares a run.</summary>
    /// <param name="run">The run.</param>
    /// <param name="index">Its place among the runs.</param>
    /// <param name="layout">The numbers.</param>
    /// <param name="threads">Threads at work.</param>
    /// <param name="atS">Times to read all series at in place of those of their readings, s; null for those.</param>
    public RunModel(TimedRun run, int index, FitLayout layout, int? threads, double[]? atS = null)
    {
        _series = [.. run.Series];
        _clocks = layout.Clocks[index];
        _timesS = [.. _series.Select(series => atS ?? [.. series.Readings.Select(reading => reading.At.Seconds)])];
        double margin = 4 * _series.Max(series => series.ClockOffset.Seconds);
        _gridS = CourseGrid.For(_timesS.SelectMany(times => times), margin);
        _quantities = [.. _series.Select(series => series.Quantity)];

        // A clock that is off must not find the run at its time limit.
        double longest = Math.Min(StrainingSetupCheck.LongestS, Math.Max(run.Setup.Longest.Seconds, 1.01 * _gridS[^1]));
        StrainingSetup setup = run.Setup with { Longest = UnitsNet.Duration.FromSeconds(longest) };
        int[] mine = [.. Enumerable.Range(0, layout.Count).Where(i => layout.Numbers[i] is { Input: { } input } number && (number.Run < 0 || number.Run == index) && input.AppliesTo(setup))];
        _ensemble = new StrainingEnsemble(setup, [.. mine.Select(i => layout.Numbers[i].Input!)], new EnsembleOptions { RelativeTolerance = RelativeTolerance, Threads = threads });
        _varied = [.. mine.Select(i => (i, layout.Numbers[i].Input!.RangeIn(setup).Low, layout.Numbers[i].Input!.RangeIn(setup).High))];
        Readings = _timesS.Sum(times => times.Length);
    }

    /// <summary>Readings of all series.</summary>
    public int Readings { get; }

    /// <summary>Computes what the readings should be.</summary>
    /// <param name="values">Values of all numbers, SI, row by row.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="width">Numbers in a row.</param>
    /// <param name="readings">Takes the readings, series by series, each row <paramref name="stride"/> after the last.</param>
    /// <param name="stride">Distance of the rows.</param>
    /// <param name="cancellation">Ends early.</param>
    public void Predict(ReadOnlySpan<double> values, int rows, int width, Span<double> readings, int stride, CancellationToken cancellation)
    {
        Reserve(rows);
        for (int row = 0; row < rows; row++)
        {
            for (int j = 0; j < _varied.Length; j++)
                _values[(row * _varied.Length) + j] = Math.Clamp(values[(row * width) + _varied[j].Number], _varied[j].Low, _varied[j].High);
        }

        var trace = new EnsembleTrace { TimesS = _gridS, Quantities = _quantities, Values = _trace.AsMemory(0, rows * _gridS.Length * _quantities.Length), HoldsLast = true };
        _ensemble.Run(_values.AsMemory(0, rows * _varied.Length), _samples.AsMemory(0, rows), trace, progress: null, cancellation);
        for (int row = 0; row < rows; row++)
        {
            int at = row * stride;
            for (int s = 0; s < _series.Length; s++)
            {
                ReadOnlySpan<double> course = trace.Of(row, s);
                double clock = values[(row * width) + _clocks[s]], zero = values[(row * width) + _clocks[s] + 1];
                foreach (double t in _timesS[s])
                    readings[at++] = CourseGrid.At(_gridS, course, t + clock) + zero;
            }
        }
    }

    /// <summary>End of each row's run in the last prediction, s.</summary>
    /// <param name="row">Row.</param>
    public double EndS(int row) => _samples[row].EndSeconds;

    private void Reserve(int rows)
    {
        if (_samples.Length >= rows)
            return;
        _samples = new StrainingSample[rows];
        _values = new double[rows * _varied.Length];
        _trace = new double[rows * _gridS.Length * _quantities.Length];
    }
}
