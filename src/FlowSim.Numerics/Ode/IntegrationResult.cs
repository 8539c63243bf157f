namespace FlowSim.Numerics.Ode;

/// <summary>How an integration ended. Numerical trouble is a status, never an exception.</summary>
public enum IntegrationStatus
{
    /// <summary>The end was reached.</summary>
    ReachedEnd,

    /// <summary>An event or stop asked to end.</summary>
    StoppedByEvent,

    /// <summary>The limit on steps was reached.</summary>
    TooManySteps,

    /// <summary>The limit on events was reached, or an event kept firing while time stood still.</summary>
    TooManyEvents,

    /// <summary>The tolerance would need steps too short for the resolution of t.</summary>
    StepTooSmall,

    /// <summary>The system or an event function gave infinities or NaN that shorter steps did not avoid.</summary>
    NotFinite,

    /// <summary>Cancellation was asked for.</summary>
    Cancelled,
}

/// <summary>Outcome of an integration: how and where it ended, and what it cost.</summary>
/// <param name="Status">How it ended. The state returned belongs to <paramref name="Time"/> whatever the status.</param>
/// <param name="Time">Time reached.</param>
/// <param name="StepsAccepted">Steps accepted.</param>
/// <param name="StepsRejected">Steps tried and discarded.</param>
/// <param name="DerivativeEvaluations">Evaluations of f by the integrator (those inside the system's own Jacobian are not seen).</param>
/// <param name="JacobianEvaluations">Evaluations of the Jacobian.</param>
/// <param name="LuFactorizations">Matrices factorized.</param>
/// <param name="EventFunctionEvaluations">Evaluations of the event functions, all at once each time.</param>
/// <param name="Events">Events handed to the system.</param>
/// <param name="Restarts">Restarts after events and stops.</param>
public readonly record struct IntegrationResult(
    IntegrationStatus Status,
    double Time,
    int StepsAccepted,
    int StepsRejected,
    int DerivativeEvaluations,
    int JacobianEvaluations,
    int LuFactorizations,
    int EventFunctionEvaluations,
    int Events,
    int Restarts)
{
    /// <summary>True when the integration ended as planned: at its end or by an event.</summary>
    public bool Succeeded => Status is IntegrationStatus.ReachedEnd or IntegrationStatus.StoppedByEvent;
}
