namespace FlowSim.Numerics.Ensemble;

/// <summary>Many runs of one kind of hybrid system, side by side: the equations lane by lane, and where runs come from and go to.</summary>
/// <remarks>
/// Every lane has its own time, state and modes. An event is a function that rises from below zero to zero or above; modes change
/// in <see cref="OnEvents"/> and <see cref="OnStops"/> only. What is asked of a lane that has no run may answer anything, NaN too.
/// </remarks>
/// <typeparam name="TLanes">Register.</typeparam>
public interface ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    /// <summary>Number of unknowns.</summary>
    int Dimension { get; }

    /// <summary>Number of event functions, at most 32.</summary>
    int EventCount { get; }

    /// <summary>Puts the next run into a lane.</summary>
    /// <param name="lane">Lane.</param>
    /// <param name="end">Its last time; it begins at 0.</param>
    /// <returns>False when there are no more runs.</returns>
    bool TryBegin(int lane, out double end);

    /// <summary>Writes the state at the start of runs that have just begun and sets their modes.</summary>
    /// <param name="lanes">Lanes, as bits.</param>
    /// <param name="y">State; other lanes are to be left alone.</param>
    /// <param name="scales">Typical size of each unknown, for the absolute tolerance; other lanes are to be left alone.</param>
    /// <returns>Lanes whose run ends at once.</returns>
    uint Start(uint lanes, Span<TLanes> y, Span<TLanes> scales);

    /// <summary>Rates.</summary>
    /// <param name="t">Time.</param>
    /// <param name="y">State.</param>
    /// <param name="derivative">Receives the rates.</param>
    void Derivative(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative);

    /// <summary>Rates and event functions at the end of a step, where both are wanted.</summary>
    /// <param name="t">Time.</param>
    /// <param name="y">State.</param>
    /// <param name="derivative">Receives the rates.</param>
    /// <param name="events">Receives the event functions.</param>
    void DerivativeAndEvents(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative, Span<TLanes> events);

    /// <summary>Event functions.</summary>
    /// <param name="t">Time.</param>
    /// <param name="y">State.</param>
    /// <param name="events">Receives them.</param>
    void Events(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> events);

    /// <summary>∂f/∂y, row by row, and ∂f/∂t.</summary>
    /// <param name="t">Time.</param>
    /// <param name="y">State.</param>
    /// <param name="derivative">Rates there.</param>
    /// <param name="jacobian">Receives ∂f/∂y.</param>
    /// <param name="timeDerivative">Receives ∂f/∂t.</param>
    void Jacobian(TLanes t, ReadOnlySpan<TLanes> y, ReadOnlySpan<TLanes> derivative, Span<TLanes> jacobian, Span<TLanes> timeDerivative);

    /// <summary>Finds events that rise and fall again within a step, which its ends do not show.</summary>
    /// <param name="lanes">Lanes that have made the step.</param>
    /// <param name="step">The step.</param>
    /// <param name="atStart">Event functions at its start.</param>
    /// <param name="atEnd">Event functions at its end.</param>
    /// <param name="theta">Receives, for the lanes returned, a place within the step (0 to 1) at which such a function is above zero.</param>
    /// <returns>Lanes with such an event.</returns>
    uint Hidden(uint lanes, in LaneStep<TLanes> step, ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> atEnd, ref TLanes theta);

    /// <summary>Looks at the part of a step that counts: up to its end or to the first event.</summary>
    /// <param name="lanes">Lanes that have made it.</param>
    /// <param name="step">The step.</param>
    /// <param name="part">Share of it that counts, 0 to 1.</param>
    void OnStep(uint lanes, in LaneStep<TLanes> step, TLanes part);

    /// <summary>Changes modes and state at events.</summary>
    /// <param name="lanes">Lanes with an event.</param>
    /// <param name="happened">Per lane the events, as bits.</param>
    /// <param name="t">Time.</param>
    /// <param name="y">State; other lanes are to be left alone.</param>
    /// <returns>Lanes whose run ends.</returns>
    uint OnEvents(uint lanes, ReadOnlySpan<uint> happened, TLanes t, Span<TLanes> y);

    /// <summary>The next time at which something is due in a lane, later than <paramref name="t"/>; +∞ when nothing is.</summary>
    /// <param name="lane">Lane.</param>
    /// <param name="t">Time.</param>
    double NextStop(int lane, double t);

    /// <summary>Does what is due.</summary>
    /// <param name="lanes">Lanes that are at their stop.</param>
    /// <param name="t">Time.</param>
    /// <param name="y">State; other lanes are to be left alone.</param>
    /// <returns>Lanes whose run ends.</returns>
    uint OnStops(uint lanes, TLanes t, Span<TLanes> y);

    /// <summary>Takes a run that has ended.</summary>
    /// <param name="lane">Lane.</param>
    /// <param name="ending">How.</param>
    /// <param name="t">When.</param>
    /// <param name="y">State, all lanes.</param>
    void Finish(int lane, LaneEnding ending, double t, Span<TLanes> y);
}

/// <summary>How a run in a lane ended.</summary>
public enum LaneEnding
{
    /// <summary>At its last time.</summary>
    ReachedEnd,

    /// <summary>The system ended it.</summary>
    Stopped,

    /// <summary>It took too many steps, or steps too small: it is better left to the integrator of single runs.</summary>
    GaveUp,
}
