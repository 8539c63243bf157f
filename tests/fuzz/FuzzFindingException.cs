namespace FlowSim.Fuzz;

/// <summary>A property that does not hold.</summary>
public sealed class FuzzFindingException : Exception
{
    /// <summary>A finding.</summary>
    public FuzzFindingException()
    {
    }

    /// <summary>A finding.</summary>
    /// <param name="message">What does not hold.</param>
    public FuzzFindingException(string message)
        : base(message)
    {
    }

    /// <summary>A finding.</summary>
    /// <param name="message">What does not hold.</param>
    /// <param name="inner">What came instead.</param>
    public FuzzFindingException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
