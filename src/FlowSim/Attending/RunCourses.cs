using FlowSim.Calibration;
using FlowSim.Straining;

namespace FlowSim.Attending;

/// <summary>One setup run with every draw of what it may be: what came of each, and what could be read off it over time.</summary>
internal sealed class RunCourses
{
    private readonly double[] _timesS;
    private readonly StrainingObservable[] _quantities;
    private readonly double[] _values;

    /// <summary>Makes the runs.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="drawn">Draws.</param>
    /// <param name="timesS">Times to read at, s, from 0, increasing; empty for none.</param>
    /// <param name="quantities">Quantities to read.</param>
    /// <param name="threads">Threads at work.</param>
    /// <param name="cancellation">Ends early.</param>
    public RunCourses(StrainingSetup setup, RunDrawn drawn, double[] timesS, StrainingObservable[] quantities, int? threads, CancellationToken cancellation)
    {
        (_timesS, _quantities) = (timesS, quantities);
        int[] columns = drawn.Applying(setup);
        StrainingInput[] inputs = [.. columns.Select(j => drawn.Inputs[j]!)];
        (double Low, double High)[] ranges = [.. inputs.Select(input => input.RangeIn(setup))];
        double[] values = new double[drawn.Count * columns.Length];
        for (int i = 0; i < drawn.Count; i++)
        {
            for (int j = 0; j < columns.Length; j++)
                values[(i * columns.Length) + j] = Math.Clamp(drawn.Values[(i * drawn.Width) + columns[j]], ranges[j].Low, ranges[j].High);
        }

        Samples = new StrainingSample[drawn.Count];
        _values = new double[drawn.Count * timesS.Length * quantities.Length];
        var trace = new EnsembleTrace { TimesS = timesS, Quantities = quantities, Values = _values, HoldsLast = true };
        new StrainingEnsemble(setup, inputs, new EnsembleOptions { Threads = threads }).Run(values, Samples, timesS.Length == 0 ? default : trace, progress: null, cancellation);
    }

    /// <summary>What came of each run.</summary>
    public StrainingSample[] Samples { get; }

    /// <summary>Whether a quantity was read.</summary>
    /// <param name="quantity">Quantity.</param>
    public bool Reads(StrainingObservable quantity) => Array.IndexOf(_quantities, quantity) >= 0;

    /// <summary>A quantity of a run at a time.</summary>
    /// <param name="run">Run.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="seconds">Time, s.</param>
    public double At(int run, StrainingObservable quantity, double seconds) => CourseGrid.At(_timesS, Of(run, quantity), seconds);

    /// <summary>When a quantity of a run first exceeds a value after a time, s: +∞ when it does not.</summary>
    /// <param name="run">Run.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="value">Value, SI.</param>
    /// <param name="fromS">Time, s.</param>
    public double FirstAbove(int run, StrainingObservable quantity, double value, double fromS)
    {
        ReadOnlySpan<double> course = Of(run, quantity);
        if (CourseGrid.At(_timesS, course, fromS) >= value)
            return fromS;
        for (int i = 1; i < _timesS.Length; i++)
        {
            if (_timesS[i] <= fromS || course[i] < value)
                continue;
            double rise = course[i] - course[i - 1];
            double share = rise > 0 ? Math.Clamp((value - course[i - 1]) / rise, 0, 1) : 1;
            return Math.Max(fromS, _timesS[i - 1] + (share * (_timesS[i] - _timesS[i - 1])));
        }

        return double.PositiveInfinity;
    }

    private ReadOnlySpan<double> Of(int run, StrainingObservable quantity)
    {
        int place = Array.IndexOf(_quantities, quantity);
        return _values.AsSpan(((run * _quantities.Length) + place) * _timesS.Length, _timesS.Length);
    }
}
