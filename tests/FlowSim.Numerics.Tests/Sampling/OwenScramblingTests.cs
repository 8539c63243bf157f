using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>The scrambling digit by digit, as it is described: a plain second way to the same points.</summary>
public class OwenScramblingTests
{
    /// <summary>The first numbers of splitmix64 from the seed 1234567, as they are given in many places (from memory): the generator below is that one.</summary>
    [Fact]
    public void The_generator_of_the_flips()
    {
        ulong[] known = [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821];
        Assert.Equal(known, Enumerable.Range(0, 5).Select(i => SplitMix64(1234567, (ulong)i)));
    }

    /// <summary>Places in the sequence from its first to its last point, so that every digit is looked at.</summary>
    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(7, 3, 1_000_000)]
    [InlineData(99, 1, 3_141_592_653)]
    [InlineData(ulong.MaxValue, 15, (1L << 32) - 40)]
    public void Every_digit_is_flipped_by_the_bit_of_those_before_it(ulong seed, int replicate, long first)
    {
        const int Dimensions = 5, Count = 40;
        double[] points = new double[Count * Dimensions];
        new ScrambledSobol(Dimensions, seed, replicate).Fill(first, points);
        uint[] directions = SobolSequence.Directions(Dimensions), plain = new uint[Dimensions];
        for (int i = 0; i < Count; i++)
        {
            SobolSequence.At(directions, first + i, plain);
            for (int d = 0; d < Dimensions; d++)
            {
                ulong key = Philox.Pair(seed, RandomStream.Scrambling, replicate, (ulong)d, 0).Item1;
                Assert.Equal(Scrambled(plain[d], key), points[(i * Dimensions) + d]);
            }
        }
    }

    /// <summary>The words of a counter depend on all of it, the upper halves of its index and seed too.</summary>
    [Fact]
    public void Counters_differ_in_every_part()
    {
        (ulong, ulong)[] pairs =
        [
            Philox.Pair(1, RandomStream.Points, 0, 1, 0), Philox.Pair(1 | 1UL << 40, RandomStream.Points, 0, 1, 0), Philox.Pair(1, RandomStream.Points, 0, 1 | 1UL << 40, 0),
            Philox.Pair(1, RandomStream.Points, 1, 1, 0), Philox.Pair(1, RandomStream.Points, 0, 1, 1), Philox.Pair(1, RandomStream.Chains, 0, 1, 0),
        ];
        Assert.Equal(pairs.Length, pairs.Distinct().Count());
    }

    [Fact]
    public void No_points_and_no_such_replicate()
    {
        var set = new ScrambledSobol(2, 1);
        set.Fill(1L << 32, []);
        Assert.Throws<ArgumentOutOfRangeException>(() => set.Fill((1L << 32) - 1, new double[4]));
        Assert.Equal("replicate", Assert.Throws<ArgumentOutOfRangeException>(() => new ScrambledSobol(2, 1, -1)).ParamName);
    }

    /// <summary>Digits in chunks of six; a word per chunk, numbered by the digits before and the chunk, holds the bits of a tree from node 1; what follows the 32nd digit is random.</summary>
    private static double Scrambled(uint digits, ulong key)
    {
        ulong scrambled = 0;
        for (int k = 0; k < 32; k++)
        {
            int chunk = k / 6;
            ulong before = chunk == 0 ? 0 : digits >> (32 - (6 * chunk));
            ulong tree = SplitMix64(key, (before * 8) + (ulong)chunk);
            int node = 1;
            for (int j = 6 * chunk; j < k; j++)
                node = (2 * node) + Digit(digits, j);
            scrambled = (scrambled << 1) + (ulong)(Digit(digits, k) ^ (int)(tree >> node & 1));
        }

        return Philox.Unit((scrambled << 32) + (SplitMix64(key, ((ulong)digits * 8) + 7) >> 32));
    }

    private static int Digit(uint digits, int k) => (int)(digits >> (31 - k) & 1);

    /// <summary>Steele, Lea and Flood 2014 (from memory).</summary>
    private static ulong SplitMix64(ulong seed, ulong index)
    {
        ulong state = seed;
        state = unchecked(state + ((index + 1) * 0x9E3779B97F4A7C15));
        state = unchecked((state ^ (state >> 30)) * 0xBF58476D1CE4E5B9);
        state = unchecked((state ^ (state >> 27)) * 0x94D049BB133111EB);
        return state ^ (state >> 31);
    }
}
