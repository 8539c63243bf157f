namespace FlowSim;

/// <summary>The integrator gave up on a run. Not expected for any setup that passes the checks; the message says where it was.</summary>
public sealed class SimulationException : Exception
{
    /// <summary>What a message about a figure that is not a number ends with.</summary>
    internal const string OwnPartsMayBeTheCause = "A shape or correlation that is not the library's own may have answered so.";

    /// <summary>Creates the exception.</summary>
    public SimulationException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened, and where.</param>
    public SimulationException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened, and where.</param>
    /// <param name="innerException">Cause.</param>
    public SimulationException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
