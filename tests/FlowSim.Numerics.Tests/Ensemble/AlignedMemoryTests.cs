using System.Runtime.CompilerServices;
using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

public class AlignedMemoryTests
{
    [Fact]
    public void It_begins_at_a_cache_line_and_is_zero()
    {
        for (int bytes = 0; bytes < 600; bytes += 8)
        {
            var memory = new AlignedMemory(bytes);
            Assert.Equal(bytes, memory.Length);
            Span<byte> all = memory.Values<byte>(0, bytes);
            Assert.Equal(-1, all.IndexOfAnyExcept((byte)0));
            if (bytes > 0)
                Assert.Equal(0, Unsafe.ByteOffset(ref Unsafe.NullRef<byte>(), ref all[0]) % 64);
        }
    }

    [Fact]
    public void Parts_lie_one_after_another()
    {
        var memory = new AlignedMemory(64);
        Span<double> first = memory.Values<double>(0, 3), second = memory.Values<double>(24, 5);
        first.Fill(1);
        second.Fill(2);
        Assert.Equal([1, 1, 1, 2, 2, 2, 2, 2], memory.Values<double>(0, 8).ToArray());
    }

    /// <summary>No values, and values to the very end, are within.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(64, 0)]
    [InlineData(56, 1)]
    [InlineData(0, 8)]
    public void Within(int start, int count) => Assert.Equal(count, new AlignedMemory(64).Values<double>(start, count).Length);

    [Theory]
    [InlineData(-8, 1)]
    [InlineData(-1, 0)]
    [InlineData(65, 0)]
    [InlineData(72, 1)]
    [InlineData(64, 1)]
    [InlineData(60, 1)]
    [InlineData(0, 9)]
    [InlineData(0, -1)]
    [InlineData(0, int.MinValue)]
    [InlineData(8, int.MaxValue)]
    [InlineData(0, (1 << 29) + 1)]
    public void Outside(int start, int count) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new AlignedMemory(64).Values<double>(start, count).Length);

    [Fact]
    public void References_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new AlignedMemory(64).Values<KeyValuePair<int, string>>(0, 1).Length);

    [Theory]
    [InlineData(-1)]
    [InlineData(-64)]
    [InlineData(int.MinValue)]
    public void A_negative_size_is_refused(int bytes) => Assert.Throws<ArgumentOutOfRangeException>(() => new AlignedMemory(bytes));
}
