using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>Runs of a setup under spreads: what each drew and what came of it.</summary>
internal sealed class PredictionDraws
{
    /// <summary>Draws: enough for quantiles to a few per cent, few enough to be done in a moment.</summary>
    public const int Count = 4096;

    private readonly SpreadInputs _inputs;
    private readonly double[] _values;
    private readonly double[] _outputs;
    private readonly int _width;

    /// <summary>Makes the runs.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="inputs">What varies.</param>
    /// <param name="correlations">What goes together; those of inputs that do not vary are left out.</param>
    /// <param name="question">Seed and threads.</param>
    /// <param name="cancellation">Ends early.</param>
    public PredictionDraws(StrainingSetup setup, IReadOnlyList<UncertainInput> inputs, IReadOnlyList<InputCorrelation> correlations, CalibrationQuestion question, CancellationToken cancellation)
    {
        Setup = setup;
        HashSet<string> names = [.. inputs.Select(input => input.Input.Name)];
        _inputs = new SpreadInputs(inputs, [.. correlations.Where(correlation => names.Contains(correlation.One) && names.Contains(correlation.Other))]);
        var batch = new StrainingBatch(setup, _inputs, new EnsembleOptions { Threads = question.Threads });
        double[] points = new double[Count * _inputs.Count];
        new RunDraws(_inputs.Count, question.Seed).Fill(0, points);
        _width = batch.Outputs;
        _outputs = new double[Count * _width];
        batch.Evaluate(points, _outputs, cancellation);
        _inputs.Correlate(points);
        _values = points;
        for (int j = 0; j < inputs.Count; j++)
        {
            Distribution spread = SpreadInputs.Cut(inputs[j], inputs[j].Spread, setup, out _);
            for (int i = 0; i < Count; i++)
                _values[(i * _inputs.Count) + j] = spread.Quantile(_values[(i * _inputs.Count) + j]);
        }
    }

    /// <summary>The setup.</summary>
    public StrainingSetup Setup { get; }

    /// <summary>ln of the time to 95 % strained of each run, s.</summary>
    public double[] LogTimes => Column(StrainingBatch.StrainTimeOutput);

    /// <summary>1 for each run that runs over, else 0.</summary>
    public double[] Overflows => Column(StrainingBatch.OverflowOutput);

    /// <summary>What an input was in a run, SI; what the setup says for one that does not vary.</summary>
    /// <param name="run">Run.</param>
    /// <param name="input">Input.</param>
    public double Value(int run, StrainingInput input)
    {
        for (int j = 0; j < _inputs.Count; j++)
        {
            if (_inputs.Given[j].Input == input)
                return _values[(run * _inputs.Count) + j];
        }

        return input.ValueIn(Setup);
    }

    /// <summary>Whether an input varies.</summary>
    /// <param name="input">Input.</param>
    public bool Varies(StrainingInput input) => _inputs.Given.Any(given => given.Input == input);

    /// <summary>Time to 95 % strained.</summary>
    public TimeSpread Strain()
    {
        double[] sorted = [.. LogTimes.Order()];
        double longest = Math.Log(Setup.Longest.Seconds);
        return new TimeSpread(At(0.1), At(0.5), At(0.9), sorted.Count(log => log >= longest) / (double)Count);

        Duration? At(double share)
        {
            double log = sorted[(int)(share * (Count - 1))];
            return log < longest ? Duration.FromSeconds(Math.Exp(log)) : null;
        }
    }

    private double[] Column(int output)
    {
        double[] column = new double[Count];
        for (int i = 0; i < Count; i++)
            column[i] = _outputs[(i * _width) + output];
        return column;
    }
}
