using System.Numerics;
using FlowSim.Numerics.Ensemble;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>
/// Runs of an equation that depends on time, each with its own stiffness: <c>y₀′ = −λ(y₀ − cos t) − sin t</c>, <c>y₁′ = t cos y₁ + y₀/10</c>. When y₁ passes
/// 1 it is set back to −1, when it passes 0.9 that is counted; at t = 2 y₁ is set to 0. All of it written twice: here for lanes, in <see cref="Relaxing"/> for one.
/// </summary>
internal sealed class RelaxingLanes<TLanes>(double[] stiffness, double end) : ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    private readonly double[] _lambda = new double[TLanes.Count];
    private readonly int[] _run = new int[TLanes.Count];
    private readonly bool[] _stopped = new bool[TLanes.Count];
    private readonly int[] _resets = new int[TLanes.Count];
    private int _next;

    public double[] Y0 { get; } = new double[stiffness.Length];

    public double[] Y1 { get; } = new double[stiffness.Length];

    public int[] Resets { get; } = new int[stiffness.Length];

    public LaneEnding[] Endings { get; } = new LaneEnding[stiffness.Length];

    public int Dimension => 2;

    public int EventCount => 1;

    public void Again() => _next = 0;

    public bool TryBegin(int lane, out double endOfRun)
    {
        endOfRun = end;
        if (_next == stiffness.Length)
            return false;
        _run[lane] = _next++;
        _lambda[lane] = stiffness[_run[lane]];
        _stopped[lane] = false;
        _resets[lane] = 0;
        return true;
    }

    public uint Start(uint lanes, Span<TLanes> y, Span<TLanes> scales)
    {
        TLanes mine = TLanes.Mask(lanes);
        y[0] = TLanes.Select(mine, TLanes.Of(1), y[0]);
        y[1] = TLanes.Select(mine, TLanes.Of(0), y[1]);
        scales[0] = scales[1] = TLanes.Of(1);
        return 0;
    }

    public void Derivative(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative)
    {
        TLanes a = y[0], b = y[1];
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            double time = Lane.At(ref t, lane), u = Lane.At(ref a, lane), v = Lane.At(ref b, lane);
            Lane.At(ref derivative[0], lane) = (-_lambda[lane] * (u - Math.Cos(time))) - Math.Sin(time);
            Lane.At(ref derivative[1], lane) = (time * Math.Cos(v)) + (u / 10);
        }
    }

    public void DerivativeAndEvents(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative, Span<TLanes> events)
    {
        Derivative(t, y, derivative);
        Events(t, y, events);
    }

    public void Events(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> events) => events[0] = y[1] - TLanes.Of(1);

    public void Jacobian(TLanes t, ReadOnlySpan<TLanes> y, ReadOnlySpan<TLanes> derivative, Span<TLanes> jacobian, Span<TLanes> timeDerivative)
    {
        TLanes b = y[1];
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            double time = Lane.At(ref t, lane), v = Lane.At(ref b, lane);
            Lane.At(ref jacobian[0], lane) = -_lambda[lane];
            Lane.At(ref jacobian[1], lane) = 0;
            Lane.At(ref jacobian[2], lane) = 0.1;
            Lane.At(ref jacobian[3], lane) = -time * Math.Sin(v);
            Lane.At(ref timeDerivative[0], lane) = (-_lambda[lane] * Math.Sin(time)) - Math.Cos(time);
            Lane.At(ref timeDerivative[1], lane) = Math.Cos(v);
        }
    }

    public uint Hidden(uint lanes, in LaneStep<TLanes> step, ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> atEnd, ref TLanes theta) => 0;

    public void OnStep(uint lanes, in LaneStep<TLanes> step, TLanes part)
    {
    }

    public uint OnEvents(uint lanes, ReadOnlySpan<uint> happened, TLanes t, Span<TLanes> y)
    {
        y[1] = TLanes.Select(TLanes.Mask(lanes), TLanes.Of(-1), y[1]);
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
            _resets[BitOperations.TrailingZeroCount(rest)]++;
        return 0;
    }

    public double NextStop(int lane, double t) => _stopped[lane] ? double.PositiveInfinity : 2;

    public uint OnStops(uint lanes, TLanes t, Span<TLanes> y)
    {
        y[1] = TLanes.Select(TLanes.Mask(lanes), TLanes.Of(0), y[1]);
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
            _stopped[BitOperations.TrailingZeroCount(rest)] = true;
        return 0;
    }

    public void Finish(int lane, LaneEnding ending, double t, Span<TLanes> y)
    {
        int run = _run[lane];
        (Y0[run], Y1[run]) = (Lane.At(ref y[0], lane), Lane.At(ref y[1], lane));
        (Resets[run], Endings[run]) = (_resets[lane], ending);
    }
}
