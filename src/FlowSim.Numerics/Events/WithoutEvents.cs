using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Events;

/// <summary>A plain system seen as a hybrid one that has no events and no stops.</summary>
/// <typeparam name="TSystem">The plain system.</typeparam>
internal struct WithoutEvents<TSystem>(TSystem system) : IHybridSystem
    where TSystem : IOdeSystem
{
    // Not readonly: a readonly field would be copied before each call on a struct.
    private TSystem _system = system;

    public readonly int Dimension => _system.Dimension;

    public readonly int EventCount => 0;

    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
        _system.Derivative(t, y, derivative);

    public void Jacobian(
        double t,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> derivative,
        Span<double> jacobian,
        Span<double> timeDerivative,
        Span<double> scratch) =>
        _system.Jacobian(t, y, derivative, jacobian, timeDerivative, scratch);

    public readonly void EventValues(double t, ReadOnlySpan<double> y, Span<double> values)
    {
    }

    public readonly EventDirection DirectionOf(int index) => EventDirection.Either;

    public readonly EventResponse OnEvent(int index, double t, Span<double> y) => EventResponse.Continue;

    public readonly double NextStop(double t) => double.PositiveInfinity;

    public readonly EventResponse OnStop(double t, Span<double> y) => EventResponse.Continue;

    public readonly void OnStep(in DenseStep step)
    {
    }
}
