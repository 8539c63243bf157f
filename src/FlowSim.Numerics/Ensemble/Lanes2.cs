using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Two lanes: a register of 128 bits.</summary>
/// <param name="value">The register.</param>
public readonly struct Lanes2(Vector128<double> value) : ILanes<Lanes2>
{
    private readonly Vector128<double> _v = value;

    /// <inheritdoc/>
    public static int Count => 2;

    /// <inheritdoc/>
    public static bool IsFast => Vector128.IsHardwareAccelerated;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Of(double value) => new(Vector128.Create(value));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Mask(uint lanes)
    {
        Vector128<long> own = Vector128.Create(1L, 2L);
        return new(Vector128.Equals(Vector128.Create((long)lanes) & own, own).AsDouble());
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator +(Lanes2 left, Lanes2 right) => new(left._v + right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator -(Lanes2 left, Lanes2 right) => new(left._v - right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator *(Lanes2 left, Lanes2 right) => new(left._v * right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator /(Lanes2 left, Lanes2 right) => new(left._v / right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator -(Lanes2 value) => new(-value._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator &(Lanes2 left, Lanes2 right) => new(left._v & right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator |(Lanes2 left, Lanes2 right) => new(left._v | right._v);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator <(Lanes2 left, Lanes2 right) => new(Vector128.LessThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator >(Lanes2 left, Lanes2 right) => new(Vector128.GreaterThan(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator <=(Lanes2 left, Lanes2 right) => new(Vector128.LessThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 operator >=(Lanes2 left, Lanes2 right) => new(Vector128.GreaterThanOrEqual(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 MultiplyAdd(Lanes2 a, Lanes2 b, Lanes2 c) => new(Vector128.FusedMultiplyAdd(a._v, b._v, c._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Sqrt(Lanes2 value) => new(Vector128.Sqrt(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Abs(Lanes2 value) => new(Vector128.Abs(value._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Min(Lanes2 left, Lanes2 right) => new(Vector128.Min(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Max(Lanes2 left, Lanes2 right) => new(Vector128.Max(left._v, right._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 TwoTo(Lanes2 power) =>
        new(Vector128.ShiftLeft((power._v + Vector128.Create(LaneMath.IntegerShift + LaneMath.ExponentBias)).AsInt64(), LaneMath.MantissaBits).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Exponent(Lanes2 value)
    {
        Vector128<long> bits = Vector128.ShiftRightLogical(value._v.AsInt64(), LaneMath.MantissaBits) & Vector128.Create(0x7FFL);
        return new((bits | Vector128.Create(LaneMath.IntegerShift).AsInt64()).AsDouble() - Vector128.Create(LaneMath.IntegerShift + LaneMath.ExponentBias));
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Mantissa(Lanes2 value) =>
        new(((value._v.AsInt64() & Vector128.Create(0x000FFFFFFFFFFFFFL)) | Vector128.Create(1.0).AsInt64()).AsDouble());

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes2 Select(Lanes2 mask, Lanes2 yes, Lanes2 no) => new(Vector128.ConditionalSelect(mask._v, yes._v, no._v));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Bits(Lanes2 mask) => (uint)Vector128.ExtractMostSignificantBits(mask._v);
}
