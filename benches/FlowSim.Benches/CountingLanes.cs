using FlowSim.Numerics.Ensemble;
using FlowSim.Straining;

namespace FlowSim.Benches;

/// <summary>Straining lanes that count how often the integrator asks them: each question is one evaluation of the right-hand side in every lane.</summary>
/// <remarks>What the lanes evaluate for themselves at events is not counted.</remarks>
internal sealed class CountingLanes<TLanes>(StrainingLanes<TLanes> inner) : ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    public long Derivatives { get; private set; }

    public long WithEvents { get; private set; }

    public long EventsAlone { get; private set; }

    public int Dimension => inner.Dimension;

    public int EventCount => inner.EventCount;

    public bool TryBegin(int lane, out double end) => inner.TryBegin(lane, out end);

    public uint Start(uint lanes, Span<TLanes> y, Span<TLanes> scales) => inner.Start(lanes, y, scales);

    public void Derivative(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative)
    {
        Derivatives++;
        inner.Derivative(t, y, derivative);
    }

    public void DerivativeAndEvents(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative, Span<TLanes> events)
    {
        WithEvents++;
        inner.DerivativeAndEvents(t, y, derivative, events);
    }

    public void Events(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> events)
    {
        EventsAlone++;
        inner.Events(t, y, events);
    }

    public void Jacobian(TLanes t, ReadOnlySpan<TLanes> y, ReadOnlySpan<TLanes> derivative, Span<TLanes> jacobian, Span<TLanes> timeDerivative) =>
        inner.Jacobian(t, y, derivative, jacobian, timeDerivative);

    public uint Hidden(uint lanes, in LaneStep<TLanes> step, ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> atEnd, ref TLanes theta) =>
        inner.Hidden(lanes, step, atStart, atEnd, ref theta);

    public void OnStep(uint lanes, in LaneStep<TLanes> step, TLanes part) => inner.OnStep(lanes, step, part);

    public uint OnEvents(uint lanes, ReadOnlySpan<uint> happened, TLanes t, Span<TLanes> y) => inner.OnEvents(lanes, happened, t, y);

    public double NextStop(int lane, double t) => inner.NextStop(lane, t);

    public uint OnStops(uint lanes, TLanes t, Span<TLanes> y) => inner.OnStops(lanes, t, y);

    public void Finish(int lane, LaneEnding ending, double t, Span<TLanes> y) => inner.Finish(lane, ending, t, y);
}
