using System.Runtime.CompilerServices;

namespace FlowSim.Numerics.Ensemble;

/// <summary>
/// Several doubles side by side in one register. Code written once against this runs at any width, and each lane gets the same
/// bits at any width: every operation is that of a single double.
/// </summary>
/// <remarks>A mask is a value whose lanes have all bits set or none; comparisons give masks, <see cref="Select"/> takes them.</remarks>
/// <typeparam name="TSelf">The implementing type.</typeparam>
public interface ILanes<TSelf>
    where TSelf : struct, ILanes<TSelf>
{
    /// <summary>Number of lanes.</summary>
    static abstract int Count { get; }

    /// <summary>Whether the machine computes at this width at once.</summary>
    static abstract bool IsFast { get; }

    /// <summary>The same number in every lane.</summary>
    /// <param name="value">Number.</param>
    static abstract TSelf Of(double value);

    /// <summary>A mask of the lanes whose bits are set, lane 0 the lowest.</summary>
    /// <param name="lanes">Bits.</param>
    static abstract TSelf Mask(uint lanes);

    /// <summary>Sum.</summary>
    static abstract TSelf operator +(TSelf left, TSelf right);

    /// <summary>Difference.</summary>
    static abstract TSelf operator -(TSelf left, TSelf right);

    /// <summary>Product.</summary>
    static abstract TSelf operator *(TSelf left, TSelf right);

    /// <summary>Quotient.</summary>
    static abstract TSelf operator /(TSelf left, TSelf right);

    /// <summary>Negative.</summary>
    static abstract TSelf operator -(TSelf value);

    /// <summary>Both masks.</summary>
    static abstract TSelf operator &(TSelf left, TSelf right);

    /// <summary>Either mask.</summary>
    static abstract TSelf operator |(TSelf left, TSelf right);

    /// <summary>Mask: less.</summary>
    static abstract TSelf operator <(TSelf left, TSelf right);

    /// <summary>Mask: greater.</summary>
    static abstract TSelf operator >(TSelf left, TSelf right);

    /// <summary>Mask: less or equal; false for NaN.</summary>
    static abstract TSelf operator <=(TSelf left, TSelf right);

    /// <summary>Mask: greater or equal; false for NaN.</summary>
    static abstract TSelf operator >=(TSelf left, TSelf right);

    /// <summary><paramref name="a"/> · <paramref name="b"/> + <paramref name="c"/> with one rounding.</summary>
    static abstract TSelf MultiplyAdd(TSelf a, TSelf b, TSelf c);

    /// <summary>Square root.</summary>
    static abstract TSelf Sqrt(TSelf value);

    /// <summary>Absolute value.</summary>
    static abstract TSelf Abs(TSelf value);

    /// <summary>Smaller of two; NaN if either is.</summary>
    static abstract TSelf Min(TSelf left, TSelf right);

    /// <summary>Larger of two; NaN if either is.</summary>
    static abstract TSelf Max(TSelf left, TSelf right);

    /// <summary>2 to a power.</summary>
    /// <param name="power">A whole number, −1022 to 1023.</param>
    static abstract TSelf TwoTo(TSelf power);

    /// <summary>The binary exponent of a number: that of 1 to below 2 is 0.</summary>
    /// <param name="value">A normal number above 0.</param>
    static abstract TSelf Exponent(TSelf value);

    /// <summary>What is left of a number without its exponent and sign: 1 to below 2.</summary>
    /// <param name="value">A normal number.</param>
    static abstract TSelf Mantissa(TSelf value);

    /// <summary>Lane by lane <paramref name="yes"/> where the mask is set, else <paramref name="no"/>.</summary>
    static abstract TSelf Select(TSelf mask, TSelf yes, TSelf no);

    /// <summary>The lanes that a mask sets, as bits.</summary>
    static abstract uint Bits(TSelf mask);
}

/// <summary>Single lanes of a value in memory.</summary>
public static class Lane
{
    /// <summary>One lane.</summary>
    /// <param name="value">Value.</param>
    /// <param name="lane">Lane, from 0; not checked.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ref double At<TLanes>(ref TLanes value, int lane)
        where TLanes : struct, ILanes<TLanes> => ref Unsafe.Add(ref Unsafe.As<TLanes, double>(ref value), lane);

    /// <summary>All lanes as bits.</summary>
    public static uint All<TLanes>()
        where TLanes : struct, ILanes<TLanes> => (1u << TLanes.Count) - 1;
}
