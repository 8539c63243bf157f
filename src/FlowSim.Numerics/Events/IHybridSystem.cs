using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Events;

/// <summary>
/// An ODE whose equations or state change at events: zeros of functions of the state, and stops known in advance.
/// </summary>
/// <remarks>
/// The discrete state (modes, switches) lives in the implementing object. It changes only inside
/// <see cref="OnEvent"/> and <see cref="OnStop"/>, which the integrator calls on the accepted solution and never on a
/// trial step. After either returns <see cref="EventResponse.Restart"/> the integrator evaluates everything anew.
/// </remarks>
public interface IHybridSystem : IOdeSystem
{
    /// <summary>Number of event functions, zero or more and constant.</summary>
    int EventCount { get; }

    /// <summary>Writes the event functions. An event that the present mode switches off is written as a negative constant.</summary>
    /// <param name="t">Independent variable.</param>
    /// <param name="y">State.</param>
    /// <param name="values">Receives the values, length <see cref="EventCount"/>.</param>
    void EventValues(double t, ReadOnlySpan<double> y, Span<double> values);

    /// <summary>The crossing that counts for an event function. Constant.</summary>
    /// <param name="index">Event, 0 to <see cref="EventCount"/> − 1.</param>
    EventDirection DirectionOf(int index);

    /// <summary>
    /// Called once at each located crossing, with the time and state just past it (the event function has the sign it
    /// crosses to, or is zero). May change the state and the mode.
    /// </summary>
    /// <param name="index">Event that crossed.</param>
    /// <param name="t">Time of the crossing.</param>
    /// <param name="y">State, which may be changed; then return <see cref="EventResponse.Restart"/>.</param>
    EventResponse OnEvent(int index, double t, Span<double> y);

    /// <summary>The earliest time after <paramref name="t"/> at which to stop exactly and call <see cref="OnStop"/>; <see cref="double.PositiveInfinity"/> if none.</summary>
    /// <param name="t">Present time.</param>
    double NextStop(double t);

    /// <summary>Called when a time given by <see cref="NextStop"/> has been reached exactly.</summary>
    /// <param name="t">That time.</param>
    /// <param name="y">State, which may be changed; then return <see cref="EventResponse.Restart"/>.</param>
    EventResponse OnStop(double t, Span<double> y);

    /// <summary>
    /// Called after each accepted step and before any event at its end, with the solution on
    /// [<see cref="DenseStep.Start"/>, <see cref="DenseStep.End"/>]; the end is the event when one was located.
    /// </summary>
    /// <param name="step">The step with its continuous extension; valid only during the call.</param>
    void OnStep(in DenseStep step);
}

/// <summary>Which zero crossing of an event function counts.</summary>
public enum EventDirection
{
    /// <summary>From negative to positive.</summary>
    Rising,

    /// <summary>From positive to negative.</summary>
    Falling,

    /// <summary>Both.</summary>
    Either,
}

/// <summary>What the integrator does after an event or a stop.</summary>
public enum EventResponse
{
    /// <summary>Goes on: neither state nor equations changed.</summary>
    Continue,

    /// <summary>State or equations changed: evaluates anew and picks a fresh step size.</summary>
    Restart,

    /// <summary>Ends the integration here.</summary>
    Stop,
}
