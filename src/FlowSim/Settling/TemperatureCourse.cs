using UnitsNet;

namespace FlowSim.Settling;

/// <summary>A history as a function of time: before its first and after its last point it stays.</summary>
internal readonly struct TemperatureCourse(TemperatureHistory history)
{
    /// <summary>Temperature, K.</summary>
    /// <param name="timeS">Time, s.</param>
    public double AtK(double timeS)
    {
        int i = After(timeS);
        ReadOnlySpan<double> times = history.TimesS, temperatures = history.TemperaturesK;
        if (i == 0 || i == times.Length)
            return temperatures[i == 0 ? 0 : ^1];
        double share = (timeS - times[i - 1]) / (times[i] - times[i - 1]);
        return temperatures[i - 1] + share * (temperatures[i] - temperatures[i - 1]);
    }

    /// <summary>Slope from this time on, K/s.</summary>
    /// <param name="timeS">Time, s.</param>
    public double SlopeKPerS(double timeS)
    {
        int i = After(timeS);
        ReadOnlySpan<double> times = history.TimesS, temperatures = history.TemperaturesK;
        return i == 0 || i == times.Length ? 0 : (temperatures[i] - temperatures[i - 1]) / (times[i] - times[i - 1]);
    }

    /// <summary>Next time at which the slope changes; infinite when there is none.</summary>
    /// <param name="timeS">Time, s.</param>
    public double NextBendS(double timeS)
    {
        int i = After(timeS);
        return i == history.TimesS.Length ? double.PositiveInfinity : history.TimesS[i];
    }

    /// <summary>Lowest and highest temperature between two times, K.</summary>
    /// <param name="fromS">From, s.</param>
    /// <param name="toS">To, s.</param>
    public (double ColdestK, double HottestK) Extremes(double fromS, double toS)
    {
        double coldest = Math.Min(AtK(fromS), AtK(toS)), hottest = Math.Max(AtK(fromS), AtK(toS));
        for (int i = 0; i < history.TimesS.Length; i++)
        {
            if (history.TimesS[i] < fromS || history.TimesS[i] > toS)
                continue;
            coldest = Math.Min(coldest, history.TemperaturesK[i]);
            hottest = Math.Max(hottest, history.TemperaturesK[i]);
        }

        return (coldest, hottest);
    }

    /// <summary>The part between two times.</summary>
    /// <param name="fromS">From, s.</param>
    /// <param name="toS">To, later than that, s.</param>
    public TemperatureHistory Between(double fromS, double toS)
    {
        List<double> timesS = [fromS];
        for (double bend = NextBendS(fromS); bend < toS; bend = NextBendS(bend))
            timesS.Add(bend);
        timesS.Add(toS);
        List<(Duration, Temperature)> points = [];
        foreach (double timeS in timesS)
            points.Add((Duration.FromSeconds(timeS), Temperature.FromKelvins(AtK(timeS))));
        return new TemperatureHistory(points);
    }

    /// <summary>Index of the first point after a time.</summary>
    private int After(double timeS)
    {
        ReadOnlySpan<double> times = history.TimesS;
        int low = 0, high = times.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (times[middle] > timeS)
                high = middle;
            else
                low = middle + 1;
        }

        return low;
    }
}
