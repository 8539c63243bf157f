using System.Numerics;
using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Scripts side by side in lanes. What is asked of a lane without a run is NaN, and no call may come for no lane at all.</summary>
internal sealed class ScriptedLanes<TLanes>(params RunScript[] scripts) : ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    /// <summary>The absolute tolerance as a share of the relative one.</summary>
    internal const double AbsoluteShare = 0.01;

    private readonly int[] _run = [.. Enumerable.Repeat(-1, TLanes.Count)];
    private readonly double[] _time = new double[TLanes.Count];
    private int _next;

    internal RunLog[] Logs { get; } = [.. scripts.Select(_ => new RunLog())];

    public int Dimension { get; init; } = scripts.Length == 0 ? 1 : scripts[0].Start.Length;

    public int EventCount { get; init; } = scripts.Length == 0 ? 0 : scripts[0].EventCount;

    /// <summary>All scripts in lanes.</summary>
    internal static (RunLog[] Logs, long Steps, long Rejected) Run(double tolerance, LaneMethod method, int mostSteps, params RunScript[] scripts)
    {
        var system = new ScriptedLanes<TLanes>(scripts);
        var integrator = new EnsembleIntegrator<ScriptedLanes<TLanes>, TLanes>(system, tolerance, tolerance * AbsoluteShare, method, mostSteps);
        integrator.Run(CancellationToken.None);
        return (system.Logs, integrator.Steps, integrator.RejectedSteps);
    }

    public bool TryBegin(int lane, out double end)
    {
        end = double.NaN;
        if (_next == scripts.Length)
            return false;
        Assert.Equal(-1, _run[lane]);
        end = scripts[_next].End;
        Logs[_next].Lane = lane;
        _time[lane] = 0;
        _run[lane] = _next++;
        return true;
    }

    public uint Start(uint lanes, Span<TLanes> y, Span<TLanes> scales)
    {
        uint over = 0;
        foreach (int lane in Lanes(lanes))
        {
            RunScript script = scripts[_run[lane]];
            for (int i = 0; i < Dimension; i++)
            {
                Lane.At(ref y[i], lane) = script.Start[i];
                Lane.At(ref scales[i], lane) = script.Scales?[i] ?? 1;
            }

            if (script.EndsAtOnce)
                over |= 1u << lane;
        }

        return over;
    }

    public void Derivative(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative)
    {
        Each(t, y, derivative, Dimension, run => scripts[run].Rates);
        Count(log => log.DerivativeCalls++);
    }

    public void DerivativeAndEvents(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> derivative, Span<TLanes> events)
    {
        Derivative(t, y, derivative);
        Each(t, y, events, EventCount, run => scripts[run].Events);
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            // At the present time it is asked at a start, event or stop, of this lane or another.
            double end = Lane.At(ref t, lane);
            if (_run[lane] >= 0 && end != _time[lane])
                Logs[_run[lane]].Tries.Add(new LaneTry(end, Of(y, lane)));
        }
    }

    public void Events(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> events)
    {
        Each(t, y, events, EventCount, run => scripts[run].Events);
        Count(log => log.EventCalls++);
    }

    public void Jacobian(TLanes t, ReadOnlySpan<TLanes> y, ReadOnlySpan<TLanes> derivative, Span<TLanes> jacobian, Span<TLanes> timeDerivative)
    {
        double[] matrix = new double[Dimension * Dimension], time = new double[Dimension];
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            Array.Fill(matrix, double.NaN);
            Array.Fill(time, double.NaN);
            if (_run[lane] >= 0)
                scripts[_run[lane]].Slopes(Lane.At(ref t, lane), Of(y, lane), matrix, time);
            Put(matrix, jacobian, lane);
            Put(time, timeDerivative, lane);
        }
    }

    public uint Hidden(uint lanes, in LaneStep<TLanes> step, ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> atEnd, ref TLanes theta)
    {
        uint hidden = 0;
        TLanes top = step.Top(0);
        TLanes[] y = new TLanes[Dimension], events = new TLanes[EventCount];
        step.At(top, y);
        Each(TLanes.MultiplyAdd(top, step.Length, step.Start), y, events, EventCount, run => scripts[run].Events);
        foreach (int lane in Lanes(lanes))
        {
            TLanes start = atStart[0], end = atEnd[0];
            if (scripts[_run[lane]].HidesAtTheTop && Lane.At(ref start, lane) < 0 && Lane.At(ref end, lane) < 0 && Lane.At(ref events[0], lane) > 0)
            {
                hidden |= 1u << lane;
                Lane.At(ref theta, lane) = Lane.At(ref top, lane);
            }
        }

        return hidden;
    }

    public void OnStep(uint lanes, in LaneStep<TLanes> step, TLanes part)
    {
        TLanes partway = TLanes.MultiplyAdd(part, step.Length, step.Start);
        TLanes[] atPart = new TLanes[Dimension], within = new TLanes[Dimension];
        step.At(part, atPart);
        step.At(part * TLanes.Of(0.37), within);
        foreach (int lane in Lanes(lanes))
        {
            LaneTry made = Logs[_run[lane]].Tries[^1];
            (made.Accepted, made.Part, made.AtPart, made.Within) = (true, Lane.At(ref part, lane), Of(atPart, lane), Of(within, lane));
            (made.Time, made.Next) = (made.Part < 1 ? Lane.At(ref partway, lane) : made.End, made.AtPart);
            _time[lane] = made.Time;
        }
    }

    public uint OnEvents(uint lanes, ReadOnlySpan<uint> happened, TLanes t, Span<TLanes> y)
    {
        uint over = 0;
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            if ((lanes >> lane & 1) == 0)
                Assert.Equal(0u, happened[lane]);
        }

        foreach (int lane in Lanes(lanes))
        {
            Assert.NotEqual(0u, happened[lane]);
            for (int index = 0; index < 32; index++)
            {
                if ((happened[lane] >> index & 1) == 0)
                    continue;
                Logs[_run[lane]].Events.Add((index, Lane.At(ref t, lane), Of(y, lane)));
                over |= Respond(scripts[_run[lane]].OnEvent, index, lane, t, y);
            }
        }

        return over;
    }

    public double NextStop(int lane, double t) => scripts[_run[lane]].NextStop(t);

    public uint OnStops(uint lanes, TLanes t, Span<TLanes> y)
    {
        uint over = 0;
        foreach (int lane in Lanes(lanes))
        {
            Logs[_run[lane]].Stops.Add(Lane.At(ref t, lane));
            over |= Respond(scripts[_run[lane]].OnStop, 0, lane, t, y);
        }

        return over;
    }

    public void Finish(int lane, LaneEnding ending, double t, Span<TLanes> y)
    {
        RunLog log = Logs[_run[lane]];
        Assert.Null(log.Ending);
        Assert.Equal(_time[lane], t);
        (log.Ending, log.Time, log.State) = (ending, t, Of(y, lane));
        _run[lane] = -1;
    }

    private uint Respond(Response response, int index, int lane, TLanes t, Span<TLanes> y)
    {
        Assert.Equal(_time[lane], Lane.At(ref t, lane));
        double[] state = Of(y, lane);
        EventResponse answer = response(index, _time[lane], state);
        Put(state, y, lane);
        LaneTry made = Logs[_run[lane]].Tries[^1];
        (made.Next, made.Anew) = (state, true);
        return answer == EventResponse.Stop ? 1u << lane : 0;
    }

    private static IEnumerable<int> Lanes(uint lanes)
    {
        Assert.NotEqual(0u, lanes);
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
            yield return BitOperations.TrailingZeroCount(rest);
    }

    private static double[] Of(ReadOnlySpan<TLanes> values, int lane)
    {
        double[] one = new double[values.Length];
        for (int i = 0; i < one.Length; i++)
        {
            TLanes value = values[i];
            one[i] = Lane.At(ref value, lane);
        }

        return one;
    }

    private static void Put(double[] one, Span<TLanes> values, int lane)
    {
        for (int i = 0; i < one.Length; i++)
            Lane.At(ref values[i], lane) = one[i];
    }

    private void Each(TLanes t, ReadOnlySpan<TLanes> y, Span<TLanes> results, int count, Func<int, RightHandSide> of)
    {
        double[] result = new double[count];
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            Array.Fill(result, double.NaN);
            if (_run[lane] >= 0)
                of(_run[lane])(Lane.At(ref t, lane), Of(y, lane), result);
            Put(result, results, lane);
        }
    }

    private void Count(Action<RunLog> count)
    {
        foreach (int run in _run.Where(run => run >= 0))
            count(Logs[run]);
    }
}
