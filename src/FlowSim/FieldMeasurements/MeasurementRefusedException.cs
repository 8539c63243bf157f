namespace FlowSim.FieldMeasurements;

/// <summary>A measurement says nothing about the viscosity: it was made beyond what its equation holds for. The message says why and what to do instead.</summary>
public sealed class MeasurementRefusedException : ArgumentException
{
    /// <summary>Creates the exception.</summary>
    public MeasurementRefusedException()
        : this(string.Empty, string.Empty, null)
    {
    }

    /// <summary>Creates the exception with a reason.</summary>
    /// <param name="message">The reason.</param>
    public MeasurementRefusedException(string message)
        : this(message, string.Empty, null)
    {
    }

    /// <summary>Creates the exception with a reason and a cause.</summary>
    /// <param name="message">The reason.</param>
    /// <param name="innerException">The cause.</param>
    public MeasurementRefusedException(string message, Exception? innerException)
        : base(message, innerException)
    {
        Reason = message;
        Instead = string.Empty;
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="reason">Why the measurement is refused.</param>
    /// <param name="instead">What to do instead; the nearest choice.</param>
    /// <param name="parameterName">Name of the argument to blame.</param>
    public MeasurementRefusedException(string reason, string instead, string? parameterName)
        : base(string.IsNullOrEmpty(instead) ? reason : reason + " " + instead, parameterName)
    {
        Reason = reason;
        Instead = instead;
    }

    /// <summary>Creates the exception for an argument of the measurement.</summary>
    /// <param name="name">Name of the argument to blame.</param>
    /// <param name="reason">Why the measurement is refused.</param>
    /// <param name="instead">What to do instead.</param>
    internal static MeasurementRefusedException Of(string name, string reason, string instead) => new(reason, instead, name);

    /// <summary>Why the measurement is refused.</summary>
    public string Reason { get; }

    /// <summary>What to do instead.</summary>
    public string Instead { get; }
}
