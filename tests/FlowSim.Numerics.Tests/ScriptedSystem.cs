using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests;

internal delegate void RightHandSide(double t, ReadOnlySpan<double> y, Span<double> result);

internal delegate EventResponse Response(int index, double t, Span<double> y);

internal delegate void StepObserver(in DenseStep step);

/// <summary>A system put together from lambdas, which keeps a log of all it is told.</summary>
internal sealed class ScriptedSystem(int dimension) : HybridSystemBase(dimension)
{
    internal required RightHandSide Rhs { get; init; }

    /// <summary>If given, f does not depend on y and this is ∂f/∂t; otherwise the Jacobian is taken by differences.</summary>
    internal RightHandSide? TimeDerivativeOfQuadrature { get; init; }

    internal RightHandSide Events { get; init; } = (_, _, _) => { };

    internal EventDirection[] Directions { get; init; } = [];

    internal Response Respond { get; init; } = (_, _, _) => EventResponse.Continue;

    internal double[] Stops { get; init; } = [];

    internal Response RespondToStop { get; init; } = (_, _, _) => EventResponse.Continue;

    internal StepObserver Observe { get; init; } = (in _) => { };

    internal List<(int Index, double Time, double[] State)> EventLog { get; } = [];

    internal List<double> StopLog { get; } = [];

    internal List<(double Start, double End)> StepLog { get; } = [];

    public override int EventCount => Directions.Length;

    public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => Rhs(t, y, derivative);

    public override void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
    {
        if (TimeDerivativeOfQuadrature is null)
        {
            base.Jacobian(t, y, derivative, jacobian, timeDerivative, scratch);
            return;
        }

        jacobian.Clear();
        TimeDerivativeOfQuadrature(t, y, timeDerivative);
    }

    public override void EventValues(double t, ReadOnlySpan<double> y, Span<double> values) => Events(t, y, values);

    public override EventDirection DirectionOf(int index) => Directions[index];

    public override EventResponse OnEvent(int index, double t, Span<double> y)
    {
        EventLog.Add((index, t, y.ToArray()));
        return Respond(index, t, y);
    }

    public override double NextStop(double t) => Stops.Where(stop => stop > t).DefaultIfEmpty(double.PositiveInfinity).Min();

    public override EventResponse OnStop(double t, Span<double> y)
    {
        StopLog.Add(t);
        return RespondToStop(0, t, y);
    }

    public override void OnStep(in DenseStep step)
    {
        StepLog.Add((step.Start, step.End));
        Observe(step);
    }
}
