namespace FlowSim;

/// <summary>What a piece of code allocates.</summary>
internal static class Allocated
{
    private const int Tries = 5;

    /// <summary>Bytes that this thread takes for what it has done once already: the least of five times.</summary>
    /// <remarks>
    /// A thread is given memory in pieces of 8 kB. Where other threads make the runtime collect in the midst of the code, the rest of such a piece is taken away
    /// and counts as if it had been allocated; that does not happen each time.
    /// </remarks>
    public static long By(Action code)
    {
        code();
        long least = long.MaxValue;
        for (int i = 0; i < Tries && least > 0; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            code();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }
}
