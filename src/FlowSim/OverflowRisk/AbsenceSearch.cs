using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>How long nobody need stand by, from the times of many unattended runs.</summary>
/// <remarks>
/// From the start: at most as many runs may run over within the absence as keep the high end of the 95 % interval within the tolerance. From a
/// later moment the runs at risk are those that are still going on and have not run over; of n such runs the tolerance's share may run over, and the
/// worst moment counts, which is caution enough. Where n is so small that fewer than ten events at the tolerance could be told, ten in n stand in
/// for the tolerance, so a late moment with few runs left counts with what they can tell; with fewer than 20 left it does not count. All this only
/// ever allows more as the tolerance grows, so the absence does too.
/// </remarks>
internal static class AbsenceSearch
{
    /// <summary>Fewest runs at risk that still tell something: ten events at the coarsest tolerance, 50 %.</summary>
    private const int FewestAtRisk = 20;

    /// <summary>Finds the absence.</summary>
    /// <param name="overflowS">When each run ran over first, s; +∞ when it did not.</param>
    /// <param name="endS">When each run ended, s.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    public static AbsenceAdvice Of(ReadOnlySpan<double> overflowS, ReadOnlySpan<double> endS, double tolerance)
    {
        int runs = overflowS.Length;
        double[] leaves = new double[runs];
        var over = new List<double>();
        for (int i = 0; i < runs; i++)
        {
            leaves[i] = Math.Min(overflowS[i], endS[i]);
            if (double.IsFinite(overflowS[i]))
                over.Add(overflowS[i]);
        }

        Array.Sort(leaves);
        over.Sort();
        int fromTheStartAllowed = (int)Chance.MostHits(runs, Chance.AsFarAsTold(tolerance, runs));
        double fromTheStart = fromTheStartAllowed < over.Count ? over[fromTheStartAllowed] : double.PositiveInfinity;
        (double longest, double worst) = (fromTheStart, 0);

        // The absence shrinks as the moment moves on, until a run leaves: the shortest is just before one does.
        int passed = 0;
        for (int left = 0; runs - left >= FewestAtRisk; left++)
        {
            int atRisk = runs - left;
            int allowed = (int)(atRisk * Chance.AsFarAsTold(tolerance, atRisk));
            double next = passed + allowed < over.Count ? over[passed + allowed] : double.PositiveInfinity;
            double absence = next - leaves[left];
            if (absence < longest)
                (longest, worst) = (absence, leaves[left]);
            while (passed < over.Count && over[passed] <= leaves[left])
                passed++;
        }

        return new AbsenceAdvice(Told(longest), Told(fromTheStart), double.IsFinite(longest) ? Duration.FromSeconds(worst) : null);
    }

    /// <summary>How long from one moment on, by the runs that are still at risk then.</summary>
    /// <param name="dangerS">When each run is in danger first, s; +∞ when it never is.</param>
    /// <param name="endS">When each run ends, s.</param>
    /// <param name="fromS">The moment, s.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <returns>Time, s; +∞ when the rest of the run is within the tolerance; 0 when fewer than 20 runs are left and most of all have been in danger by then.</returns>
    public static double From(ReadOnlySpan<double> dangerS, ReadOnlySpan<double> endS, double fromS, double tolerance)
    {
        var ahead = new List<double>();
        int atRisk = 0, passed = 0;
        for (int i = 0; i < dangerS.Length; i++)
        {
            if (dangerS[i] <= fromS)
                passed++;
            else if (endS[i] > fromS)
                atRisk++;
            if (dangerS[i] > fromS && double.IsFinite(dangerS[i]))
                ahead.Add(dangerS[i]);
        }

        if (atRisk < FewestAtRisk)
            return 2 * passed > dangerS.Length ? 0 : ahead.Count == 0 ? double.PositiveInfinity : ahead.Min() - fromS;
        ahead.Sort();
        int allowed = (int)(atRisk * Chance.AsFarAsTold(tolerance, atRisk));
        return allowed < ahead.Count ? ahead[allowed] - fromS : double.PositiveInfinity;
    }

    private static Duration? Told(double seconds) => double.IsFinite(seconds) ? Duration.FromSeconds(Math.Max(0, seconds)) : null;
}
