using FlowSim.Numerics.Events;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>Reads the depth of the pond at given times off a run.</summary>
internal sealed class PondTrace(StrainingParameters parameters, ReadOnlyMemory<double> timesS, Memory<double> depthsM)
{
    private int _next;

    public void NoteStep(in DenseStep step)
    {
        ReadOnlySpan<double> times = timesS.Span;
        while (_next < times.Length && times[_next] <= step.End)
        {
            double t = Math.Max(times[_next], step.Start);
            double volume = step.Evaluate(t, PondKg) / parameters.Honey.DensityKgPerM3(step.Evaluate(t, PondK));
            depthsM.Span[_next++] = parameters.Form.PondDepthM(volume);
        }
    }

    /// <summary>After the end there is nothing to read.</summary>
    public void NoteEnd() => depthsM.Span[_next..].Fill(double.NaN);
}
