using System.Runtime.CompilerServices;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Exponential function and logarithm of every lane.</summary>
/// <remarks>
/// Our own, because those of the runtime take another path for all lanes when one of them is special, and a run must not
/// depend on what stands beside it. No branches: a lane's bits follow from its own argument. Coefficients are those of the series.
/// </remarks>
public static class LaneMath
{
    /// <summary>Added to a whole number below 2⁵¹, it puts that number into the lowest bits of the sum.</summary>
    internal const double IntegerShift = 6755399441055744; // 2⁵² + 2⁵¹

    internal const double ExponentBias = 1023;

    internal const int MantissaBits = 52;

    // Half a power of two below the largest number: from x = 1023.5 ln 2 on, k would be 1024.
    private const double MostPower = 709.4;

    // ln 2 in two parts: the first with so many zero bits that its product with an exponent is exact.
    private const double Ln2High = 0.693147180369123816490;
    private const double Ln2Low = 1.90821492927058770002e-10;

    /// <summary>e to a power; +∞ above 709.4, where 2^k is still a number, 0 below −708. Within 2 units of the last place.</summary>
    /// <remarks><c>e^x = 2^k e^r</c>, k the whole number nearest x/ln 2, |r| ≤ ½ ln 2; Taylor series of e^r to r¹³, whose next term is below 5e−18.</remarks>
    /// <param name="x">Power.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static TLanes Exp<TLanes>(TLanes x)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes shift = TLanes.Of(IntegerShift);
        TLanes bounded = TLanes.Min(TLanes.Max(x, TLanes.Of(-708)), TLanes.Of(MostPower));
        TLanes k = TLanes.MultiplyAdd(bounded, TLanes.Of(1.4426950408889634), shift) - shift;
        TLanes r = TLanes.MultiplyAdd(k, TLanes.Of(-Ln2High), bounded);
        r = TLanes.MultiplyAdd(k, TLanes.Of(-Ln2Low), r);

        // Pairs of terms, then pairs of pairs: shorter to wait for than one after the other.
        TLanes r2 = r * r;
        TLanes r4 = r2 * r2;
        TLanes a = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 6), TLanes.Of(1.0 / 2));
        TLanes b = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 120), TLanes.Of(1.0 / 24));
        TLanes c = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 5040), TLanes.Of(1.0 / 720));
        TLanes d = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 362880), TLanes.Of(1.0 / 40320));
        TLanes e = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 39916800), TLanes.Of(1.0 / 3628800));
        TLanes f = TLanes.MultiplyAdd(r, TLanes.Of(1.0 / 6227020800), TLanes.Of(1.0 / 479001600));
        TLanes ab = TLanes.MultiplyAdd(r2, b, a);
        TLanes cd = TLanes.MultiplyAdd(r2, d, c);
        TLanes ef = TLanes.MultiplyAdd(r2, f, e);
        TLanes tail = TLanes.MultiplyAdd(r4, TLanes.MultiplyAdd(r4, ef, cd), ab);
        TLanes power = TLanes.MultiplyAdd(r2, tail, r) + TLanes.Of(1);
        TLanes result = power * TLanes.TwoTo(k);
        result = TLanes.Select(x < TLanes.Of(-708), TLanes.Of(0), result);
        return TLanes.Select(x > TLanes.Of(MostPower), TLanes.Of(double.PositiveInfinity), result);
    }

    /// <summary>Natural logarithm; −∞ of 0 and of subnormal numbers, NaN below. Within 2 units of the last place.</summary>
    /// <remarks>
    /// <c>x = 2^k m</c>, m from √½ to √2; <c>ln m = 2 artanh s</c>, <c>s = (m − 1)/(m + 1)</c>, |s| ≤ 0.172, as a series to s²³.
    /// </remarks>
    /// <param name="x">Number.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static TLanes Log<TLanes>(TLanes x)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes k = TLanes.Exponent(x);
        TLanes m = TLanes.Mantissa(x);
        TLanes large = m > TLanes.Of(1.4142135623730951);
        m = TLanes.Select(large, m * TLanes.Of(0.5), m);
        k = TLanes.Select(large, k + TLanes.Of(1), k);
        TLanes f = m - TLanes.Of(1);
        TLanes s = f / (m + TLanes.Of(1));
        TLanes s2 = s * s;
        TLanes s4 = s2 * s2;
        TLanes odd = TLanes.Of(2.0 / 23);
        odd = TLanes.MultiplyAdd(odd, s4, TLanes.Of(2.0 / 19));
        odd = TLanes.MultiplyAdd(odd, s4, TLanes.Of(2.0 / 15));
        odd = TLanes.MultiplyAdd(odd, s4, TLanes.Of(2.0 / 11));
        odd = TLanes.MultiplyAdd(odd, s4, TLanes.Of(2.0 / 7));
        odd = TLanes.MultiplyAdd(odd, s4, TLanes.Of(2.0 / 3));
        TLanes even = TLanes.Of(2.0 / 21);
        even = TLanes.MultiplyAdd(even, s4, TLanes.Of(2.0 / 17));
        even = TLanes.MultiplyAdd(even, s4, TLanes.Of(2.0 / 13));
        even = TLanes.MultiplyAdd(even, s4, TLanes.Of(2.0 / 9));
        even = TLanes.MultiplyAdd(even, s4, TLanes.Of(2.0 / 5));
        TLanes tail = TLanes.MultiplyAdd(even, s4, odd * s2);

        // 2 s = f − s f; the tail is small against it, and so is what rounding does to it.
        TLanes near = f - (s * (f - tail));
        TLanes result = TLanes.MultiplyAdd(k, TLanes.Of(Ln2High), TLanes.MultiplyAdd(k, TLanes.Of(Ln2Low), near));
        result = TLanes.Select(x < TLanes.Of(2.2250738585072014e-308), TLanes.Of(double.NegativeInfinity), result);
        result = TLanes.Select(x >= TLanes.Of(0), result, TLanes.Of(double.NaN));
        return TLanes.Select(x < TLanes.Of(double.PositiveInfinity), result, x + x);
    }
}
