namespace FlowSim.Numerics.Sampling;

/// <summary>Sums over the runs of each replicate of one output, and the indices from all replicates or all but one.</summary>
internal sealed class SobolSums
{
    // Outputs that differ by less than this share of their size differ by rounding only.
    private const double Rounding = 1e-13;

    private readonly int _replicates;
    private readonly double _points;
    private readonly double[] _values;
    private readonly double[] _squares;
    private readonly double[][] _products;
    private readonly double[][] _differences;
    private readonly double[][] _squaredDifferences;

    public SobolSums(SobolRuns runs, int output)
    {
        _replicates = runs.Replicates;
        _points = runs.Points;
        _values = new double[_replicates];
        _squares = new double[_replicates];
        _products = [.. Enumerable.Range(0, runs.Groups).Select(_ => new double[_replicates])];
        _differences = [.. Enumerable.Range(0, runs.Groups).Select(_ => new double[_replicates])];
        _squaredDifferences = [.. Enumerable.Range(0, runs.Groups).Select(_ => new double[_replicates])];
        Centre = FindCentre(runs, output);
        for (int r = 0; r < _replicates; r++)
        {
            for (int i = 0; i < runs.Points; i++)
            {
                // Deviations from the mean: a large mean would cancel away the small indices.
                double a = runs.At(r, i, 0, output) - Centre;
                double b = runs.At(r, i, 1, output) - Centre;
                _values[r] += a + b;
                _squares[r] += a * a + b * b;
                for (int g = 0; g < runs.Groups; g++)
                {
                    double difference = runs.At(r, i, 2 + g, output) - Centre - a;
                    _products[g][r] += b * difference;
                    _differences[g][r] += difference;
                    _squaredDifferences[g][r] += 0.5 * difference * difference;
                }
            }
        }
    }

    /// <summary>Mean of the outputs at A and B.</summary>
    public double Centre { get; }

    public bool IsConstant { get; private set; }

    /// <summary>Variance of the output from all replicates but one; −1 for all.</summary>
    public double Variance(int without)
    {
        double mean = Sum(_values, without) / (2 * Count(without));
        return Sum(_squares, without) / (2 * Count(without)) - mean * mean;
    }

    public double FirstOrder(int group, int without)
    {
        double mean = Sum(_values, without) / (2 * Count(without));
        return (Sum(_products[group], without) - mean * Sum(_differences[group], without)) / Count(without) / Variance(without);
    }

    public double Total(int group, int without) => Sum(_squaredDifferences[group], without) / Count(without) / Variance(without);

    private double Count(int without) => _points * (without < 0 ? _replicates : _replicates - 1);

    private static double Sum(double[] sums, int without)
    {
        double sum = 0;
        for (int r = 0; r < sums.Length; r++)
        {
            if (r != without) sum += sums[r];
        }
        return sum;
    }

    private double FindCentre(SobolRuns runs, int output)
    {
        double sum = 0, low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int r = 0; r < runs.Replicates; r++)
        {
            for (int i = 0; i < runs.Points; i++)
            {
                for (int place = 0; place < runs.Groups + 2; place++)
                {
                    double value = runs.At(r, i, place, output);
                    if (!double.IsFinite(value)) throw new InvalidOperationException($"Output {output} is infinite in a run: it has no variance.");
                    low = Math.Min(low, value);
                    high = Math.Max(high, value);
                    if (place < 2) sum += value;
                }
            }
        }
        IsConstant = high - low <= Rounding * Math.Max(Math.Abs(low), Math.Abs(high));
        return IsConstant ? low : sum / (2.0 * runs.Points * runs.Replicates);
    }
}
