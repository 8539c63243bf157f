using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Eight lanes: a register of 512 bits.</summary>
/// <param name="value">The register.</param>
public readonly struct Lanes8(Vector512<double> value) : ILanes<Lanes8>
{
    private readonly Vector512<double> _v = value;

    /// <inheritdoc/>
    public static int Count => 8;

    /// <inheritdoc/>
    public static bool IsFast => Vector512.IsHardwareAccelerated;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Of(double value) => new(Vector512.Create(value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Mask(uint lanes)
    {
        Vector512<long> own = Vector512.Create(1L, 2L, 4L, 8L, 16L, 32L, 64L, 128L);
        return new(Vector512.Equals(Vector512.Create((long)lanes) & own, own).AsDouble());
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator +(Lanes8 left, Lanes8 right) => new(left._v + right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 left, Lanes8 right) => new(left._v - right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator *(Lanes8 left, Lanes8 right) => new(left._v * right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator /(Lanes8 left, Lanes8 right) => new(left._v / right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 value) => new(-value._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator &(Lanes8 left, Lanes8 right) => new(left._v & right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator |(Lanes8 left, Lanes8 right) => new(left._v | right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator <(Lanes8 left, Lanes8 right) => new(Vector512.LessThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator >(Lanes8 left, Lanes8 right) => new(Vector512.GreaterThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator <=(Lanes8 left, Lanes8 right) => new(Vector512.LessThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator >=(Lanes8 left, Lanes8 right) => new(Vector512.GreaterThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 MultiplyAdd(Lanes8 a, Lanes8 b, Lanes8 c) => new(Vector512.FusedMultiplyAdd(a._v, b._v, c._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Sqrt(Lanes8 value) => new(Vector512.Sqrt(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Abs(Lanes8 value) => new(Vector512.Abs(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Min(Lanes8 left, Lanes8 right) => new(Vector512.Min(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Max(Lanes8 left, Lanes8 right) => new(Vector512.Max(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 TwoTo(Lanes8 power) =>
        new(Vector512.ShiftLeft((power._v + Vector512.Create(LaneMath.IntegerShift + LaneMath.ExponentBias)).AsInt64(), LaneMath.MantissaBits).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Exponent(Lanes8 value)
    {
        Vector512<long> bits = Vector512.ShiftRightLogical(value._v.AsInt64(), LaneMath.MantissaBits) & Vector512.Create(0x7FFL);
        return new((bits | Vector512.Create(LaneMath.IntegerShift).AsInt64()).AsDouble() - Vector512.Create(LaneMath.IntegerShift + LaneMath.ExponentBias));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Mantissa(Lanes8 value) =>
        new(((value._v.AsInt64() & Vector512.Create(0x000FFFFFFFFFFFFFL)) | Vector512.Create(1.0).AsInt64()).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Select(Lanes8 mask, Lanes8 yes, Lanes8 no) => new(Vector512.ConditionalSelect(mask._v, yes._v, no._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Bits(Lanes8 mask) => (uint)Vector512.ExtractMostSignificantBits(mask._v);
}
