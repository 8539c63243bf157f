using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>
/// The deepest pond that may be ridden: with the gate left as wide as it is, it takes longer from there to the rim than between two looks, but for
/// the tolerance.
/// </summary>
/// <remarks>
/// For a run that first runs over at T, let D be the deepest that its pond had been up to T less the time between two looks. From a depth
/// d &gt; D it is at the rim before somebody looks again; so d may be as deep as the k + 1-th smallest D, k being what the tolerance allows.
/// </remarks>
internal static class RideSearch
{
    private const double StepM = 0.001;

    /// <summary>As in <see cref="RiddenGate.PondDepth"/>.</summary>
    private const double MarginM = 0.001;

    /// <summary>Runs whose ponds are read together: alike in the time of their overflow, so that one fine grid serves them.</summary>
    private const int Together = 128;

    private const int CoarseTimes = 24;
    private const int FineTimes = 96;

    /// <summary>Finds the depth.</summary>
    /// <param name="batch">The gate left at its widest, nobody scraping.</param>
    /// <param name="points">Draws, run by run.</param>
    /// <param name="runs">Their number.</param>
    /// <param name="lookEveryS">Time between two looks, s.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="cancellation">Ends early.</param>
    public static RideAdvice Find(StrainingBatch batch, ReadOnlySpan<double> points, int runs, double lookEveryS, double tolerance, CancellationToken cancellation)
    {
        double rimM = batch.Setup.Strainer.Shape.RimHeight.Meters;
        double lowestM = batch.Setup.Strainer.MinimumHead.Meters + MarginM;
        double highestM = rimM - MarginM;
        long allowed = Chance.MostHits(runs, Chance.AsFarAsTold(tolerance, runs));
        double[] before = DepthsBefore(batch, points, runs, lookEveryS, cancellation);
        Array.Sort(before);
        double deepestM = before.Length <= allowed ? highestM : Math.Min(highestM, before[allowed]);
        deepestM = Math.Floor((deepestM / StepM) + 1e-9) * StepM;
        if (deepestM < lowestM)
            return new RideAdvice(null, null);

        return new RideAdvice(Length.FromMeters(deepestM), Chance.Pooled(before.Count(d => d < deepestM), runs));
    }

    /// <summary>The deepest pond up to the last look before the overflow, m, of each run that runs over.</summary>
    private static double[] DepthsBefore(StrainingBatch batch, ReadOnlySpan<double> points, int runs, double lookEveryS, CancellationToken cancellation)
    {
        int width = batch.Dimensions;
        var samples = new StrainingSample[runs];
        batch.Run(points, samples, cancellation);
        int[] over = [.. Enumerable.Range(0, runs).Where(i => samples[i].RanOver).OrderBy(i => samples[i].FirstOverflowSeconds).ThenBy(i => i)];
        double[] before = new double[over.Length];
        double[] some = new double[Together * width];
        var again = new StrainingSample[Together];
        double[] depths = new double[Together * (CoarseTimes + FineTimes)];
        for (int first = 0; first < over.Length; first += Together)
        {
            int[] runsNow = over[first..Math.Min(over.Length, first + Together)];
            double[] times = Times(
                Math.Max(0, samples[runsNow[0]].FirstOverflowSeconds - lookEveryS),
                Math.Max(0, samples[runsNow[^1]].FirstOverflowSeconds - lookEveryS));
            for (int i = 0; i < runsNow.Length; i++)
                points.Slice(runsNow[i] * width, width).CopyTo(some.AsSpan(i * width));
            batch.Run(
                some.AsSpan(0, runsNow.Length * width),
                again.AsMemory(0, runsNow.Length),
                times,
                depths.AsMemory(0, runsNow.Length * times.Length),
                cancellation);
            for (int i = 0; i < runsNow.Length; i++)
                before[first + i] = DeepestUpTo(samples[runsNow[i]].FirstOverflowSeconds - lookEveryS, times, depths.AsSpan(i * times.Length, times.Length));
        }

        return before;
    }

    /// <summary>Times to read at: coarse up to the first last look, fine from there to the last.</summary>
    private static double[] Times(double fromS, double toS)
    {
        var times = new List<double> { 0 };
        for (int i = 1; i <= CoarseTimes && fromS > 0; i++)
            times.Add(fromS * i / CoarseTimes);
        for (int i = 1; i < FineTimes && toS > fromS; i++)
            times.Add(fromS + ((toS - fromS) * i / (FineTimes - 1)));
        return [.. times];
    }

    private static double DeepestUpTo(double seconds, double[] times, ReadOnlySpan<double> depths)
    {
        double deepest = 0;
        for (int i = 0; i < times.Length && times[i] <= seconds; i++)
        {
            deepest = Math.Max(deepest, depths[i]);
            if (i + 1 < times.Length && times[i + 1] > seconds && double.IsFinite(depths[i + 1]))
                deepest = Math.Max(deepest, depths[i] + ((depths[i + 1] - depths[i]) * (seconds - times[i]) / (times[i + 1] - times[i])));
        }

        return deepest;
    }
}
