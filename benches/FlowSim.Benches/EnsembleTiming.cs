using System.Diagnostics;
using FlowSim.Straining;

namespace FlowSim.Benches;

/// <summary>What <see cref="EnsembleMeasurement"/> and <see cref="EnsemblePeerComparison"/> share.</summary>
internal static class EnsembleTiming
{
    /// <summary>Tolerance of the runs that errors are told by.</summary>
    public const double ReferenceTolerance = 1e-10;

    /// <summary>An ensemble of the plain pail.</summary>
    public static StrainingEnsemble Of(LaneWidth width, double relativeTolerance, int threads = 1) => new(
        PlainPail.Setup,
        EnsembleDraws.Varied,
        new EnsembleOptions { Lanes = width, RelativeTolerance = relativeTolerance, Threads = threads });

    /// <summary>The first runs of some draws, one by one by the integrator of single runs.</summary>
    public static StrainingSample[] Reference(double[] values, int count, double relativeTolerance = ReferenceTolerance)
    {
        var samples = new StrainingSample[count];
        Of(LaneWidth.OneByOne, relativeTolerance).Run(values.AsMemory(0, count * EnsembleDraws.Varied.Count), samples);
        return samples;
    }

    /// <summary>Makes runs until the methods that they pass through are compiled as well as they will be.</summary>
    public static void WarmUp(StrainingEnsemble ensemble, double[] values, StrainingSample[] samples)
    {
        var clock = Stopwatch.StartNew();
        do
        {
            ensemble.Run(values.AsMemory(0, samples.Length * EnsembleDraws.Varied.Count), samples);
        }
        while (clock.Elapsed < TimeSpan.FromSeconds(1.5));
    }

    /// <summary>Processor and wall time of a call, s.</summary>
    public static (double Processor, double Wall) Time(Action call)
    {
        TimeSpan before = Environment.CpuUsage.TotalTime;
        long start = Stopwatch.GetTimestamp();
        call();
        double wall = Stopwatch.GetElapsedTime(start).TotalSeconds;
        return ((Environment.CpuUsage.TotalTime - before).TotalSeconds, wall);
    }

    /// <summary>Middle of some values; it sorts them.</summary>
    public static double Median(double[] values) => Quantile(values, 0.5);

    /// <summary>Quantile by rank; it sorts the values.</summary>
    public static double Quantile(double[] values, double share)
    {
        Array.Sort(values);
        return values.Length == 0 ? double.NaN : values[Math.Min(values.Length - 1, (int)(share * values.Length))];
    }
}
