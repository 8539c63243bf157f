using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>Reads the depth of the pond of many runs and takes quantiles at each time.</summary>
internal static class PondFanBuilder
{
    private const int Intervals = 120;
    private const double EndsWithShare = 0.99;

    /// <summary>Times from 0 to when all but 1 % of the runs have ended, s.</summary>
    /// <param name="ends">When runs end.</param>
    public static double[] Times(TimeSketch ends)
    {
        double last = Math.Max(1, ends.Quantile(EndsWithShare));
        return [.. Enumerable.Range(0, Intervals + 1).Select(i => last * i / Intervals)];
    }

    /// <summary>Builds a fan.</summary>
    /// <param name="batch">Runs.</param>
    /// <param name="points">Draws, run by run.</param>
    /// <param name="runs">Their number.</param>
    /// <param name="timesS">Times.</param>
    /// <param name="cancellation">Ends early.</param>
    public static PondFan Build(StrainingBatch batch, ReadOnlySpan<double> points, int runs, double[] timesS, CancellationToken cancellation)
    {
        double[] depths = new double[runs * timesS.Length];
        batch.Run(points, new StrainingSample[runs], timesS, depths, cancellation);
        double[][] quantiles = [.. Enumerable.Range(0, 5).Select(_ => new double[timesS.Length])];
        double[] goingOn = new double[timesS.Length];
        double[] now = new double[runs];
        for (int t = 0; t < timesS.Length; t++)
        {
            int count = 0;
            for (int run = 0; run < runs; run++)
            {
                double depth = depths[(run * timesS.Length) + t];
                if (!double.IsNaN(depth))
                    now[count++] = depth;
            }

            Array.Sort(now, 0, count);
            goingOn[t] = (double)count / runs;
            for (int q = 0; q < quantiles.Length; q++)
                quantiles[q][t] = Quantile(now.AsSpan(0, count), q switch { 0 => 0.05, 1 => 0.25, 2 => 0.5, 3 => 0.75, _ => 0.95 });
        }

        return new PondFan
        {
            Times = [.. timesS.Select(seconds => Duration.FromSeconds(seconds))],
            Rim = batch.Setup.Strainer.Shape.RimHeight,
            P05 = quantiles[0],
            P25 = quantiles[1],
            P50 = quantiles[2],
            P75 = quantiles[3],
            P95 = quantiles[4],
            GoingOn = goingOn,
        };
    }

    /// <summary>Quantile of sorted values, linear between them (definition 7 of Hyndman and Fan 1996, from memory).</summary>
    private static double Quantile(ReadOnlySpan<double> sorted, double share)
    {
        if (sorted.IsEmpty)
            return double.NaN;
        double place = share * (sorted.Length - 1);
        int below = (int)place;
        double above = sorted[Math.Min(below + 1, sorted.Length - 1)];
        return sorted[below] + ((above - sorted[below]) * (place - below));
    }
}
