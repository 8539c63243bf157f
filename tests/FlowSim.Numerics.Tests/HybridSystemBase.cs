using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests;

/// <summary>A hybrid system without events and stops, with a difference Jacobian; tests override what they are about.</summary>
internal abstract class HybridSystemBase(int dimension) : IHybridSystem
{
    public int Dimension => dimension;

    public virtual int EventCount => 0;

    public abstract void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative);

    public virtual void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
    {
        FiniteDifferenceJacobian.Forward(this, t, y, derivative, jacobian, timeDerivative, scratch);
    }

    public virtual void EventValues(double t, ReadOnlySpan<double> y, Span<double> values)
    {
    }

    public virtual EventDirection DirectionOf(int index) => EventDirection.Rising;

    public virtual EventResponse OnEvent(int index, double t, Span<double> y) => EventResponse.Continue;

    public virtual double NextStop(double t) => double.PositiveInfinity;

    public virtual EventResponse OnStop(double t, Span<double> y) => EventResponse.Continue;

    public virtual void OnStep(in DenseStep step)
    {
    }
}
