using FlowSim.Numerics.Events;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>Reads quantities at given times off a run.</summary>
/// <param name="parameters">The run.</param>
/// <param name="trace">What is read.</param>
/// <param name="run">Number of the run in it.</param>
internal sealed class RunTrace(StrainingParameters parameters, EnsembleTrace trace, int run)
{
    private readonly double[] _state = new double[FirstOpenShare + parameters.ClothResistancesPerM.Length];
    private int _next;

    public void NoteStep(StrainingSystem system, in DenseStep step)
    {
        ReadOnlySpan<double> times = trace.TimesS.Span;
        while (_next < times.Length && times[_next] <= step.End)
        {
            double t = Math.Max(times[_next], step.Start);
            step.Evaluate(t, _state);
            Read(system, t, _state, _next++);
        }
    }

    /// <summary>After the end all stays as it is, or there is nothing to read.</summary>
    public void NoteEnd(StrainingSystem system, double t, ReadOnlySpan<double> y)
    {
        int first = _next;
        if (first == trace.TimesS.Length)
            return;
        if (trace.HoldsLast)
            Read(system, t, y, first);
        for (int q = 0; q < trace.Quantities.Length; q++)
        {
            Span<double> values = trace.Of(run, q);
            values[first..].Fill(trace.HoldsLast ? values[first] : double.NaN);
        }
    }

    private void Read(StrainingSystem system, double t, ReadOnlySpan<double> y, int at)
    {
        StrainingHydraulics.Evaluate(parameters, system.Mode, t, y, out StrainingFlows f);
        ReadOnlySpan<StrainingObservable> quantities = trace.Quantities.Span;
        for (int q = 0; q < quantities.Length; q++)
        {
            trace.Of(run, q)[at] = quantities[q] switch
            {
                StrainingObservable.PondDepth => f.PondDepthM,
                StrainingObservable.TankLevel => f.TankLevelM,
                StrainingObservable.TankMass => y[TankKg],
                StrainingObservable.TankVolume => parameters.Tank.VolumeM3(f.TankLevelM),
                StrainingObservable.ReceiverLevel => f.ReceiverLevelM,
                StrainingObservable.ReceiverMass => system.Mode.ReceiverKg(parameters, y),
                _ => parameters.Receiver.VolumeM3(f.ReceiverLevelM),
            };
        }
    }
}
