namespace FlowSim.Numerics.Sampling;

/// <summary>Independent uniform points from a counter-based generator (Philox4x32-10): point n of a seed and replicate is always the same.</summary>
/// <param name="dimensions">Coordinates of a point, 1 to 2²⁴.</param>
/// <param name="seed">Seed; any number.</param>
/// <param name="replicate">Which of many independent sets of the same seed, from 0.</param>
/// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
public sealed class RandomPoints(int dimensions, ulong seed, int replicate = 0) : IPointSet
{
    private readonly ulong _seed = seed;
    private readonly int _replicate = Arguments.From(0, replicate);

    /// <inheritdoc/>
    public int Dimensions { get; } = Arguments.From(1, dimensions, 1 << 24);

    /// <inheritdoc/>
    public void Fill(long first, Span<double> points)
    {
        int count = PointRoom.Count(first, points, Dimensions, long.MaxValue);
        for (int i = 0; i < count; i++)
        {
            Span<double> point = points.Slice(i * Dimensions, Dimensions);
            for (int d = 0; d < point.Length; d += 2)
            {
                (ulong a, ulong b) = Philox.Pair(_seed, RandomStream.Points, _replicate, (ulong)(first + i), d / 2);
                point[d] = Philox.Unit(a);
                if (d + 1 < point.Length) point[d + 1] = Philox.Unit(b);
            }
        }
    }
}
