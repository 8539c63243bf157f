using FlowSim.Numerics.Sampling;
using FsCheck.Xunit;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Known answers: the three lines "philox4x32 10" of tests/kat_vectors in DEShawResearch/random123, read as other libraries quote them.</summary>
public sealed class RandomPointsTests
{
    [Theory]
    [InlineData(0u, 0u, 0u, 0u, 0u, 0u, 0x6627e8d5u, 0xe169c58du, 0xbc57ac4cu, 0x9b00dbd8u)]
    [InlineData(~0u, ~0u, ~0u, ~0u, ~0u, ~0u, 0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu)]
    [InlineData(0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u, 0xa4093822u, 0x299f31d0u, 0xd16cfe09u, 0x94fdccebu, 0x5001e420u, 0x24126ea1u)]
    public void Known_answers(uint c0, uint c1, uint c2, uint c3, uint k0, uint k1, uint r0, uint r1, uint r2, uint r3) =>
        Assert.Equal((r0, r1, r2, r3), Philox.Words(c0, c1, c2, c3, k0, k1));

    [Fact]
    public void The_ends_of_the_unit_interval_are_never_reached()
    {
        Assert.True(Philox.Unit(0) > 0);
        Assert.True(Philox.Unit(ulong.MaxValue) < 1);
    }

    [Theory]
    [InlineData(PointKind.Random)]
    [InlineData(PointKind.ScrambledSobol)]
    public void A_point_depends_on_its_number_alone(PointKind kind)
    {
        IPointSet set = PointRoom.Create(kind, 7, 99, 3);
        double[] many = new double[7 * 500];
        set.Fill(0, many);
        double[] one = new double[7];
        foreach (int n in new[] { 0, 1, 2, 3, 255, 256, 499 })
        {
            set.Fill(n, one);
            Assert.Equal(many[(n * 7)..(n * 7 + 7)], one);
        }
        double[] part = new double[7 * 100];
        set.Fill(137, part);
        Assert.Equal(many[(137 * 7)..(237 * 7)], part);
        double[] again = new double[7 * 500];
        PointRoom.Create(kind, 7, 99, 3).Fill(0, again);
        Assert.Equal(many, again);
        foreach (IPointSet other in new[] { PointRoom.Create(kind, 7, 98, 3), PointRoom.Create(kind, 7, 99, 4) })
        {
            other.Fill(0, again);
            Assert.Empty(many.Intersect(again));
        }
    }

    [Property]
    public void Points_lie_strictly_inside(ulong seed, byte replicate, uint first)
    {
        foreach (PointKind kind in Enum.GetValues<PointKind>())
        {
            double[] points = new double[5 * 16];
            PointRoom.Create(kind, 5, seed, replicate).Fill(first / 2, points);
            Assert.All(points, x => Assert.InRange(x, double.Epsilon, 1 - 1e-16));
        }
    }

    [Fact]
    public void The_coordinates_are_uniform_and_independent()
    {
        // 100 cells of a pair of coordinates: chi-squared with 99 degrees of freedom, 99.99 % point 160 (Wilson–Hilferty: 99(1 − 2/891 + 3.719√(2/891))³).
        const int count = 20_000;
        double[] points = new double[count * 3];
        new RandomPoints(3, 12345).Fill(0, points);
        foreach ((int a, int b) in new[] { (0, 1), (0, 2), (1, 2) })
        {
            int[] cells = new int[100];
            for (int i = 0; i < count; i++) cells[(int)(10 * points[3 * i + a]) * 10 + (int)(10 * points[3 * i + b])]++;
            Assert.True(cells.Sum(n => (n - 200.0) * (n - 200.0) / 200) < 160);
        }
    }

    [Fact]
    public void Hostile_arguments_are_refused_by_name()
    {
        Assert.Equal("dimensions", Assert.Throws<ArgumentOutOfRangeException>(() => new RandomPoints(0, 1)).ParamName);
        Assert.Equal("replicate", Assert.Throws<ArgumentOutOfRangeException>(() => new RandomPoints(1, 1, -1)).ParamName);
        Assert.Equal("points", Assert.Throws<ArgumentOutOfRangeException>(() => new RandomPoints(2, 1).Fill(0, new double[3])).ParamName);
        Assert.Equal("first", Assert.Throws<ArgumentOutOfRangeException>(() => new RandomPoints(2, 1).Fill(-1, new double[2])).ParamName);
        Assert.Equal("dimensions", Assert.Throws<ArgumentOutOfRangeException>(() => new ScrambledSobol(129, 1)).ParamName);
        Assert.Equal("first", Assert.Throws<ArgumentOutOfRangeException>(() => new ScrambledSobol(1, 1).Fill(uint.MaxValue, new double[2])).ParamName);
    }
}
