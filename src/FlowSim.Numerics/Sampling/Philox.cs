namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Philox4x32-10, a counter-based random number generator: the numbers are a function of a counter and a key and of nothing else, so that any
/// draw can be made alone, in any order and on any thread.
/// <para><b>Source</b>: J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, Parallel random numbers: as easy as 1, 2, 3, SC11 (2011), algorithm
/// and constants from memory; the known answers are those of the authors' Random123 library.</para>
/// <para><b>Checked by</b>: RandomPointsTests.cs.</para>
/// </summary>
internal static class Philox
{
    private const int Rounds = 10;
    private const uint Multiplier0 = 0xD2511F53, Multiplier1 = 0xCD9E8D57;
    private const uint Weyl0 = 0x9E3779B9, Weyl1 = 0xBB67AE85;

    /// <summary>Four random words for a counter of four words and a key of two.</summary>
    public static (uint, uint, uint, uint) Words(uint c0, uint c1, uint c2, uint c3, uint k0, uint k1)
    {
        for (int round = 0; round < Rounds; round++)
        {
            ulong product0 = (ulong)Multiplier0 * c0;
            ulong product1 = (ulong)Multiplier1 * c2;
            (c0, c1, c2, c3) = ((uint)(product1 >> 32) ^ c1 ^ k0, (uint)product1, (uint)(product0 >> 32) ^ c3 ^ k1, (uint)product0);
            k0 += Weyl0;
            k1 += Weyl1;
        }
        return (c0, c1, c2, c3);
    }

    /// <summary>Two independent random 64-bit words.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="stream">What the numbers are for: different uses of one seed must not meet.</param>
    /// <param name="replicate">Replicate.</param>
    /// <param name="index">Number of the draw.</param>
    /// <param name="block">Which pair of words of that draw, below 2²⁴.</param>
    public static (ulong, ulong) Pair(ulong seed, RandomStream stream, int replicate, ulong index, int block)
    {
        (uint a, uint b, uint c, uint d) = Words(
            (uint)index, (uint)(index >> 32), (uint)block | (uint)stream << 24, (uint)replicate, (uint)seed, (uint)(seed >> 32));
        return (a | (ulong)b << 32, c | (ulong)d << 32);
    }

    /// <summary>A uniform number strictly inside (0, 1): 52 bits, at the middle of their cell.</summary>
    public static double Unit(ulong bits) => ((bits >> 12) + 0.5) * (1.0 / (1UL << 52));
}

/// <summary>Uses of random numbers that must stay independent of each other for one seed.</summary>
internal enum RandomStream : byte
{
    /// <summary>Points of <see cref="RandomPoints"/>.</summary>
    Points = 1,

    /// <summary>Scrambling of <see cref="ScrambledSobol"/>.</summary>
    Scrambling = 2,

    /// <summary>Moves of the chains of subset simulation.</summary>
    Chains = 3,

    /// <summary>Starts of a fit's further tries.</summary>
    Restarts = 4,

    /// <summary>Moves of the walkers of an ensemble.</summary>
    Walkers = 5,

    /// <summary>Where those walkers start.</summary>
    WalkerStarts = 6,
}
