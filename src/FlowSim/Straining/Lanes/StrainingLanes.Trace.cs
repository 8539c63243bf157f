using System.Numerics;
using FlowSim.Numerics.Ensemble;

namespace FlowSim.Straining;

/// <content>Quantities read at given times, as in <see cref="RunTrace"/>.</content>
internal sealed partial class StrainingLanes<TLanes>
{
    private void Trace(uint lanes, in LaneStep<TLanes> step, TLanes part)
    {
        ref LaneRecord<TLanes> record = ref Record;
        TLanes end = TLanes.MultiplyAdd(part, step.Length, step.Start);
        EnsembleTrace trace = _batch.Trace;
        ReadOnlySpan<double> times = trace.TimesS.Span;
        Span<TLanes> state = Moved;
        while (true)
        {
            uint now = TLanes.Bits(record.TraceS <= end) & lanes;
            if (now == 0)
                return;
            TLanes theta = TLanes.Min(TLanes.Max((record.TraceS - step.Start) / step.Length, Zero), part);
            for (int i = 0; i < Dimension; i++)
                state[i] = step.At(theta, i);
            Read(now, TLanes.MultiplyAdd(theta, step.Length, step.Start), state);
            for (uint rest = now; rest != 0; rest &= rest - 1)
            {
                int lane = BitOperations.TrailingZeroCount(rest);
                int at = ++_traced[lane];
                Lane.At(ref record.TraceS, lane) = at < times.Length ? times[at] : double.PositiveInfinity;
            }
        }
    }

    /// <summary>Writes what each of some lanes shows, at its place in its own trace.</summary>
    private void Read(uint lanes, TLanes t, ReadOnlySpan<TLanes> y)
    {
        EnsembleTrace trace = _batch.Trace;
        ReadOnlySpan<StrainingObservable> quantities = trace.Quantities.Span;
        LaneFlows<TLanes> f = default;
        Pond(y, ref f);
        if (quantities.ContainsAnyExcept(StrainingObservable.PondDepth))
        {
            Receiver(y, ref f);
            Tank(t, y, ref f);
        }

        for (int q = 0; q < quantities.Length; q++)
        {
            TLanes values = quantities[q] switch
            {
                StrainingObservable.PondDepth => f.PondDepthM,
                StrainingObservable.TankMass => y[TankKg],
                StrainingObservable.ReceiverMass => f.ReceiverKg,
                StrainingObservable.ReceiverLevel or StrainingObservable.ReceiverVolume => f.ReceiverLevelM,
                _ => f.TankLevelM,
            };
            for (uint rest = lanes; rest != 0; rest &= rest - 1)
            {
                int lane = BitOperations.TrailingZeroCount(rest);
                double value = Lane.At(ref values, lane);
                trace.Of(_run[lane], q)[_traced[lane]] = quantities[q] switch
                {
                    StrainingObservable.TankVolume => _tanks[lane].VolumeM3(value),
                    StrainingObservable.ReceiverVolume => _receivers[lane].VolumeM3(value),
                    _ => value,
                };
            }
        }
    }

    /// <summary>After the end all stays as it is, or there is nothing to read.</summary>
    private void EndTrace(int lane, int run, double t, ReadOnlySpan<TLanes> y)
    {
        EnsembleTrace trace = _batch.Trace;
        int first = _traced[lane];
        if (first >= trace.TimesS.Length)
            return;
        if (trace.HoldsLast)
            Read(1u << lane, TLanes.Of(t), y);
        for (int q = 0; q < trace.Quantities.Length; q++)
        {
            Span<double> values = trace.Of(run, q);
            values[first..].Fill(trace.HoldsLast ? values[first] : double.NaN);
        }
    }
}
