namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Sobol' points with Owen's nested uniform scrambling: each point is uniform by itself, every run of 2ᵏ points from a multiple of 2ᵏ has one
/// point in each of 2ᵏ equal slices of each coordinate, and different replicates are independent, so that their spread shows the error.
/// <para><b>Source</b>: A. B. Owen, Randomly permuted (t, m, s)-nets and (t, s)-sequences (1995), and Scrambling Sobol' and Niederreiter–Xing
/// points, J. Complexity 14 (1998) 466–489; from memory. Direction numbers: <see cref="JoeKuoDirectionNumbers"/>.</para>
/// <para><b>Checked by</b>: ScrambledSobolTests.cs.</para>
/// </summary>
/// <remarks>
/// A digit is flipped or not by a random bit that belongs to the digits before it. Those bits come from splitmix64 (Steele, Lea and Flood 2014)
/// numbered by the digits before, 63 from one word: a tree of 6 levels. Digits beyond the 32nd are random.
/// </remarks>
public sealed class ScrambledSobol : IPointSet
{
    private readonly uint[] _directions;
    private readonly ulong[] _keys;

    /// <summary>A scrambled sequence.</summary>
    /// <param name="dimensions">Coordinates of a point, 1 to <see cref="HighestDimensions"/>.</param>
    /// <param name="seed">Seed; any number.</param>
    /// <param name="replicate">Which of many independent scramblings of the same seed, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its interval.</exception>
    public ScrambledSobol(int dimensions, ulong seed, int replicate = 0)
    {
        Dimensions = Arguments.From(1, dimensions, HighestDimensions);
        Arguments.From(0, replicate);
        _directions = SobolSequence.Directions(dimensions);
        _keys = new ulong[dimensions];
        for (int d = 0; d < dimensions; d++) _keys[d] = Philox.Pair(seed, RandomStream.Scrambling, replicate, (ulong)d, 0).Item1;
    }

    /// <summary>The most coordinates there are direction numbers for.</summary>
    public static int HighestDimensions => JoeKuoDirectionNumbers.Dimensions;

    /// <inheritdoc/>
    public int Dimensions { get; }

    /// <summary>Writes consecutive points; there are 2³² of them.</summary>
    /// <inheritdoc/>
    public void Fill(long first, Span<double> points)
    {
        int count = PointRoom.Count(first, points, Dimensions, 1L << SobolSequence.Bits);
        if (count == 0) return;
        Span<uint> plain = stackalloc uint[Dimensions];
        SobolSequence.At(_directions, first, plain);
        for (int i = 0; i < count; i++)
        {
            if (i > 0) SobolSequence.Next(_directions, first + i, plain);
            Span<double> point = points.Slice(i * Dimensions, Dimensions);
            for (int d = 0; d < point.Length; d++) point[d] = Scramble(plain[d], _keys[d]);
        }
    }

    private static double Scramble(uint digits, ulong key)
    {
        // The digits before a chunk, and how many chunks they are, number the chunk's tree.
        uint flips = Flips(digits >> 26, SplitMix64(key, 0)) << 26
            | Flips(digits >> 20 & 63, SplitMix64(key, (ulong)(digits >> 26) << 3 | 1)) << 20
            | Flips(digits >> 14 & 63, SplitMix64(key, (ulong)(digits >> 20) << 3 | 2)) << 14
            | Flips(digits >> 8 & 63, SplitMix64(key, (ulong)(digits >> 14) << 3 | 3)) << 8
            | Flips(digits >> 2 & 63, SplitMix64(key, (ulong)(digits >> 8) << 3 | 4)) << 2
            | Flips((digits & 3) << 4, SplitMix64(key, (ulong)(digits >> 2) << 3 | 5)) >> 4;
        ulong rest = SplitMix64(key, (ulong)digits << 3 | 7);
        return Philox.Unit((ulong)(digits ^ flips) << 32 | rest >> 32);
    }

    /// <summary>The flips of 6 digits: at each level of the tree the bit of the node that the digits before lead to, counted from 1 at the root.</summary>
    private static uint Flips(uint chunk, ulong tree)
    {
        uint leaf = 64 | chunk;
        return (uint)((tree >> (int)(leaf >> 6) & 1) << 5
            | (tree >> (int)(leaf >> 5) & 1) << 4
            | (tree >> (int)(leaf >> 4) & 1) << 3
            | (tree >> (int)(leaf >> 3) & 1) << 2
            | (tree >> (int)(leaf >> 2) & 1) << 1
            | tree >> (int)(leaf >> 1) & 1);
    }

    /// <summary>Number <paramref name="index"/> of the splitmix64 sequence that starts at <paramref name="key"/>.</summary>
    private static ulong SplitMix64(ulong key, ulong index)
    {
        ulong z = key + (index + 1) * 0x9E3779B97F4A7C15;
        z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9;
        z = (z ^ z >> 27) * 0x94D049BB133111EB;
        return z ^ z >> 31;
    }
}
