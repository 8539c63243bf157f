namespace FlowSim.Properties;

/// <summary>A honey was refused because no trustworthy constants exist for it. The message says why and what to measure.</summary>
public sealed class HoneyRefusedException : ArgumentException
{
    /// <summary>Creates the exception.</summary>
    public HoneyRefusedException()
        : this(string.Empty, string.Empty, null)
    {
    }

    /// <summary>Creates the exception with a reason.</summary>
    /// <param name="message">The reason.</param>
    public HoneyRefusedException(string message)
        : this(message, string.Empty, null)
    {
    }

    /// <summary>Creates the exception with a reason and a cause.</summary>
    /// <param name="message">The reason.</param>
    /// <param name="innerException">The cause.</param>
    public HoneyRefusedException(string message, Exception? innerException)
        : base(message, innerException)
    {
        Reason = message;
        WhatToMeasure = string.Empty;
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="reason">Why the honey is refused.</param>
    /// <param name="whatToMeasure">What the user can measure so that it is accepted.</param>
    /// <param name="parameterName">Name of the argument to blame.</param>
    public HoneyRefusedException(string reason, string whatToMeasure, string? parameterName)
        : base(string.IsNullOrEmpty(whatToMeasure) ? reason : reason + " " + whatToMeasure, parameterName)
    {
        Reason = reason;
        WhatToMeasure = whatToMeasure;
    }

    /// <summary>Why the honey is refused.</summary>
    public string Reason { get; }

    /// <summary>What the user can measure so that it is accepted.</summary>
    public string WhatToMeasure { get; }
}
