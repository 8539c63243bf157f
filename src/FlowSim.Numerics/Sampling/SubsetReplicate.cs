namespace FlowSim.Numerics.Sampling;

/// <summary>
/// One replicate of subset simulation, as a machine that proposes points and learns their outputs. The points of a level lie step by step: first the
/// starts of all chains, then where each went in its first step, and so on.
/// </summary>
internal sealed class SubsetReplicate
{
    // Papaioannou et al. (2015): the acceptance that serves best, and where the adaptation starts.
    private const double BestAcceptance = 0.44;
    private const double FirstStep = 0.6;

    // With fewer starts their spread is not known and the steps are not fitted to it.
    private const int FewestForSpread = 10;

    private readonly int _number;
    private readonly int _dimensions;
    private readonly double _threshold;
    private readonly SubsetOptions _options;
    private readonly double[] _spread;
    private double[] _points;
    private double[] _values;
    private double[] _previousPoints;
    private double[] _previousValues;
    private double[] _proposals;

    // What is known of this level, and the last question.
    private int _known;
    private int _asked;
    private double _level = double.NegativeInfinity;
    private double _step = FirstStep;
    private int _adaptations;

    public SubsetReplicate(int number, int dimensions, double threshold, SubsetOptions options)
    {
        _number = number;
        _dimensions = dimensions;
        _threshold = threshold;
        _options = options;
        _spread = new double[dimensions];
        _points = new double[Size * dimensions];
        _previousPoints = new double[Size * dimensions];
        _proposals = new double[Size * dimensions];
        _values = new double[Size];
        _previousValues = new double[Size];
        Chains = Size;
    }

    /// <summary>Probability of the threshold; 0 until it is reached.</summary>
    public double Probability { get; private set; }

    /// <summary>Probability of the level reached.</summary>
    public double Reached { get; private set; } = 1;

    /// <summary>Level at work, from 0.</summary>
    public int Level { get; private set; }

    /// <summary>Chains of this level; of level 0, its points.</summary>
    public int Chains { get; private set; }

    /// <summary>Points of the last level at or above the threshold.</summary>
    public int Hits { get; private set; }

    /// <summary>Points asked for last, in standard normal space.</summary>
    public ReadOnlySpan<double> Proposals => _proposals.AsSpan(0, _asked * _dimensions);

    private int Size => _options.PointsPerLevel;

    private bool IsFinished { get; set; }

    /// <summary>Makes the next points to be evaluated and says how many: none when finished.</summary>
    public int Propose()
    {
        if (_known == Size) NextLevel();
        if (IsFinished) return _asked = 0;
        if (Level == 0)
        {
            new RandomPoints(_dimensions, _options.Seed, _number).Fill(0, _proposals);
            for (int i = 0; i < _proposals.Length; i++) _proposals[i] = StandardNormal.Quantile(_proposals[i]);
            return _asked = Size;
        }
        _asked = Math.Min(Chains, Size - _known);
        for (int i = 0; i < _asked; i++) Move(_known - Chains + i, i);
        return _asked;
    }

    /// <summary>Takes the outputs of the points asked for.</summary>
    public void Learn(ReadOnlySpan<double> outputs)
    {
        if (Level == 0)
        {
            _proposals.CopyTo(_points, 0);
            outputs.CopyTo(_values);
            _known = Size;
            return;
        }
        int accepted = 0;
        for (int i = 0; i < _asked; i++)
        {
            bool accept = outputs[i] >= _level;
            if (accept) accepted++;
            ReadOnlySpan<double> point = accept
                ? _proposals.AsSpan(i * _dimensions, _dimensions)
                : _points.AsSpan((_known - Chains + i) * _dimensions, _dimensions);
            point.CopyTo(_points.AsSpan((_known + i) * _dimensions));
            _values[_known + i] = accept ? outputs[i] : _values[_known - Chains + i];
        }
        _known += _asked;
        _adaptations++;
        _step *= Math.Exp(((double)accepted / _asked - BestAcceptance) / Math.Sqrt(_adaptations));
    }

    /// <summary>A step of the chain whose last point is given, v = ρ u + √(1 − ρ²) ξ in each coordinate.</summary>
    private void Move(int from, int to)
    {
        ulong draw = (ulong)Level << 32 | (uint)(_known + to);
        ReadOnlySpan<double> u = _points.AsSpan(from * _dimensions, _dimensions);
        Span<double> v = _proposals.AsSpan(to * _dimensions, _dimensions);
        for (int d = 0; d < _dimensions; d += 2)
        {
            (ulong a, ulong b) = Philox.Pair(_options.Seed, RandomStream.Chains, _number, draw, d / 2);
            v[d] = Moved(u[d], d, a);
            if (d + 1 < _dimensions) v[d + 1] = Moved(u[d + 1], d + 1, b);
        }

        double Moved(double from, int d, ulong bits)
        {
            double sigma = Math.Min(1, _step * _spread[d]);
            return Math.Sqrt(1 - sigma * sigma) * from + sigma * StandardNormal.Quantile(Philox.Unit(bits));
        }
    }

    private void NextLevel()
    {
        Hits = _values.Count(value => value >= _threshold);
        double? level = FindLevel();
        if (level is null || level >= _threshold || Level == _options.HighestLevels)
        {
            Probability = Reached * Hits / Size;
            IsFinished = true;
            return;
        }
        _level = level.Value;
        (_points, _previousPoints) = (_previousPoints, _points);
        (_values, _previousValues) = (_previousValues, _values);
        Chains = 0;
        for (int i = 0; i < Size; i++)
        {
            if (_previousValues[i] < _level) continue;
            _previousPoints.AsSpan(i * _dimensions, _dimensions).CopyTo(_points.AsSpan(Chains * _dimensions));
            _values[Chains++] = _previousValues[i];
        }
        Reached *= (double)Chains / Size;
        _known = Chains;
        Level++;
        MeasureSpread();
    }

    /// <summary>
    /// The level that a share p₀ of the points lies at or above. Where that level is a flat part that holds all the points, the next value above it;
    /// none if there is none.
    /// </summary>
    private double? FindLevel()
    {
        double[] sorted = [.. _values];
        Array.Sort(sorted);
        double level = sorted[Size - (int)Math.Ceiling(_options.LevelProbability * Size)];
        if (level > sorted[0]) return level;
        int above = Array.FindIndex(sorted, value => value > level);
        return above < 0 ? null : sorted[above];
    }

    private void MeasureSpread()
    {
        for (int d = 0; d < _dimensions; d++)
        {
            if (Chains < FewestForSpread)
            {
                _spread[d] = 1;
                continue;
            }
            double sum = 0, squares = 0;
            for (int i = 0; i < Chains; i++) sum += _points[i * _dimensions + d];
            for (int i = 0; i < Chains; i++) squares += Math.Pow(_points[i * _dimensions + d] - sum / Chains, 2);
            _spread[d] = Math.Sqrt(squares / (Chains - 1));
        }
    }
}
