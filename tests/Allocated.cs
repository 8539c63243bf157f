namespace FlowSim;

/// <summary>What a piece of code allocates.</summary>
internal static class Allocated
{
    private const int MostTries = 60;

    /// <summary>Bytes that this thread takes for what it has done once already: the least that came out twice.</summary>
    /// <remarks>
    /// A thread is given memory in pieces of 8 kB. Where other threads make the runtime collect in the midst of the code, the rest of such a piece is taken away
    /// and counts as if it had been allocated. How much that is differs from time to time, so that what the code takes is what comes out again.
    /// </remarks>
    public static long By(Action code)
    {
        code();
        long least = long.MaxValue;
        int times = 0;
        for (int i = 0; i < MostTries && least > 0 && times < 2; i++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            code();
            long taken = GC.GetAllocatedBytesForCurrentThread() - before;
            times = taken < least ? 1 : taken == least ? times + 1 : times;
            least = Math.Min(least, taken);
        }

        return least;
    }
}
