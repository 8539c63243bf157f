namespace FlowSim.Numerics.Sampling;

/// <summary>The checks that all point sets share.</summary>
internal static class PointRoom
{
    /// <summary>How many points there is room for.</summary>
    public static int Count(long first, Span<double> points, int dimensions, long size)
    {
        if (points.Length % dimensions != 0)
        {
            throw Arguments.Bad(nameof(points), points.Length, FormattableString.Invariant($"must hold a whole number of points of {dimensions} coordinates"));
        }
        int count = points.Length / dimensions;
        Arguments.From(0, first, size - count);
        return count;
    }

    public static IPointSet Create(PointKind kind, int dimensions, ulong seed, int replicate) => kind switch
    {
        PointKind.ScrambledSobol => new ScrambledSobol(dimensions, seed, replicate),
        PointKind.Random => new RandomPoints(dimensions, seed, replicate),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no such kind of points."),
    };
}
