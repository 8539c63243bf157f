using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Four lanes: a register of 256 bits.</summary>
/// <param name="value">The register.</param>
public readonly struct Lanes4(Vector256<double> value) : ILanes<Lanes4>
{
    private readonly Vector256<double> _v = value;

    /// <inheritdoc/>
    public static int Count => 4;

    /// <inheritdoc/>
    public static bool IsFast => Vector256.IsHardwareAccelerated;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Of(double value) => new(Vector256.Create(value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Mask(uint lanes)
    {
        Vector256<long> own = Vector256.Create(1L, 2L, 4L, 8L);
        return new(Vector256.Equals(Vector256.Create((long)lanes) & own, own).AsDouble());
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator +(Lanes4 left, Lanes4 right) => new(left._v + right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 left, Lanes4 right) => new(left._v - right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator *(Lanes4 left, Lanes4 right) => new(left._v * right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator /(Lanes4 left, Lanes4 right) => new(left._v / right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 value) => new(-value._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator &(Lanes4 left, Lanes4 right) => new(left._v & right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator |(Lanes4 left, Lanes4 right) => new(left._v | right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator <(Lanes4 left, Lanes4 right) => new(Vector256.LessThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator >(Lanes4 left, Lanes4 right) => new(Vector256.GreaterThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator <=(Lanes4 left, Lanes4 right) => new(Vector256.LessThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator >=(Lanes4 left, Lanes4 right) => new(Vector256.GreaterThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 MultiplyAdd(Lanes4 a, Lanes4 b, Lanes4 c) => new(Vector256.FusedMultiplyAdd(a._v, b._v, c._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Sqrt(Lanes4 value) => new(Vector256.Sqrt(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Abs(Lanes4 value) => new(Vector256.Abs(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Min(Lanes4 left, Lanes4 right) => new(Vector256.Min(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Max(Lanes4 left, Lanes4 right) => new(Vector256.Max(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 TwoTo(Lanes4 power) =>
        new(Vector256.ShiftLeft((power._v + Vector256.Create(LaneMath.IntegerShift + LaneMath.ExponentBias)).AsInt64(), LaneMath.MantissaBits).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Exponent(Lanes4 value)
    {
        Vector256<long> bits = Vector256.ShiftRightLogical(value._v.AsInt64(), LaneMath.MantissaBits) & Vector256.Create(0x7FFL);
        return new((bits | Vector256.Create(LaneMath.IntegerShift).AsInt64()).AsDouble() - Vector256.Create(LaneMath.IntegerShift + LaneMath.ExponentBias));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Mantissa(Lanes4 value) =>
        new(((value._v.AsInt64() & Vector256.Create(0x000FFFFFFFFFFFFFL)) | Vector256.Create(1.0).AsInt64()).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Select(Lanes4 mask, Lanes4 yes, Lanes4 no) => new(Vector256.ConditionalSelect(mask._v, yes._v, no._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Bits(Lanes4 mask) => (uint)Vector256.ExtractMostSignificantBits(mask._v);
}
