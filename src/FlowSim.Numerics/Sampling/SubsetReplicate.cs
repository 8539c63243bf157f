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
    private readonly SubsetOptions _options;
    private readonly double[] _spread;
    private readonly double[] _sigma;
    private readonly double[] _rho;
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

    public SubsetReplicate(int number, int dimensions, SubsetOptions options)
    {
        _number = number;
        _dimensions = dimensions;
        _options = options;
        _spread = new double[dimensions];
        _sigma = new double[dimensions];
        _rho = new double[dimensions];
        _points = new double[Size * dimensions];
        _previousPoints = new double[Size * dimensions];
        _proposals = new double[Size * dimensions];
        _values = new double[Size];
        _previousValues = new double[Size];
        Chains = Size;
    }

    /// <summary>Probability of the level reached, as this replicate sees it; 0 once none of its points reached a level.</summary>
    public double Reached { get; private set; } = 1;

    /// <summary>Level at work, from 0.</summary>
    public int Level { get; private set; }

    /// <summary>Chains of this level; of level 0, its points.</summary>
    public int Chains { get; private set; }

    /// <summary>Outputs of the points of this level; none of a replicate that stayed behind.</summary>
    public ReadOnlySpan<double> Values => _values.AsSpan(0, Chains == 0 ? 0 : _known);

    /// <summary>Points asked for last, in standard normal space.</summary>
    public ReadOnlySpan<double> Proposals => _proposals.AsSpan(0, _asked * _dimensions);

    private int Size => _options.PointsPerLevel;

    /// <summary>Makes the next points to be evaluated and says how many: none when the level is complete.</summary>
    public int Propose()
    {
        if (Chains == 0 || _known == Size) return _asked = 0;
        if (Level == 0)
        {
            new RandomPoints(_dimensions, _options.Seed, _number).Fill(0, _proposals);
            for (int i = 0; i < _proposals.Length; i++) _proposals[i] = StandardNormal.Quantile(_proposals[i]);
            return _asked = Size;
        }
        _asked = Math.Min(Chains, Size - _known);
        for (int d = 0; d < _dimensions; d++)
        {
            _sigma[d] = Math.Min(1, _step * _spread[d]);
            _rho[d] = Math.Sqrt(1 - _sigma[d] * _sigma[d]);
        }
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
            v[d] = _rho[d] * u[d] + _sigma[d] * StandardNormal.Quantile(Philox.Unit(a));
            if (d + 1 < _dimensions) v[d + 1] = _rho[d + 1] * u[d + 1] + _sigma[d + 1] * StandardNormal.Quantile(Philox.Unit(b));
        }
    }

    /// <summary>Starts the chains of a level from the points at or above it.</summary>
    public void Begin(double level)
    {
        _level = level;
        Level++;
        if (Chains == 0) return;
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
        if (Chains > 0) MeasureSpread();
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
