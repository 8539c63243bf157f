namespace FlowSim.Calibration;

/// <summary>Times at which a run is read off, fine enough that values between them follow from those beside them.</summary>
internal static class CourseGrid
{
    /// <summary>
    /// Largest gap as a share of the time it begins at, within a part of the whole: a run is busiest at its start. So chosen that a value between two times errs by
    /// at most a few thousandths of a common scatter (checked against SciPy, ReferenceFitTests.cs; engineering choice).
    /// </summary>
    private const double Growth = 0.05, SmallestParts = 4000, LargestParts = 200;

    /// <summary>Times for readings, s, increasing from 0.</summary>
    /// <param name="readingsS">Times of the readings, s, in any order.</param>
    /// <param name="marginS">How far the clock may shift them later.</param>
    public static double[] For(IEnumerable<double> readingsS, double marginS)
    {
        double[] wanted = [.. readingsS.Where(t => t > 0).Order()];
        double end = Math.Max(1e-3, (wanted.Length == 0 ? 0 : wanted[^1]) + marginS);
        var times = new List<double> { 0 };
        foreach (double t in wanted.Append(end))
        {
            while (t - times[^1] > 1.5 * Gap())
                times.Add(times[^1] + Gap());
            if (t - times[^1] >= 0.5 * Gap())
                times.Add(t);
        }

        if (times[^1] < end)
            times[^1] = end;
        return [.. times];

        double Gap() => Math.Clamp(Growth * times[^1], end / SmallestParts, end / LargestParts);
    }

    /// <summary>Value between the times: a cubic with slopes after Fritsch and Butland (1984), which makes no bump that the values do not have; from memory.</summary>
    /// <param name="times">Times, increasing, two or more.</param>
    /// <param name="values">Values at them.</param>
    /// <param name="t">Time; before the first and after the last the end values hold.</param>
    public static double At(ReadOnlySpan<double> times, ReadOnlySpan<double> values, double t)
    {
        if (!(t > times[0]))
            return values[0];
        if (t >= times[^1])
            return values[^1];
        int place = times.BinarySearch(t);
        if (place >= 0)
            return values[place];
        int i = ~place - 1;
        double h = times[i + 1] - times[i];
        double x = (t - times[i]) / h;
        double from = Slope(times, values, i) * h, to = Slope(times, values, i + 1) * h, rise = values[i + 1] - values[i];
        return values[i] + (x * (from + (x * ((3 * rise) - (2 * from) - to + (x * (from + to - (2 * rise)))))));
    }

    private static double Slope(ReadOnlySpan<double> times, ReadOnlySpan<double> values, int i)
    {
        if (i == 0)
            return (values[1] - values[0]) / (times[1] - times[0]);
        if (i == times.Length - 1)
            return (values[i] - values[i - 1]) / (times[i] - times[i - 1]);
        double before = times[i] - times[i - 1], after = times[i + 1] - times[i];
        double one = (values[i] - values[i - 1]) / before, other = (values[i + 1] - values[i]) / after;
        if (one * other <= 0)
            return 0;
        double share = (before + (2 * after)) / (3 * (before + after));
        return one * other / ((share * other) + ((1 - share) * one));
    }
}
