using System.Runtime.CompilerServices;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Memory that begins at a multiple of a cache line, so that no load of a register takes two.</summary>
public sealed class AlignedMemory
{
    private const int Line = 64;

    // Kept so that the memory stays; what is handed out points into it.
    private readonly byte[] _bytes;
    private readonly nint _start;

    /// <summary>Allocates memory, all zero. It does not move.</summary>
    /// <param name="bytes">Bytes, at least 0.</param>
    public unsafe AlignedMemory(int bytes)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(bytes);
        _bytes = GC.AllocateArray<byte>(bytes + Line, pinned: true);
        nint address = (nint)Unsafe.AsPointer(ref _bytes[0]);
        _start = (address + Line - 1) / Line * Line;
        Length = bytes;
    }

    /// <summary>Bytes.</summary>
    public int Length { get; }

    /// <summary>A part of the memory as values without references.</summary>
    /// <param name="start">Bytes before the first.</param>
    /// <param name="count">Number of values.</param>
    /// <exception cref="ArgumentOutOfRangeException">They do not lie in the memory.</exception>
    public unsafe Span<T> Values<T>(int start, int count)
        where T : struct
    {
        if (RuntimeHelpers.IsReferenceOrContainsReferences<T>() || (uint)start > (uint)Length || (long)count * Unsafe.SizeOf<T>() > Length - start || count < 0)
            throw new ArgumentOutOfRangeException(nameof(count), count, $"The values do not lie in the {Length} bytes, or hold references.");
        return new Span<T>((void*)(_start + start), count);
    }
}
