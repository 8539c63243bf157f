using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Exponential function and logarithm of every lane against those of the C library, and the same bits at any width.</summary>
public class LaneMathTests
{
    /// <summary>What the doc comments claim: units of the last place of the result.</summary>
    private const int Ulps = 2;

    [Fact]
    public void Exp_agrees_with_the_library()
    {
        var random = new Random(1);
        for (int i = 0; i < 200_000; i++)
        {
            double x = (random.NextDouble() - 0.5) * (i % 2 == 0 ? 1400 : 4);
            AssertNear(Math.Exp(x), One<Lanes8>(LaneMath.Exp, x), x);
        }
    }

    [Fact]
    public void Log_agrees_with_the_library()
    {
        var random = new Random(2);
        for (int i = 0; i < 200_000; i++)
        {
            double x = i % 2 == 0 ? Math.Exp((random.NextDouble() - 0.5) * 1400) : 0.5 + random.NextDouble();
            AssertNear(Math.Log(x), One<Lanes8>(LaneMath.Log, x), x);
        }
    }

    [Theory]
    [InlineData(double.PositiveInfinity, double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity, 0)]
    [InlineData(double.NaN, double.NaN)]
    [InlineData(800, double.PositiveInfinity)]
    [InlineData(-800, 0)]
    [InlineData(0, 1)]
    public void Exp_of_the_ends(double x, double expected) => Assert.Equal(expected, One<Lanes4>(LaneMath.Exp, x));

    /// <summary>The last arguments before the ends, at √2, where the mantissa is halved, and beside them.</summary>
    [Fact]
    public void The_borders_agree_with_the_library()
    {
        foreach (double x in (double[])[-708, Math.BitIncrement(-708), 709.4])
            AssertNear(Math.Exp(x), One<Lanes4>(LaneMath.Exp, x), x);
        foreach (double x in (double[])[2.2250738585072014e-308, double.MaxValue, Math.Sqrt(2), Math.BitIncrement(Math.Sqrt(2)), Math.BitDecrement(2)])
            AssertNear(Math.Log(x), One<Lanes4>(LaneMath.Log, x), x);
        Assert.Equal(0, One<Lanes4>(LaneMath.Exp, Math.BitDecrement(-708)));
        Assert.Equal(double.PositiveInfinity, One<Lanes4>(LaneMath.Exp, Math.BitIncrement(709.4)));
        Assert.Equal(double.NegativeInfinity, One<Lanes4>(LaneMath.Log, Math.BitDecrement(2.2250738585072014e-308)));
    }

    [Theory]
    [InlineData(double.PositiveInfinity, double.PositiveInfinity)]
    [InlineData(0, double.NegativeInfinity)]
    [InlineData(-1, double.NaN)]
    [InlineData(double.NaN, double.NaN)]
    [InlineData(1, 0)]
    public void Log_of_the_ends(double x, double expected) => Assert.Equal(expected, One<Lanes4>(LaneMath.Log, x));

    [Fact]
    public void A_lane_does_not_depend_on_its_neighbours_nor_on_the_width()
    {
        double[] values = [1e-3, -700, double.NaN, 0.5, 709, double.NegativeInfinity, 1, 3.25];
        for (int shift = 0; shift < values.Length; shift++)
        {
            double x = values[shift];
            double among = Lane(LaneMath.Exp(Lanes<Lanes8>(i => values[(i + shift) % values.Length])), 0);
            Assert.Equal(BitConverter.DoubleToInt64Bits(among), BitConverter.DoubleToInt64Bits(One<Lanes8>(LaneMath.Exp, x)));
            Assert.Equal(BitConverter.DoubleToInt64Bits(among), BitConverter.DoubleToInt64Bits(One<Lanes4>(LaneMath.Exp, x)));
            Assert.Equal(BitConverter.DoubleToInt64Bits(among), BitConverter.DoubleToInt64Bits(One<Lanes2>(LaneMath.Exp, x)));
        }
    }

    [Theory]
    [InlineData(0b1011u)]
    [InlineData(0u)]
    [InlineData(0b1111u)]
    public void A_mask_gives_its_bits_back(uint bits)
    {
        Assert.Equal(bits & 0b11, Lanes2.Bits(Lanes2.Mask(bits)));
        Assert.Equal(bits, Lanes4.Bits(Lanes4.Mask(bits)));
        Assert.Equal(bits << 4 | bits, Lanes8.Bits(Lanes8.Mask(bits << 4 | bits)));
    }

    private static double One<TLanes>(Func<TLanes, TLanes> function, double x)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes result = function(TLanes.Of(x));
        double first = Lane(result, 0);
        for (int lane = 1; lane < TLanes.Count; lane++)
            Assert.Equal(BitConverter.DoubleToInt64Bits(first), BitConverter.DoubleToInt64Bits(Lane(result, lane)));
        return first;
    }

    private static TLanes Lanes<TLanes>(Func<int, double> value)
        where TLanes : struct, ILanes<TLanes>
    {
        TLanes lanes = TLanes.Of(0);
        for (int lane = 0; lane < TLanes.Count; lane++)
            Numerics.Ensemble.Lane.At(ref lanes, lane) = value(lane);
        return lanes;
    }

    private static double Lane<TLanes>(TLanes lanes, int lane)
        where TLanes : struct, ILanes<TLanes> => Numerics.Ensemble.Lane.At(ref lanes, lane);

    private static void AssertNear(double expected, double actual, double x)
    {
        double ulp = Math.Max(Math.BitIncrement(Math.Abs(expected)) - Math.Abs(expected), double.Epsilon);
        bool flushed = expected < 3.31e-308 && actual == 0; // below e^−708, as documented
        Assert.True(flushed || expected == actual || Math.Abs(expected - actual) <= Ulps * ulp, $"at {x:R}: {actual:R} for {expected:R}");
    }
}
