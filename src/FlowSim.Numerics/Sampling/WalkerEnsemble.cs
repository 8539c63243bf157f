using System.Globalization;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Walkers in two halves: each half moves as one batch, guided by where the other stands. All that is random comes from a counter, so that
/// step and walker alone decide it.
/// </summary>
internal sealed class WalkerEnsemble
{
    // Goodman and Weare's a, and the share of difference moves of full length, which jump between modes (ter Braak).
    private const double Stretch = 2;
    private const double LongMoves = 0.1;

    // Spread of the length of a difference move, so that walkers do not stay on a lattice.
    private const double Jitter = 1e-5;

    private readonly ILogDensity _density;
    private readonly ulong _seed;
    private readonly double _differences;
    private readonly double _grid;
    private readonly int _dimensions;
    private readonly int _half;
    private readonly double[] _proposals;
    private readonly double[] _answers;
    private readonly double[] _corrections;

    public WalkerEnsemble(ILogDensity density, double[] positions, ulong seed, double differences, double grid = 0)
    {
        _density = density;
        _seed = seed;
        _differences = differences;
        _grid = grid;
        _dimensions = density.Dimensions;
        Walkers = positions.Length / _dimensions;
        _half = Walkers / 2;
        Positions = positions;
        LogDensities = new double[Walkers];
        PutOnGrid(positions);
        _proposals = new double[_half * _dimensions];
        _answers = new double[_half];
        _corrections = new double[_half];
    }

    public int Walkers { get; }

    /// <summary>Where the walkers are, row by row.</summary>
    public double[] Positions { get; }

    public double[] LogDensities { get; }

    public long Evaluations { get; private set; }

    /// <summary>Evaluates points; impossible ones answer −∞.</summary>
    public void Evaluate(ReadOnlySpan<double> points, Span<double> answers, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        _density.Evaluate(points, answers, cancellation);
        cancellation.ThrowIfCancellationRequested();
        Evaluations += answers.Length;
        for (int i = 0; i < answers.Length; i++)
        {
            if (double.IsNaN(answers[i])) answers[i] = double.NegativeInfinity;
            if (answers[i] != double.PositiveInfinity) continue;
            string point = string.Join(", ", points.Slice(i * _dimensions, _dimensions).ToArray().Select(x => x.ToString("R", CultureInfo.InvariantCulture)));
            throw new InvalidOperationException($"The density is infinite at the point ({point}).");
        }
    }

    /// <summary>Puts coordinates on the nearest points of the grid, if there is one.</summary>
    public void PutOnGrid(Span<double> coordinates)
    {
        if (_grid == 0) return;
        foreach (ref double value in coordinates)
        {
            // From here on the numbers themselves are no nearer to each other.
            if (Math.Abs(value) < _grid * (1L << 52)) value = Math.Round(value / _grid) * _grid;
        }
    }

    /// <summary>Moves every walker once.</summary>
    /// <param name="step">Number of the step.</param>
    /// <param name="moved">Counts the moves of each walker.</param>
    /// <param name="cancellation">Asks to stop.</param>
    public void Step(int step, int[] moved, CancellationToken cancellation)
    {
        Move(step, 0, _half, moved, cancellation);
        Move(step, _half, 0, moved, cancellation);
    }

    private void Move(int step, int first, int others, int[] moved, CancellationToken cancellation)
    {
        for (int i = 0; i < _half; i++) Propose(step, first + i, others, i);
        Evaluate(_proposals, _answers, cancellation);
        for (int i = 0; i < _half; i++)
        {
            int walker = first + i;
            (_, ulong bits) = Words(step, walker, 1);
            if (!(Math.Log(Philox.Unit(bits)) < _corrections[i] + _answers[i] - LogDensities[walker])) continue;
            _proposals.AsSpan(i * _dimensions, _dimensions).CopyTo(Positions.AsSpan(walker * _dimensions));
            LogDensities[walker] = _answers[i];
            moved[walker]++;
        }
    }

    private void Propose(int step, int walker, int others, int slot)
    {
        (ulong kind, ulong partner) = Words(step, walker, 0);
        ReadOnlySpan<double> x = Positions.AsSpan(walker * _dimensions, _dimensions);
        ReadOnlySpan<double> a = Positions.AsSpan((others + Index(partner, _half)) * _dimensions, _dimensions);
        Span<double> proposal = _proposals.AsSpan(slot * _dimensions, _dimensions);
        double share = Philox.Unit(kind);
        if (share < _differences)
        {
            (ulong second, ulong jitter) = Words(step, walker, 2);
            int skip = Index(partner, _half);
            int other = Index(second, _half - 1);
            ReadOnlySpan<double> b = Positions.AsSpan((others + (other < skip ? other : other + 1)) * _dimensions, _dimensions);
            double length = share < LongMoves * _differences ? 1 : 2.38 / Math.Sqrt(2 * _dimensions);
            length *= 1 + Jitter * StandardNormal.Quantile(Philox.Unit(jitter));
            for (int d = 0; d < _dimensions; d++) proposal[d] = x[d] + length * (a[d] - b[d]);
            _corrections[slot] = 0;
        }
        else
        {
            (ulong bits, _) = Words(step, walker, 1);
            double root = 1 + (Stretch - 1) * Philox.Unit(bits);
            double z = root * root / Stretch;
            for (int d = 0; d < _dimensions; d++) proposal[d] = a[d] + z * (x[d] - a[d]);
            _corrections[slot] = (_dimensions - 1) * Math.Log(z);
        }
        PutOnGrid(proposal);
        foreach (double value in proposal)
        {
            // Beyond the numbers there is nothing: stay.
            if (double.IsFinite(value)) continue;
            x.CopyTo(proposal);
            _corrections[slot] = double.NegativeInfinity;
            break;
        }
    }

    private (ulong, ulong) Words(int step, int walker, int block) =>
        Philox.Pair(_seed, RandomStream.Walkers, walker, (ulong)step, block);

    private static int Index(ulong bits, int count) => Math.Min(count - 1, (int)(Philox.Unit(bits) * count));
}
