using System.Numerics;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// The Sobol' sequence before scrambling, in Gray-code order (Antonov and Saleev 1979), as 32-bit binary fractions.
/// <para><b>Source</b>: P. Bratley and B. L. Fox, Algorithm 659, ACM Trans. Math. Softw. 14 (1988) 88–100, recurrence from memory.</para>
/// <para><b>Checked by</b>: ScrambledSobolTests.cs.</para>
/// </summary>
internal static class SobolSequence
{
    /// <summary>Bits of a coordinate, and so the binary logarithm of the number of different points.</summary>
    public const int Bits = 32;

    /// <summary>Direction numbers v₁ … v₃₂ of each dimension, dimension by dimension, as binary fractions.</summary>
    public static uint[] Directions(int dimensions)
    {
        uint[] all = new uint[dimensions * Bits];
        for (int bit = 0; bit < Bits; bit++) all[bit] = 1u << (Bits - 1 - bit);
        ReadOnlySpan<ushort> records = JoeKuoDirectionNumbers.Records;
        for (int d = 1; d < dimensions; d++)
        {
            int degree = records[0];
            int coefficients = records[1];
            Span<uint> v = all.AsSpan(d * Bits, Bits);
            for (int i = 0; i < degree; i++) v[i] = (uint)records[2 + i] << (Bits - 1 - i);
            for (int i = degree; i < Bits; i++)
            {
                v[i] = v[i - degree] ^ v[i - degree] >> degree;
                for (int k = 1; k < degree; k++)
                {
                    if ((coefficients >> (degree - 1 - k) & 1) != 0) v[i] ^= v[i - k];
                }
            }
            records = records[(2 + degree)..];
        }
        return all;
    }

    /// <summary>Point <paramref name="number"/> of the sequence.</summary>
    public static void At(ReadOnlySpan<uint> directions, long number, Span<uint> point)
    {
        ulong gray = (ulong)number ^ (ulong)number >> 1;
        point.Clear();
        for (; gray != 0; gray &= gray - 1) Toggle(directions, BitOperations.TrailingZeroCount(gray), point);
    }

    /// <summary>Turns point <paramref name="number"/> − 1 into point <paramref name="number"/>, for a number above 0.</summary>
    public static void Next(ReadOnlySpan<uint> directions, long number, Span<uint> point) =>
        Toggle(directions, BitOperations.TrailingZeroCount(number), point);

    private static void Toggle(ReadOnlySpan<uint> directions, int bit, Span<uint> point)
    {
        for (int d = 0; d < point.Length; d++) point[d] ^= directions[d * Bits + bit];
    }
}
