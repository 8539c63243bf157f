namespace FlowSim.Fuzz;

/// <summary>A property that does not hold.</summary>
public sealed class FuzzFinding : Exception
{
    /// <summary>A finding.</summary>
    public FuzzFinding()
    {
    }

    /// <summary>A finding.</summary>
    /// <param name="message">What does not hold.</param>
    public FuzzFinding(string message)
        : base(message)
    {
    }

    /// <summary>A finding.</summary>
    /// <param name="message">What does not hold.</param>
    /// <param name="inner">What came instead.</param>
    public FuzzFinding(string message, Exception inner)
        : base(message, inner)
    {
    }
}
