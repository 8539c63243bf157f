using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>The longest interval between scrapes within a tolerance, with the gate left as it is.</summary>
internal static class ScrapeSearch
{
    private const double ShortestS = 60;
    private const double Ratio = 1.25;

    /// <summary>Most scrapes of a run, as of a setup.</summary>
    private const int MostScrapes = 1000;

    /// <summary>Finds the interval: by bisection among 1 min, 1.25 min … up to the length of the runs, taking a longer one as never better. At most 1000 scrapes.</summary>
    /// <param name="setup">The gate left, nobody scraping; what a scrape clears is as it stands there.</param>
    /// <param name="unscraped">Runs of it.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="runs">Runs for each interval, a multiple of <see cref="RunDraws.Replicates"/>.</param>
    /// <param name="run">Runs a setup with the draws of the question.</param>
    public static ScrapeAdvice Find(StrainingSetup setup, RunTally unscraped, double tolerance, int runs, Func<StrainingSetup, int, RunTally> run)
    {
        int counted = Math.Min(runs, unscraped.OverflowS.Count);
        long over = unscraped.OverflowS.Take(counted).Count(double.IsFinite);
        if (Chance.IsWithin(over, counted, Chance.AsFarAsTold(tolerance, counted)))
            return new ScrapeAdvice(false, null, null);

        double longestS = unscraped.EndS.Take(counted).Max();
        int intervals = 1;
        while (ShortestS * Math.Pow(Ratio, intervals) < longestS)
            intervals++;

        (int holds, int tooLong, ProbabilityEstimate? chance) = (-1, intervals, null);
        int next = 0; // The shortest first: if not even that suffices, none does.
        while (tooLong - holds > 1)
        {
            RunTally tally = run(setup with { Scraping = setup.Scraping with { Times = Every(next, setup.Longest.Seconds) } }, runs);
            long hits = tally.Overflow.Sum();
            if (Chance.IsWithin(hits, tally.Runs, Chance.AsFarAsTold(tolerance, tally.Runs)))
                (holds, chance) = (next, Chance.Pooled(hits, tally.Runs));
            else
                tooLong = next;
            next = (holds + tooLong) / 2;
        }

        return holds < 0 ? new ScrapeAdvice(true, null, null) : new ScrapeAdvice(true, Interval(holds), chance);
    }

    private static Duration[] Every(int interval, double untilS)
    {
        double seconds = Interval(interval).Seconds;
        int scrapes = (int)Math.Clamp(Math.Ceiling(untilS / seconds), 1, MostScrapes);
        return [.. Enumerable.Range(1, scrapes).Select(scrape => Duration.FromSeconds(scrape * seconds))];
    }

    private static Duration Interval(int interval) => Duration.FromSeconds(ShortestS * Math.Pow(Ratio, interval));
}
