using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests;

/// <summary>Robertson's reaction: stiff, with a conserved sum, and two events that move by nine decades in time.</summary>
internal sealed class Robertson(bool withEvents = false) : HybridSystemBase(3)
{
    internal List<(int Index, double Time, double[] State)> Log { get; } = [];

    public override int EventCount => withEvents ? 2 : 0;

    public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        double first = 0.04 * y[0];
        double second = 1e4 * y[1] * y[2];
        double third = 3e7 * y[1] * y[1];
        derivative[0] = second - first;
        derivative[1] = first - second - third;
        derivative[2] = third;
    }

    public override void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
    {
        double a = 1e4 * y[1], b = 1e4 * y[2], c = 6e7 * y[1];
        ReadOnlySpan<double> rows = [-0.04, b, a, 0.04, -b - c, -a, 0, c, 0];
        rows.CopyTo(jacobian);
        timeDerivative.Clear();
    }

    public override void EventValues(double t, ReadOnlySpan<double> y, Span<double> values)
    {
        values[0] = y[0] - 1e-4;
        values[1] = y[2] - 0.01;
    }

    public override EventDirection DirectionOf(int index) => EventDirection.Either;

    public override EventResponse OnEvent(int index, double t, Span<double> y)
    {
        Log.Add((index, t, y.ToArray()));
        return EventResponse.Continue;
    }
}
